using Leafstop.Core.Quantities;

namespace Leafstop.Core.Exposure;

/// <summary>A meter that stands in the light that falls on the scene, with its calibration constant C.</summary>
/// <remarks>Source: EXP-07, EXP-10 (HDRI), EXP-14 (WEV): N²/t = E·S/C. C = 250 is for a flat receptor; the recommended ranges, 240 to 400 for a flat one
/// and 320 to 540 for a dome, are from memory (EXP-16).</remarks>
/// <param name="C">Calibration constant, lx·s·ISO, above zero.</param>
public sealed record IncidentMeter(double C)
{
    /// <summary>C = 250, which the light tables of this program use.</summary>
    public static readonly IncidentMeter Usual = new(250);

    /// <summary>The exposure value at ISO 100 that an illuminance gives: log2(E · 100 / C).</summary>
    /// <exception cref="ArgumentOutOfRangeException">No light at all has no exposure value.</exception>
    public ExposureValue Reads(Illuminance illuminance) => illuminance.Lux > 0
        ? ExposureValue.Of(Math.Log2(illuminance.Lux * 100 / C))
        : throw new ArgumentOutOfRangeException(nameof(illuminance), illuminance.Lux, "A meter reads nothing where there is no light.");

    /// <summary>The illuminance for which an exposure is right: C · N² / (t · S).</summary>
    public Illuminance RightFor(FNumber aperture, ShutterTime shutter, Iso iso) =>
        Illuminance.FromLux(C * aperture.Ratio * aperture.Ratio / (shutter.Seconds * iso.Speed));

    /// <summary>The illuminance of an exposure value at ISO 100: C / 100 · 2^EV.</summary>
    public Illuminance At(ExposureValue light) => Illuminance.FromLux(C / 100 * Math.Pow(2, light.Value));
}
