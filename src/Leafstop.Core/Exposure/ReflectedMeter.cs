using Leafstop.Core.Quantities;

namespace Leafstop.Core.Exposure;

/// <summary>A meter that is pointed at the scene, with its calibration constant K.</summary>
/// <remarks>Source: EXP-05, EXP-09 (HDRI), EXP-12 (WEV): N²/t = L·S/K. Two values of K are in common use, 12.5 and 14 (EXP-15); they lie 0.163 stop
/// apart, so a figure that comes from a luminance says which one it used.</remarks>
/// <param name="K">Calibration constant, cd·s·ISO/m², above zero; ISO 2720:1974 recommends 10.6 to 13.4 (EXP-15).</param>
public sealed record ReflectedMeter(double K)
{
    /// <summary>K = 12.5, which the light tables of this program use.</summary>
    public static readonly ReflectedMeter Usual = new(12.5);

    /// <summary>K = 14, the other value in common use: it asks for 0.163 stop more exposure.</summary>
    public static readonly ReflectedMeter Fourteen = new(14);

    /// <summary>The exposure value at ISO 100 that a luminance gives: log2(L · 100 / K).</summary>
    /// <exception cref="ArgumentOutOfRangeException">No light at all has no exposure value.</exception>
    public ExposureValue Reads(Luminance luminance) => luminance.CandelasPerSquareMetre > 0
        ? ExposureValue.Of(Math.Log2(luminance.CandelasPerSquareMetre * 100 / K))
        : throw new ArgumentOutOfRangeException(nameof(luminance), luminance.CandelasPerSquareMetre, "A meter reads nothing where there is no light.");

    /// <summary>The luminance for which an exposure is right: K · N² / (t · S).</summary>
    public Luminance RightFor(FNumber aperture, ShutterTime shutter, Iso iso) =>
        Luminance.FromCandelasPerSquareMetre(K * aperture.Ratio * aperture.Ratio / (shutter.Seconds * iso.Speed));

    /// <summary>The luminance of an exposure value at ISO 100: K / 100 · 2^EV.</summary>
    public Luminance At(ExposureValue light) => Luminance.FromCandelasPerSquareMetre(K / 100 * Math.Pow(2, light.Value));

    /// <summary>The reflectance at which this meter and an incident one agree: π · K / C. Source: EXP-17, 0.157 for 12.5 and 250.</summary>
    public double GreyShare(IncidentMeter incident) => Math.PI * K / incident.C;
}
