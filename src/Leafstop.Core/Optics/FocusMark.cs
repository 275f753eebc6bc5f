using Leafstop.Core.Quantities;

namespace Leafstop.Core.Optics;

/// <summary>Distances measured from the focus mark on the camera, which lies in the plane of the sensor.</summary>
/// <remarks>Scales on lenses count from there. A subject at s from the lens is s + v + gap from the mark, v being the image distance of what is focused on and gap
/// the distance between the lens's principal planes (0 for a thin lens; a few millimetres to some centimetres, and of either sign, in real ones: common practice, no source).</remarks>
public static class FocusMark
{
    /// <summary>The focus, from the lens, when the scale shows a distance from the mark: the larger root of s² − D s + D f = 0 with D less the gap.</summary>
    /// <param name="lens">The lens.</param>
    /// <param name="fromMark">Focus distance from the mark.</param>
    /// <param name="principalGap">Distance between the principal planes.</param>
    /// <exception cref="ArgumentOutOfRangeException">Nearer than four focal lengths and the gap, which no lens can focus on.</exception>
    public static SubjectDistance ToLens(Lens lens, SubjectDistance fromMark, Length principalGap = default)
    {
        if (fromMark.IsInfinite)
            return fromMark;
        double whole = fromMark.Millimetres - principalGap.Millimetres;
        double under = whole - 4 * lens.FocalLength.Millimetres;
        return whole > 0 && under >= 0
            ? SubjectDistance.FromMillimetres((whole + Math.Sqrt(whole * under)) / 2)
            : throw new ArgumentOutOfRangeException(nameof(fromMark), fromMark.Millimetres, "From the mark a lens cannot focus nearer than four focal lengths.");
    }

    /// <summary>The distance from the mark of a point whose distance from the lens is known.</summary>
    /// <param name="lens">The lens.</param>
    /// <param name="focus">What is focused on, from the lens.</param>
    /// <param name="point">The point, from the lens.</param>
    /// <param name="principalGap">Distance between the principal planes.</param>
    /// <exception cref="ArgumentOutOfRangeException">The focus is not beyond the focal length.</exception>
    public static SubjectDistance FromLens(Lens lens, SubjectDistance focus, SubjectDistance point, Length principalGap = default) =>
        SubjectDistance.FromMillimetres(point.Millimetres + lens.ImageDistance(focus).Millimetres + principalGap.Millimetres);

    /// <summary>The demand, from the lens, for limits that were measured from the mark.</summary>
    /// <remarks>Where the lens stands depends on the focus and the focus on the limits, so they are worked out in turns; each turn shrinks the error by about m²
    /// and sixty of them are more than any focus beyond life size needs.</remarks>
    /// <exception cref="ArgumentOutOfRangeException">The near limit comes to lie inside the focal length, or near is not nearer than far.</exception>
    public static DepthDemand DemandFromMark(Lens lens, SubjectDistance near, SubjectDistance far, Length principalGap = default)
    {
        double behind = lens.FocalLength.Millimetres + principalGap.Millimetres;
        for (int turn = 0; ; turn++)
        {
            if (near.Millimetres - behind <= lens.FocalLength.Millimetres)
                throw new ArgumentOutOfRangeException(nameof(near), near.Millimetres, "A lens cannot focus at or inside its focal length.");
            DepthDemand demand = DepthDemand.Of(lens, SubjectDistance.FromMillimetres(near.Millimetres - behind), SubjectDistance.FromMillimetres(far.Millimetres - behind));
            double next = lens.ImageDistance(demand.Focus).Millimetres + principalGap.Millimetres;
            if (turn == 60 || Math.Abs(next - behind) <= 1e-12 * next)
                return demand;
            behind = next;
        }
    }

    /// <summary>The fewest frames that hold limits measured from the mark: every frame stands on its own, so each end is taken from the lens of the frame that holds it.</summary>
    /// <remarks>The ends depend on the frames and the frames on the ends; they are worked out in turns as in <see cref="DemandFromMark"/>.</remarks>
    /// <param name="lens">The lens.</param>
    /// <param name="near">Near limit, from the mark.</param>
    /// <param name="far">Far limit, from the mark.</param>
    /// <param name="aperture">Literal f-number.</param>
    /// <param name="circleOfConfusion">Largest blur on the sensor that is taken for sharp.</param>
    /// <param name="overlap">Least share of a frame's depth that the next one holds too.</param>
    /// <exception cref="ArgumentOutOfRangeException">As <see cref="DemandFromMark"/> and <see cref="FocusSteps.Plan"/>.</exception>
    public static FocusSteps StepsFromMark(Lens lens, SubjectDistance near, SubjectDistance far, FNumber aperture, Length circleOfConfusion, double overlap)
    {
        FocusSteps steps = FocusSteps.Plan(DemandFromMark(lens, near, far), aperture, circleOfConfusion, overlap);
        for (int turn = 0; turn < 60; turn++)
        {
            FocusSteps before = steps;
            steps = FocusSteps.Plan(DepthDemand.Of(lens, FromLensOf(before.Frames[^1], near), FromLensOf(before.Frames[0], far)), aperture, circleOfConfusion, overlap);
            if (steps.Frames.Length == before.Frames.Length
                && Math.Abs(steps.Frames[^1].Focus.Millimetres - before.Frames[^1].Focus.Millimetres) <= 1e-12 * before.Frames[^1].Focus.Millimetres)
                break;
        }

        return steps;

        SubjectDistance FromLensOf(DepthOfField frame, SubjectDistance fromMark) =>
            SubjectDistance.FromMillimetres(fromMark.Millimetres - lens.ImageDistance(frame.Focus).Millimetres);
    }
}
