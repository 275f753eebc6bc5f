using System.Globalization;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Text.Json;
using Leafstop.Raw.Frames;
using Leafstop.Raw.Measurement;
using Leafstop.Raw.Synthetic;

namespace Leafstop.Benchmarks;

/// <summary>The statistics of a 24 MP pair beside a plain pass over its memory and beside numpy, all in one run.</summary>
internal static class Speed
{
    public static int Run(string[] args)
    {
        int times = args.Length > 0 ? int.Parse(args[0], CultureInfo.InvariantCulture) : 5;
        using BenchPair pair = BenchPair.Render(BenchMosaic.TwoByTwo, 6000, 4000);
        using JsonDocument numpy = NumpyScript.Run(pair, times, withTiles: false);
        double read = Clock.Best(times, () => _ = Pass(pair.First) ^ Pass(pair.Second));
        double plain = Clock.Best(times, () => PairSums.OfSites(pair.First, pair.Second));
        double robust = Clock.Best(times, () => RobustStatistics.Of(pair));
        double plainNumpy = numpy.RootElement.GetProperty("plainSeconds").GetDouble(), robustNumpy = numpy.RootElement.GetProperty("robustSeconds").GetDouble();

        Console.WriteLine($"best of {times}, 6000 x 4000, 2x2");
        Say($"read pass of both frames      {1000 * read,9:F1} ms");
        bool holds = Row("plain pair sums", plain, plainNumpy, 8, 10) & Row("binned robust statistics", robust, robustNumpy, 20, 15);
        return holds ? 0 : 1;

        bool Row(string what, double ours, double theirs, double mostPasses, double leastTimes)
        {
            Say($"{what,-29} {1000 * ours,9:F1} ms   {ours / read,6:F1} x the read pass (at most {mostPasses})   numpy {1000 * theirs:F0} ms, {theirs / ours:F1} x (at least {leastTimes})");
            return ours <= mostPasses * read && theirs >= leastTimes * ours;
        }

        static void Say(FormattableString line) => Console.WriteLine(line.ToString(CultureInfo.InvariantCulture));
    }

    /// <summary>Reads every sample once, 64 bytes a step, and does no more than must be done to have read it.</summary>
    private static ulong Pass(MosaicFrame frame)
    {
        ReadOnlySpan<Vector256<ulong>> vectors = MemoryMarshal.Cast<ushort, Vector256<ulong>>(frame.Samples.Span);
        Vector256<ulong> even = default, odd = default;
        for (int i = 0; i + 1 < vectors.Length; i += 2)
        {
            even ^= vectors[i];
            odd ^= vectors[i + 1];
        }

        return Vector256.Sum(even ^ odd);
    }
}
