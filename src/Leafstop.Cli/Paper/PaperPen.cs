using System.Globalization;
using PdfSharp.Drawing;

namespace Leafstop.Cli.Paper;

/// <summary>Draws on a sheet in millimetres from its top left corner, black on white.</summary>
internal sealed class PaperPen(XGraphics graphics) : IDisposable
{
    private const double PointsPerMm = 72 / 25.4;

    /// <summary>One line of text on a baseline.</summary>
    public void Text(string text, XFont font, double leftMm, double baselineMm) => graphics.DrawString(text, font, XBrushes.Black, Points(leftMm), Points(baselineMm));

    /// <summary>One line of text that ends at a place.</summary>
    public void TextEndingAt(string text, XFont font, double rightMm, double baselineMm) => Text(text, font, rightMm - WidthMm(text, font), baselineMm);

    /// <summary>One line of text around a place.</summary>
    public void TextAround(string text, XFont font, double centreMm, double baselineMm) => Text(text, font, centreMm - WidthMm(text, font) / 2, baselineMm);

    /// <summary>Text in lines that fit a width, broken at spaces.</summary>
    /// <returns>The baseline of the line that would come next.</returns>
    public double Paragraph(string text, XFont font, double leftMm, double baselineMm, double widthMm)
    {
        double step = font.Size * 1.4 / PointsPerMm;
        string line = "";
        foreach (string word in text.Split(' '))
        {
            string longer = line.Length == 0 ? word : $"{line} {word}";
            if (line.Length == 0 || WidthMm(longer, font) <= widthMm)
            {
                line = longer;
                continue;
            }

            Text(line, font, leftMm, baselineMm);
            baselineMm += step;
            line = word;
        }

        Text(line, font, leftMm, baselineMm);
        return baselineMm + step;
    }

    /// <summary>A filled rectangle.</summary>
    public void Block(double leftMm, double topMm, double widthMm, double heightMm) =>
        graphics.DrawRectangle(XBrushes.Black, Points(leftMm), Points(topMm), Points(widthMm), Points(heightMm));

    /// <summary>A filled dot around a place.</summary>
    public void Dot(double xMm, double yMm, double diameterMm) =>
        graphics.DrawEllipse(XBrushes.Black, Points(xMm - diameterMm / 2), Points(yMm - diameterMm / 2), Points(diameterMm), Points(diameterMm));

    /// <summary>White paper under what is drawn next.</summary>
    public void Blank(double leftMm, double topMm, double widthMm, double heightMm) =>
        graphics.DrawRectangle(XBrushes.White, Points(leftMm), Points(topMm), Points(widthMm), Points(heightMm));

    /// <summary>A rule of dashes.</summary>
    public void BrokenRule(double fromXMm, double toXMm, double yMm, double thicknessPoints) =>
        graphics.DrawLine(new XPen(XColors.Black, thicknessPoints) { DashStyle = XDashStyle.Custom, DashPattern = [4, 2] }, Points(fromXMm), Points(yMm), Points(toXMm), Points(yMm));

    /// <summary>A straight rule.</summary>
    /// <param name="fromXMm">Left or upper end.</param>
    /// <param name="fromYMm">Its height on the sheet.</param>
    /// <param name="toXMm">The other end.</param>
    /// <param name="toYMm">Its height on the sheet.</param>
    /// <param name="thicknessPoints">Points.</param>
    public void Rule(double fromXMm, double fromYMm, double toXMm, double toYMm, double thicknessPoints = 0.6) =>
        graphics.DrawLine(new XPen(XColors.Black, thicknessPoints), Points(fromXMm), Points(fromYMm), Points(toXMm), Points(toYMm));

    /// <summary>A picture, its pixels as they are: nothing is smoothed between them by the page.</summary>
    /// <param name="png">A PNG file.</param>
    /// <param name="leftMm">Left edge.</param>
    /// <param name="topMm">Top edge.</param>
    /// <param name="sideMm">Width and height.</param>
    public void Picture(byte[] png, double leftMm, double topMm, double sideMm)
    {
        using var stream = new MemoryStream(png);
        using XImage image = XImage.FromStream(stream);
        image.Interpolate = false;
        graphics.DrawImage(image, Points(leftMm), Points(topMm), Points(sideMm), Points(sideMm));
    }

    /// <summary>How wide a line of text is, millimetres.</summary>
    public double WidthMm(string text, XFont font) => graphics.MeasureString(text, font).Width / PointsPerMm;

    /// <summary>Millimetres as people write them: 100 mm, 23.4 mm.</summary>
    public static string Mm(double mm) => string.Create(CultureInfo.InvariantCulture, $"{mm:0.#}\u00a0mm");

    public void Dispose() => graphics.Dispose();

    private static double Points(double mm) => mm * PointsPerMm;
}
