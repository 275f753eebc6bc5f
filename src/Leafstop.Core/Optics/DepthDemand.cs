using Leafstop.Core.Quantities;

namespace Leafstop.Core.Optics;

/// <summary>A near and a far limit that one frame shall hold, and the focus that serves both alike.</summary>
/// <remarks>The focus is the harmonic mean, s = 2 n F / (n + F), exact for a thin lens: both limits then have the same blur. With infinity it is twice the near
/// limit. Row DOF-18.</remarks>
public sealed record DepthDemand
{
    private DepthDemand(Lens lens, SubjectDistance near, SubjectDistance far)
    {
        (Lens, Near, Far) = (lens, near, far);
        Focus = SubjectDistance.FromMillimetres(2 / (1 / near.Millimetres + 1 / far.Millimetres));
    }

    /// <summary>The lens.</summary>
    public Lens Lens { get; }

    /// <summary>Nearest thing that must be sharp.</summary>
    public SubjectDistance Near { get; }

    /// <summary>Farthest thing that must be sharp.</summary>
    public SubjectDistance Far { get; }

    /// <summary>Distance to focus on.</summary>
    public SubjectDistance Focus { get; }

    /// <summary>Distance between the sharp images of the two limits, behind the lens.</summary>
    public Length FocusSpread
    {
        get
        {
            double f = Lens.FocalLength.Millimetres;
            // The difference of two image distances, without subtracting two numbers that are nearly equal.
            return Length.FromMillimetres(f * f * (1 / Near.Millimetres - 1 / Far.Millimetres) / ((1 - Lens.FocalShare(Near)) * (1 - Lens.FocalShare(Far))));
        }
    }

    /// <summary>Takes the limits.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Near is not beyond the focal length, or not nearer than far.</exception>
    public static DepthDemand Of(Lens lens, SubjectDistance near, SubjectDistance far)
    {
        lens.FocalShare(near);
        if (near >= far)
            throw new ArgumentOutOfRangeException(nameof(near), near.Millimetres, "The near limit is nearer than the far limit.");
        return new DepthDemand(lens, near, far);
    }

    /// <summary>Blur at either limit.</summary>
    /// <param name="aperture">Literal f-number.</param>
    public Length BlurAtLimits(FNumber aperture) => Lens.BlurDisc(aperture, Focus, Near);

    /// <summary>The widest aperture whose blur at the limits is within the circle, by geometry alone: N = (f² / c) (s − n) / (n (s − f)).</summary>
    /// <param name="circleOfConfusion">Largest blur on the sensor that is taken for sharp, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">The circle is zero.</exception>
    public FNumber WidestAperture(Length circleOfConfusion) =>
        FNumber.FromRatio(BlurAtLimits(FNumber.FromRatio(1)).Millimetres / Lens.Circle(circleOfConfusion));
}
