namespace Leafstop.Cli.Paper;

/// <summary>A sheet of paper, upright.</summary>
/// <param name="Name">What it is called.</param>
/// <param name="WidthMm">Width, millimetres.</param>
/// <param name="HeightMm">Height, millimetres.</param>
internal sealed record PaperSheet(string Name, double WidthMm, double HeightMm)
{
    /// <summary>Left free on every side, millimetres: more than any printer needs.</summary>
    public const double MarginMm = 18;

    /// <summary>ISO 216 A4.</summary>
    public static PaperSheet A4 { get; } = new("a4", 210, 297);

    /// <summary>US letter, 8.5 × 11 inches.</summary>
    public static PaperSheet Letter { get; } = new("letter", 215.9, 279.4);

    /// <summary>Width between the margins, millimetres.</summary>
    public double InnerWidthMm => WidthMm - 2 * MarginMm;

    /// <summary>Height between the margins, millimetres.</summary>
    public double InnerHeightMm => HeightMm - 2 * MarginMm;
}
