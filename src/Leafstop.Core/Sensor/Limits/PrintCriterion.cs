namespace Leafstop.Core.Sensor;

/// <summary>The published print criterion: which signal-to-noise ratio a print of some size, seen from some distance, needs.</summary>
/// <remarks>
/// EXP-30 (ISO 12232, noise-based quality): 40 is "first excellent" and 10 "first acceptable" at 70 sensor pixels per centimetre of print
/// seen from 25 cm, which is 30.544 pixels per degree (EXP-33). The need falls as one over the pixels per degree up to 60, about what an eye
/// separates; finer pixels are merged to 60 first. What merging gains is told by <see cref="LuminanceNoise"/>.
/// </remarks>
public static class PrintCriterion
{
    /// <summary>Signal-to-noise for "first excellent", our predicted clean limit. Source: EXP-30.</summary>
    public const double Clean = 40;

    /// <summary>Signal-to-noise for the predicted stretch limit. A rule of thumb of ours: half way in stops between the published two.</summary>
    public const double Stretch = 20;

    /// <summary>Signal-to-noise for "first acceptable". Source: EXP-30.</summary>
    public const double Acceptable = 10;

    /// <summary>Pixels per degree beyond which pixels are merged first.</summary>
    public const double FinestPixelsPerDegree = 60;

    /// <summary>Pixels per degree at which the published ratios hold: 70 px/cm at 25 cm. Source: EXP-33, 30.544 (the standard rounds to 30).</summary>
    public static readonly double ReferencePixelsPerDegree = PixelsPerDegree(7, 250);

    /// <summary>Pixels per degree of view: P · 2 · d · tan 0.5°. Source: EXP-33, PRN-01.</summary>
    /// <param name="pixelsPerMm">Sensor pixels per millimetre of print.</param>
    /// <param name="distanceMm">Viewing distance, mm.</param>
    public static double PixelsPerDegree(double pixelsPerMm, double distanceMm) => pixelsPerMm * 2 * distanceMm * Math.Tan(Math.PI / 360);

    /// <summary>The luminance signal-to-noise ratio that a pixel as it is seen must have: one of the sensor, or a merged one at 60 per degree.</summary>
    /// <param name="level">The wanted level, <see cref="Clean"/>, <see cref="Stretch"/> or <see cref="Acceptable"/>.</param>
    /// <param name="pixelsPerDegree">Sensor pixels per degree of view, above zero.</param>
    public static double Needed(double level, double pixelsPerDegree) =>
        level * ReferencePixelsPerDegree / Math.Min(Positive(pixelsPerDegree), FinestPixelsPerDegree);

    /// <summary>Side of the square of sensor pixels that is seen as one, 1 or more.</summary>
    /// <param name="pixelsPerDegree">Sensor pixels per degree of view, above zero.</param>
    public static double MergedSide(double pixelsPerDegree) => Math.Max(1, Positive(pixelsPerDegree) / FinestPixelsPerDegree);

    private static double Positive(double pixelsPerDegree) => pixelsPerDegree > 0
        ? pixelsPerDegree
        : throw new ArgumentOutOfRangeException(nameof(pixelsPerDegree), pixelsPerDegree, "Pixels per degree are above zero.");
}
