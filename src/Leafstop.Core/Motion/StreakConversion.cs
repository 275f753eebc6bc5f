using Leafstop.Core.Quantities;

namespace Leafstop.Core.Motion;

/// <summary>A water shutter taken to another lens, distance or format.</summary>
/// <param name="From">Exposure in the first view.</param>
/// <param name="Exact">Exposure with the same streak in the other, literal.</param>
public sealed record StreakConversion(ShutterTime From, ShutterTime Exact)
{
    /// <summary>The nearest mark of the dial, as an exact power.</summary>
    public ShutterTime Mark(DialStep step = DialStep.Thirds) => Exact.NearestMark(step);

    /// <summary>How much the gap grows between the two exposures as dialled; positive = less light.</summary>
    public Stops GapGrows(DialStep step = DialStep.Thirds) => Stops.FromRatio(From.Seconds / Mark(step).Seconds);
}
