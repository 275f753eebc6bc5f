namespace Leafstop.Core.Viewing;

/// <summary>How well the eye sees fine patterns: the share of a pattern's contrast that counts, by its frequency in cycles per degree of view.</summary>
/// <remarks>
/// <para>Luminance and red-green are the functions of Reinhard, Khan, Akyuz and Johnson 2008 (rows PER-16 and PER-17, constants as read in public code that cites them).
/// Blue-yellow is the Fourier transform of the blue-yellow kernels of Zhang and Wandell 1997 (row PER-20), because the 2008 constants for it could not be read.
/// Why these and no others: docs/method/visible-noise.md.</para>
/// <para>They were fitted to eyes of about normal sight at screen or print brightness; in dim light the eye sees less. Not those of ISO 15739.</para>
/// </remarks>
public static class ContrastSensitivity
{
    /// <summary>Frequency at which <see cref="Luminance"/> is highest, cycles per degree: 0.616 / 0.085 = 7.25.</summary>
    public const double LuminancePeakFrequency = 0.616 / 0.085;

    private const double RedGreenFirst = 91.228, RedGreenSecond = 74.907;
    private const double BlueYellowFirst = 0.488, BlueYellowSecond = 0.371, BlueYellowNarrow = 0.0536, BlueYellowWide = 0.386;

    private static readonly double LuminancePeak = Luminance(LuminancePeakFrequency);

    /// <summary>Luminance as published: 0.63 f^0.616 exp(−0.085 f). Zero for an even field, above 1 between about 3.5 and 13.34 cycles per degree.</summary>
    /// <param name="cyclesPerDegree">Zero or more.</param>
    public static double Luminance(double cyclesPerDegree) => 0.63 * Math.Pow(cyclesPerDegree, 0.616) * Math.Exp(-0.085 * cyclesPerDegree);

    /// <summary>Luminance with its highest value brought to 1, so that no noise is told larger than it is on the paper.</summary>
    /// <param name="cyclesPerDegree">Zero or more.</param>
    public static double LuminanceShare(double cyclesPerDegree) => Luminance(cyclesPerDegree) / LuminancePeak;

    /// <summary>Red against green: [91.228 exp(−0.0003 f^2.803) + 74.907 exp(−0.0038 f^2.601)] / 166.135; 1 for an even field.</summary>
    /// <param name="cyclesPerDegree">Zero or more.</param>
    public static double RedGreen(double cyclesPerDegree) =>
        (RedGreenFirst * Math.Exp(-0.0003 * Math.Pow(cyclesPerDegree, 2.803)) + RedGreenSecond * Math.Exp(-0.0038 * Math.Pow(cyclesPerDegree, 2.601)))
        / (RedGreenFirst + RedGreenSecond);

    /// <summary>Blue against yellow: kernels exp(−r²/s²) of weights 0.488 and 0.371 and spreads 0.0536° and 0.386°, each normalised, the sum brought to 1 for an even
    /// field; a kernel's transform is exp(−π² s² f²).</summary>
    /// <param name="cyclesPerDegree">Zero or more.</param>
    public static double BlueYellow(double cyclesPerDegree) =>
        (BlueYellowFirst * Kernel(BlueYellowNarrow, cyclesPerDegree) + BlueYellowSecond * Kernel(BlueYellowWide, cyclesPerDegree)) / (BlueYellowFirst + BlueYellowSecond);

    private static double Kernel(double spreadDegrees, double cyclesPerDegree)
    {
        double x = Math.PI * spreadDegrees * cyclesPerDegree;
        return Math.Exp(-x * x);
    }
}
