namespace Leafstop.Core.Sensor;

/// <summary>What is left of a raw pixel's noise in the luminance of the developed picture.</summary>
/// <remarks>
/// Plain bilinear interpolation of a 2×2 mosaic leaves 0.625 of the noise variance in green and 0.5625 in red and blue on average (SEN-48).
/// Luminance weighs the three planes with the middle row of PER-35 (0.2126, 0.7152, 0.0722). Assumed: after white balance the three planes have
/// equal signal and equal noise, and no colour matrix mixes them. A real matrix and a starved blue plane give more noise than this.
/// </remarks>
public static class LuminanceNoise
{
    /// <summary>Share of green noise variance after bilinear interpolation. Source: SEN-48.</summary>
    public const double GreenVarianceShare = 0.625;

    /// <summary>Share of red or blue noise variance after bilinear interpolation. Source: SEN-48.</summary>
    public const double RedBlueVarianceShare = 0.5625;

    private const double RedWeight = 0.2126390, GreenWeight = 0.7151687, BlueWeight = 0.0721923;

    /// <summary>Luminance signal-to-noise over the signal-to-noise of a raw pixel: 1.695.</summary>
    public static readonly double SignalToNoiseGain = 1 / Math.Sqrt(
        RedWeight * RedWeight * RedBlueVarianceShare + GreenWeight * GreenWeight * GreenVarianceShare + BlueWeight * BlueWeight * RedBlueVarianceShare);
}
