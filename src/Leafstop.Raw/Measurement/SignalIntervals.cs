using System.Runtime.CompilerServices;

namespace Leafstop.Raw.Measurement;

/// <summary>Thirds of a stop above an offset, ⌊3 · log₂(1 + units)⌋: wide steps in bright parts, whole units in the darkest.</summary>
internal static class SignalIntervals
{
    private const double PerStop = 3;
    private const int LastWhole = 8191;

    private static readonly double[] Starts = [.. Enumerable.Range(0, 100).Select(i => Math.Pow(2, i / PerStop) - 1)];

    /// <summary>The interval of every whole number of units; from there the right one is a step or two away.</summary>
    private static readonly byte[] OfWhole = [.. Enumerable.Range(0, LastWhole + 1).Select(units => (byte)(Array.FindIndex(Starts, s => s > units) - 1))];

    /// <summary>The interval that holds a number of units.</summary>
    /// <param name="units">0 or more; nothing above 2³³ has an interval of its own.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static int Of(double units)
    {
        int i = OfWhole[double.ConvertToIntegerNative<int>(units < LastWhole ? units : LastWhole)];
        while (i + 1 < Starts.Length && Starts[i + 1] <= units) i++;
        return i;
    }

    /// <summary>The least number of units in an interval.</summary>
    public static double Start(int interval) => Starts[interval];
}
