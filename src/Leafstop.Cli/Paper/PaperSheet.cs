namespace Leafstop.Cli.Paper;

/// <summary>A sheet of paper, upright.</summary>
/// <param name="Name">What it is called.</param>
/// <param name="WidthMm">Width, millimetres.</param>
/// <param name="HeightMm">Height, millimetres.</param>
internal sealed record PaperSheet(string Name, double WidthMm, double HeightMm)
{
    /// <summary>Left free on every side of a large sheet, millimetres: more than any printer needs.</summary>
    public const double MarginMm = 18;

    /// <summary>ISO 216 A4.</summary>
    public static PaperSheet A4 { get; } = new("a4", 210, 297);

    /// <summary>US letter, 8.5 × 11 inches.</summary>
    public static PaperSheet Letter { get; } = new("letter", 215.9, 279.4);

    /// <summary>ISO 216 A6.</summary>
    public static PaperSheet A6 { get; } = new("a6", 105, 148);

    /// <summary>A bank card, ISO/IEC 7810 ID-1.</summary>
    public static PaperSheet Wallet { get; } = new("wallet", 85.6, 53.98);

    /// <summary>Width between the margins, millimetres.</summary>
    public double InnerWidthMm => WidthMm - 2 * MarginMm;

    /// <summary>Height between the margins, millimetres.</summary>
    public double InnerHeightMm => HeightMm - 2 * MarginMm;
}
