using Leafstop.Core.Quantities;

namespace Leafstop.Core.Optics;

/// <summary>A lens as geometry sees it: one thin lens of a focal length.</summary>
/// <remarks>Distances are from the lens (its front principal plane) unless a member says otherwise; see <see cref="FocusMark"/> for those from the
/// sensor. The thin lens is exact for a perfect lens whose pupils are equal; real lenses change focal length as they focus, which
/// matters close up and not in a landscape. [LENSFAQ], the lens equation.</remarks>
public sealed record Lens
{
    private Lens(Length focalLength, double pupilRatio) => (FocalLength, PupilRatio) = (focalLength, pupilRatio);

    /// <summary>Focal length.</summary>
    public Length FocalLength { get; }

    /// <summary>Diameter of the exit pupil over that of the entrance pupil: 1 for a symmetric lens, above 1 for most wide lenses, below for most long ones.</summary>
    public double PupilRatio { get; }

    /// <summary>Takes a focal length.</summary>
    /// <param name="focalLength">Above zero.</param>
    /// <param name="pupilRatio">Exit over entrance pupil, finite and above zero; it only has a say in the effective f-number.</param>
    /// <exception cref="ArgumentOutOfRangeException">Out of range.</exception>
    public static Lens Of(Length focalLength, double pupilRatio = 1)
    {
        if (focalLength.Millimetres <= 0)
            throw new ArgumentOutOfRangeException(nameof(focalLength), focalLength.Millimetres, "A focal length is above zero.");
        if (!double.IsFinite(pupilRatio) || pupilRatio <= 0)
            throw new ArgumentOutOfRangeException(nameof(pupilRatio), pupilRatio, "A pupil ratio is finite and above zero.");
        return new Lens(focalLength, pupilRatio);
    }

    /// <summary>Distance from the lens to the sharp image: v = s f / (s − f).</summary>
    /// <exception cref="ArgumentOutOfRangeException">The subject is not beyond the focal length.</exception>
    public Length ImageDistance(SubjectDistance subject) => Length.FromMillimetres(FocalLength.Millimetres / (1 - FocalShare(subject)));

    /// <summary>Size of the image over that of the subject: m = f / (s − f); zero at infinity.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The subject is not beyond the focal length.</exception>
    public double Magnification(SubjectDistance subject)
    {
        double share = FocalShare(subject);
        return share / (1 - share);
    }

    /// <summary>The f-number of the cone of light that reaches the sensor: N (1 + m / p). Rows DOF-34.</summary>
    /// <param name="aperture">As set.</param>
    /// <param name="focus">Distance focused on.</param>
    /// <exception cref="ArgumentOutOfRangeException">The focus is not beyond the focal length.</exception>
    public FNumber EffectiveAperture(FNumber aperture, SubjectDistance focus) =>
        FNumber.FromRatio(aperture.Ratio * (1 + Magnification(focus) / PupilRatio));

    /// <summary>Light lost to the effective f-number: 2 log2(1 + m / p). A meter behind the lens sees it already. Rows DOF-28 to DOF-32.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The focus is not beyond the focal length.</exception>
    public Stops CloseUpLoss(SubjectDistance focus) => Stops.Of(2 * Math.Log2(1 + Magnification(focus) / PupilRatio));

    /// <summary>The nearest focus that still keeps infinity within the blur: H = f² / (N c) + f. At this focus the near limit is H / 2.</summary>
    /// <param name="aperture">Literal f-number.</param>
    /// <param name="circleOfConfusion">Largest blur on the sensor that is taken for sharp, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">The circle is zero.</exception>
    public SubjectDistance Hyperfocal(FNumber aperture, Length circleOfConfusion)
    {
        double f = FocalLength.Millimetres;
        return SubjectDistance.FromMillimetres(f * f / (aperture.Ratio * Circle(circleOfConfusion)) + f);
    }

    /// <summary>Diameter on the sensor of the blur of a point: b = (f² / N) |x − s| / (x (s − f)). Row DOF-17.</summary>
    /// <remarks>Geometry alone: diffraction comes on top, see <see cref="BlurTransfer"/>. At infinity: f² / (N (s − f)).</remarks>
    /// <param name="aperture">Literal f-number.</param>
    /// <param name="focus">Distance focused on.</param>
    /// <param name="point">Distance of the point, infinity allowed.</param>
    /// <exception cref="ArgumentOutOfRangeException">The focus is not beyond the focal length.</exception>
    public Length BlurDisc(FNumber aperture, SubjectDistance focus, SubjectDistance point)
    {
        double f = FocalLength.Millimetres;
        double apart = Math.Abs(1 / focus.Millimetres - 1 / point.Millimetres);
        return Length.FromMillimetres(f * f / aperture.Ratio * apart / (1 - FocalShare(focus)));
    }

    /// <summary>f / s, checked to be below one.</summary>
    internal double FocalShare(SubjectDistance focus)
    {
        double share = FocalLength.Millimetres / focus.Millimetres;
        return share < 1
            ? share
            : throw new ArgumentOutOfRangeException(nameof(focus), focus.Millimetres, "A lens cannot focus at or inside its focal length.");
    }

    internal static double Circle(Length circleOfConfusion) => circleOfConfusion.Millimetres > 0
        ? circleOfConfusion.Millimetres
        : throw new ArgumentOutOfRangeException(nameof(circleOfConfusion), circleOfConfusion.Millimetres, "A circle of confusion is above zero.");
}
