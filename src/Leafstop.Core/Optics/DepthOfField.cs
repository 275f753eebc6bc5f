using Leafstop.Core.Quantities;

namespace Leafstop.Core.Optics;

/// <summary>What lies within a permitted blur when a lens is focused at a distance.</summary>
/// <remarks>Exact thin lens, [LENSFAQ]: near = s f² / (f² + N c (s − f)), far with a minus, infinite when the denominator is not positive. Written
/// here with reciprocal distances, so that infinity is a number like any other. Geometry alone: diffraction is not in it. Rows DOF-07 to DOF-16.</remarks>
public sealed record DepthOfField
{
    /// <summary>A far limit whose reciprocal is below this share of the focus's is infinity: far above rounding, far below any focus that can be set.</summary>
    private const double InfinityHair = 1e-12;

    private DepthOfField(SubjectDistance focus, SubjectDistance near, SubjectDistance far) => (Focus, Near, Far) = (focus, near, far);

    /// <summary>Distance focused on.</summary>
    public SubjectDistance Focus { get; }

    /// <summary>Nearest point within the blur.</summary>
    public SubjectDistance Near { get; }

    /// <summary>Farthest point within the blur.</summary>
    public SubjectDistance Far { get; }

    /// <summary>Far less near; null when far is infinity.</summary>
    public Length? Depth => Far.IsInfinite ? null : Length.FromMillimetres(Far.Millimetres - Near.Millimetres);

    /// <summary>The limits for a focus.</summary>
    /// <param name="lens">The lens.</param>
    /// <param name="aperture">Literal f-number.</param>
    /// <param name="focus">Distance focused on; infinity allowed.</param>
    /// <param name="circleOfConfusion">Largest blur on the sensor that is taken for sharp, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">The focus is not beyond the focal length, or the circle is zero.</exception>
    public static DepthOfField Of(Lens lens, FNumber aperture, SubjectDistance focus, Length circleOfConfusion)
    {
        double f = lens.FocalLength.Millimetres;
        double reach = aperture.Ratio * Lens.Circle(circleOfConfusion) / (f * f) * (1 - lens.FocalShare(focus));
        double toFocus = 1 / focus.Millimetres;
        double toFar = toFocus - reach;
        return new DepthOfField(focus, SubjectDistance.FromMillimetres(1 / (toFocus + reach)),
            toFar <= InfinityHair * toFocus ? SubjectDistance.Infinity : SubjectDistance.FromMillimetres(1 / toFar));
    }
}
