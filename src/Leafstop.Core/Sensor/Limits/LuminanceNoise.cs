namespace Leafstop.Core.Sensor;

/// <summary>What is left of a raw pixel's noise in the luminance of the developed picture.</summary>
/// <remarks>
/// <para>Plain bilinear interpolation of a 2×2 mosaic leaves 0.625 of the noise variance in green and 0.5625 in red and blue on average (SEN-48),
/// and makes neighbours alike: averaged over the mosaic's phases the noise of a plane has the autocovariance
/// C(d) = density · Σ h(x) h(x + d), with h the kernel and density the share of sites of that colour. Merging m × m pixels then leaves
/// Σ C(d) (1 − |dx|/m)(1 − |dy|/m) / m², not C(0) / m²: interpolation invents no light.</para>
/// <para>Luminance weighs the three planes with the middle row of PER-35 (0.2126, 0.7152, 0.0722). Assumed: after white balance the three planes
/// have equal signal and equal noise, and no colour matrix mixes them. A real matrix and a starved blue plane give more noise than this.</para>
/// </remarks>
public static class LuminanceNoise
{
    private const double RedWeight = 0.2126390, GreenWeight = 0.7151687, BlueWeight = 0.0721923;

    private static readonly double[,] GreenKernel = { { 0, 0.25, 0 }, { 0.25, 1, 0.25 }, { 0, 0.25, 0 } };
    private static readonly double[,] RedBlueKernel = { { 0.25, 0.5, 0.25 }, { 0.5, 1, 0.5 }, { 0.25, 0.5, 0.25 } };

    /// <summary>Share of the green noise variance of a raw pixel that is left when squares of a given side are merged after interpolation; 0.625 for single pixels (SEN-48).</summary>
    /// <param name="mergedSide">Side of the square in pixels, 1 or more, need not be whole.</param>
    public static double GreenVarianceShare(double mergedSide) => Merged(GreenKernel, 0.5, mergedSide);

    /// <summary>The same for red or blue; 0.5625 for single pixels (SEN-48).</summary>
    /// <param name="mergedSide">Side of the square in pixels, 1 or more.</param>
    public static double RedBlueVarianceShare(double mergedSide) => Merged(RedBlueKernel, 0.25, mergedSide);

    /// <summary>Luminance signal-to-noise of the merged square over the signal-to-noise of one raw pixel; 1.695 for single pixels.</summary>
    /// <param name="mergedSide">Side of the square in pixels, 1 or more.</param>
    public static double SignalToNoiseGain(double mergedSide)
    {
        double redBlue = RedBlueVarianceShare(mergedSide);
        return 1 / Math.Sqrt(RedWeight * RedWeight * redBlue + GreenWeight * GreenWeight * GreenVarianceShare(mergedSide) + BlueWeight * BlueWeight * redBlue);
    }

    private static double Merged(double[,] kernel, double density, double side)
    {
        if (!(side >= 1)) throw new ArgumentOutOfRangeException(nameof(side), side, "A merged square is at least one pixel wide.");
        double sum = 0;
        for (int dy = -2; dy <= 2; dy++)
            for (int dx = -2; dx <= 2; dx++)
                sum += density * Overlap(kernel, dx, dy) * Math.Max(0, 1 - Math.Abs(dx) / side) * Math.Max(0, 1 - Math.Abs(dy) / side);
        return sum / (side * side);
    }

    private static double Overlap(double[,] kernel, int dx, int dy)
    {
        double sum = 0;
        for (int y = Math.Max(0, -dy); y < Math.Min(3, 3 - dy); y++)
            for (int x = Math.Max(0, -dx); x < Math.Min(3, 3 - dx); x++)
                sum += kernel[y, x] * kernel[y + dy, x + dx];
        return sum;
    }
}
