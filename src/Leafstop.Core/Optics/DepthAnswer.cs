using System.Collections.Immutable;
using Leafstop.Core.Quantities;

namespace Leafstop.Core.Optics;

/// <summary>Focus and aperture for limits that one frame shall hold: by geometry, by exact contrast and by the rule of practice.</summary>
public sealed record DepthAnswer
{
    private DepthAnswer(DepthDemand demand, PermittedBlur blur, Length wavelength)
    {
        (Demand, Blur, Wavelength) = (demand, blur, wavelength);
        ByGeometry = demand.WidestAperture(blur.Circle);
        Sharpest = SharpestAperture.Exact(demand, blur.LinePairsPerMillimetre, wavelength);
        Holding = Sharpest is null
            ? null
            : SharpestAperture.Holding(demand, Sharpest, blur.LinePairsPerMillimetre, wavelength, SharpestAperture.JustSharpContrast);
        FNumber rule = SharpestAperture.ByRule(demand, wavelength);
        ByRule = new ApertureContrast(rule, ContrastAt(rule));
    }

    /// <summary>Lens, limits and the focus that serves both.</summary>
    public DepthDemand Demand { get; }

    /// <summary>What passes for sharp.</summary>
    public PermittedBlur Blur { get; }

    /// <summary>Wavelength that diffraction was worked out for.</summary>
    public Length Wavelength { get; }

    /// <summary>The widest aperture that holds the limits by geometry alone, as if light had no waves.</summary>
    public FNumber ByGeometry { get; }

    /// <summary>The aperture of greatest exact contrast at the worst place of the depth; null when the detail is lost at every aperture.</summary>
    public ApertureContrast? Sharpest { get; }

    /// <summary>The aperture of the rule of practice.</summary>
    public ApertureContrast ByRule { get; }

    /// <summary>The apertures that leave <see cref="SharpestAperture.JustSharpContrast"/> everywhere; null when one frame cannot hold the depth on this print.</summary>
    /// <remarks>Blur and diffraction together leave more contrast than the same blur would alone, so the widest here is often wider than <see cref="ByGeometry"/>.</remarks>
    public ApertureRange? Holding { get; }

    /// <summary>Light that the rule's aperture lets in over the exact one: positive when the rule is wider.</summary>
    public Stops? RuleAboveSharpest => Sharpest is null ? null : SharpestAperture.Light(Sharpest.Aperture, ByRule.Aperture);

    /// <summary>Answers for a depth.</summary>
    /// <param name="demand">Lens and limits, from the lens.</param>
    /// <param name="blur">What passes for sharp.</param>
    /// <param name="wavelength">Above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">The wavelength is zero.</exception>
    public static DepthAnswer Of(DepthDemand demand, PermittedBlur blur, Length wavelength) => new(demand, blur, wavelength);

    /// <summary>Exact contrast of the finest detail at the worst place of the depth, for any aperture.</summary>
    /// <param name="aperture">Literal f-number.</param>
    public double ContrastAt(FNumber aperture) => SharpestAperture.Contrast(Demand, aperture, Blur.LinePairsPerMillimetre, Wavelength);

    /// <summary>The marks that hold the depth by both measures, widest first: blur within the circle by geometry, and enough exact contrast. Empty when none does.</summary>
    public ImmutableArray<FNumber> HoldingMarks(DialStep step = DialStep.Thirds)
    {
        if (Holding is null)
            return [];
        double widest = Math.Max(Holding.Widest.Ratio, ByGeometry.Ratio) * (1 - Stops.Hair);
        double smallest = Holding.Smallest.Ratio * (1 + Stops.Hair);
        return [.. Marks.FNumbers(step).All.Where(m => m.Exact >= widest && m.Exact <= smallest).Select(m => FNumber.FromRatio(m.Exact))];
    }
}
