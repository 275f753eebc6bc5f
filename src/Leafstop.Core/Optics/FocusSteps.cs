using System.Collections.Immutable;
using Leafstop.Core.Quantities;

namespace Leafstop.Core.Optics;

/// <summary>Frames focused one behind the other, so that together they hold a depth that one frame cannot.</summary>
/// <remarks>For a thin lens the reciprocal image distance q = 1/f − 1/x of a frame's limits is q (1 − kf) and q (1 + kf) with q that of its focus and k = N c / f²: every frame
/// covers the same ratio of q. So the fewest frames are a geometric series in q, row DOF-20, and an overlap is a share of that ratio. Exact; diffraction is not in it.</remarks>
public sealed record FocusSteps
{
    /// <summary>More frames than this are refused: a sign that the aperture or the blur was mistaken.</summary>
    public const int Most = 500;

    // Rounding shall not add a frame where the depth is just held.
    private const double Hair = 1e-9;

    private FocusSteps(ImmutableArray<DepthOfField> frames, double overlap) => (Frames, Overlap) = (frames, overlap);

    /// <summary>The frames, farthest first.</summary>
    public ImmutableArray<DepthOfField> Frames { get; }

    /// <summary>Share of each frame's depth that the next one holds too; the rest of a division is spread evenly, so it is at least what was asked. 1 for a single frame.</summary>
    public double Overlap { get; }

    /// <summary>Plans the fewest frames that hold a depth at an aperture.</summary>
    /// <param name="demand">The depth.</param>
    /// <param name="aperture">Literal f-number, the same for all frames.</param>
    /// <param name="circleOfConfusion">Largest blur on the sensor that is taken for sharp, above zero.</param>
    /// <param name="overlap">Least share of a frame's depth that the next one holds too, from 0, below 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">Out of range, or it takes more than <see cref="Most"/> frames.</exception>
    public static FocusSteps Plan(DepthDemand demand, FNumber aperture, Length circleOfConfusion, double overlap)
    {
        if (overlap is not (>= 0 and < 1))
            throw new ArgumentOutOfRangeException(nameof(overlap), overlap, "An overlap is a share from 0, below 1.");
        double f = demand.Lens.FocalLength.Millimetres;
        double kf = aperture.Ratio * Lens.Circle(circleOfConfusion) / f;
        // A blur as wide as the opening itself: everything beyond the focal length is within it.
        if (kf >= 1)
            throw new ArgumentOutOfRangeException(nameof(circleOfConfusion), circleOfConfusion.Millimetres, "The blur is as wide as the opening of the lens.");
        double first = Math.Log(1 / f - 1 / demand.Far.Millimetres);
        double whole = first - Math.Log(1 / f - 1 / demand.Near.Millimetres);
        double reach = Math.Log((1 + kf) / (1 - kf));
        double more = Math.Ceiling((whole - reach) / (reach * (1 - overlap)) - Hair);
        if (more + 1 > Most)
            throw new ArgumentOutOfRangeException(nameof(aperture), aperture.Ratio, $"It takes more than {Most} frames.");
        int count = 1 + Math.Max(0, (int)more);
        if (count == 1)
            return new FocusSteps([DepthOfField.Of(demand.Lens, aperture, demand.Focus, circleOfConfusion)], 1);
        double step = (whole - reach) / (count - 1);
        double focus = first - Math.Log(1 + kf);
        return new FocusSteps(
        [
            .. Enumerable.Range(0, count).Select(i => DepthOfField.Of(demand.Lens, aperture,
                SubjectDistance.FromMillimetres(1 / (1 / f - Math.Exp(focus - i * step))), circleOfConfusion)),
        ], 1 - step / reach);
    }
}
