using Leafstop.Core.Quantities;

namespace Leafstop.Core.Judging;

/// <summary>What is shown in a trial: frames of one ISO, mixed so that the noise is that of the same or a lower ISO.</summary>
/// <remarks>The mean of a pair with weights w and 1 − w has the variance of one frame times w² + (1 − w)² (PRN-03 for w = 1/2), and the same brightness. Where noise is that of light,
/// variance at one brightness goes with ISO, and so the level counts as an ISO lower by log2 of that, at most one stop. Where read noise counts the scale between two ISOs of the
/// ladder bends a little; at the ladder's own ISOs it is exact by definition. Range of w: 0.5 to 1.</remarks>
public sealed record ShownLevel
{
    private ShownLevel(Iso iso, double weight, double stops) => (Iso, Weight, EquivalentStops) = (iso, weight, stops);

    /// <summary>ISO of the frames.</summary>
    public Iso Iso { get; }

    /// <summary>Weight of the one frame, 0.5 to 1; the other one has the rest. Which of the two frames it is, a trial says.</summary>
    public double Weight { get; }

    /// <summary>The ISO whose noise is shown, in stops above ISO 100.</summary>
    public double EquivalentStops { get; }

    /// <summary>The ISO whose noise is shown.</summary>
    public Iso Equivalent => FromStops(EquivalentStops);

    /// <summary>One frame as it is.</summary>
    public static ShownLevel OneFrame(Iso iso) => new(iso, 1, Stops(iso));

    /// <summary>Frames mixed with these weights.</summary>
    /// <param name="iso">ISO of the pair.</param>
    /// <param name="weight">0.5 to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">The weight is out of range.</exception>
    public static ShownLevel Mixed(Iso iso, double weight) => weight is >= 0.5 and <= 1
        ? new ShownLevel(iso, weight, Stops(iso) + Math.Log2(weight * weight + (1 - weight) * (1 - weight)))
        : throw new ArgumentOutOfRangeException(nameof(weight), weight, "The weight of a frame in a pair is from 0.5 to 1.");

    /// <summary>Frames mixed so that the noise lies this far below that of one frame: w = (1 + √(2v − 1)) / 2 with v = 2^−stops.</summary>
    /// <param name="iso">ISO of the pair.</param>
    /// <param name="stopsLower">0 to 1 stop of light.</param>
    /// <exception cref="ArgumentOutOfRangeException">More than a pair can give.</exception>
    public static ShownLevel Lowered(Iso iso, double stopsLower)
    {
        if (stopsLower is not (>= 0 and <= 1))
            throw new ArgumentOutOfRangeException(nameof(stopsLower), stopsLower, "A pair lowers its noise by 0 to 1 stop of light.");
        double weight = (1 + Math.Sqrt(Math.Max(0, 2 * Math.Pow(2, -stopsLower) - 1))) / 2;
        return new ShownLevel(iso, weight, Stops(iso) - stopsLower);
    }

    /// <summary>Stops above ISO 100.</summary>
    internal static double Stops(Iso iso) => Math.Log2(iso.Speed / 100);

    /// <summary>The ISO so many stops above 100.</summary>
    internal static Iso FromStops(double stops) => Iso.FromSpeed(100 * Math.Pow(2, stops));
}
