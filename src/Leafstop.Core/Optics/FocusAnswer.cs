using Leafstop.Core.Quantities;

namespace Leafstop.Core.Optics;

/// <summary>What a lens holds sharp at an aperture and a focus.</summary>
public sealed record FocusAnswer
{
    private FocusAnswer(Lens lens, FNumber aperture, PermittedBlur blur, DepthOfField depth, Length wavelength)
    {
        (Lens, Aperture, Blur, Depth) = (lens, aperture, blur, depth);
        Effective = lens.EffectiveAperture(aperture, depth.Focus);
        Hyperfocal = lens.Hyperfocal(aperture, blur.Circle);
        BlurAtInfinity = BlurAt(SubjectDistance.Infinity);
        Airy = Diffraction.AiryDiameter(Effective, wavelength);
        PointWidth = Diffraction.FullWidthAtHalfMaximum(Effective, wavelength);
        double Contrast(Length disc) => BlurTransfer.Exact(blur.LinePairsPerMillimetre, disc, Effective, wavelength);
        ContrastAtFocus = Contrast(default);
        ContrastAtLimits = Contrast(blur.Circle);
    }

    /// <summary>The lens.</summary>
    public Lens Lens { get; }

    /// <summary>Literal f-number as set.</summary>
    public FNumber Aperture { get; }

    /// <summary>f-number of the light that reaches the sensor at this focus.</summary>
    public FNumber Effective { get; }

    /// <summary>What passes for sharp.</summary>
    public PermittedBlur Blur { get; }

    /// <summary>Focus and limits, by geometry.</summary>
    public DepthOfField Depth { get; }

    /// <summary>Nearest focus that keeps infinity.</summary>
    public SubjectDistance Hyperfocal { get; }

    /// <summary>Blur of a point at infinity, on the sensor.</summary>
    public Length BlurAtInfinity { get; }

    /// <summary>First dark ring of diffraction, on the sensor.</summary>
    public Length Airy { get; }

    /// <summary>Width at half of the peak that diffraction gives a point, on the sensor.</summary>
    public Length PointWidth { get; }

    /// <summary>Exact contrast of the finest detail where the focus is: diffraction alone, 0 to 1.</summary>
    public double ContrastAtFocus { get; }

    /// <summary>Exact contrast of the finest detail at the limits, blur and diffraction together.</summary>
    public double ContrastAtLimits { get; }

    /// <summary>Answers for an aperture and a focus.</summary>
    /// <param name="lens">The lens.</param>
    /// <param name="aperture">Literal f-number.</param>
    /// <param name="focus">Distance focused on, from the lens.</param>
    /// <param name="blur">What passes for sharp.</param>
    /// <param name="wavelength">Above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">The focus is not beyond the focal length, or the defocus is past ten thousand waves.</exception>
    public static FocusAnswer Of(Lens lens, FNumber aperture, SubjectDistance focus, PermittedBlur blur, Length wavelength) =>
        new(lens, aperture, blur, DepthOfField.Of(lens, aperture, focus, blur.Circle), wavelength);

    /// <summary>Blur on the sensor of a point at a distance.</summary>
    public Length BlurAt(SubjectDistance point) => Lens.BlurDisc(Aperture, Depth.Focus, point);
}
