using PdfSharp.Drawing;

namespace Leafstop.Cli.Paper.Card;

/// <summary>Sets the lines of a card. A fraction of a stop is built from whole figures, none smaller than the least type, so that it is read without glasses.</summary>
/// <param name="pen">Draws on the page.</param>
internal sealed class CardPen(PaperPen pen)
{
    /// <summary>Thickness of the rules between rows, points.</summary>
    public const double Hairline = 0.4;

    private const string Fractions = "½⅓⅔⅙", Over = "1121", Under = "2336", Slash = "\u2044";

    // Of the type's size: how far the upper figure stands up, the lower one hangs down, and how far both reach under the slash, which is set so close that it must not touch them.
    private const double Up = 0.3, Down = 0.22, Overlap = 0.03;

    // Between a whole number and its fraction, so that 5⅓ is not taken for 51 thirds.
    private const double GapMm = 0.35;
    private const double MmPerPoint = 25.4 / 72;

    /// <summary>The page itself.</summary>
    public PaperPen Page => pen;

    /// <summary>A line that begins at a place.</summary>
    /// <returns>Where it ends.</returns>
    public double Text(string text, double points, double leftMm, double baselineMm, bool strong = false)
    {
        double size = points * MmPerPoint;
        foreach ((string run, bool isFraction) in Runs(text))
        {
            if (!isFraction)
            {
                pen.Text(run, Font(points, strong), leftMm, baselineMm);
                leftMm += pen.WidthMm(run, Font(points, strong));
                continue;
            }
            (string over, string under) = FiguresOf(run[0]);
            XFont font = PaperType.Strong(PaperType.LeastPoints);
            leftMm += GapMm;
            pen.Text(over, font, leftMm, baselineMm - Up * size);
            leftMm += pen.WidthMm(over, font) - Overlap * size;
            pen.Text(Slash, font, leftMm, baselineMm);
            leftMm += pen.WidthMm(Slash, font) - Overlap * size;
            pen.Text(under, font, leftMm, baselineMm + Down * size);
            leftMm += pen.WidthMm(under, font);
        }
        return leftMm;
    }

    /// <summary>A line that ends at a place.</summary>
    public void TextEndingAt(string text, double points, double rightMm, double baselineMm, bool strong = false) => Text(text, points, rightMm - Width(text, points, strong), baselineMm, strong);

    /// <summary>Text in lines that fit a width; words between asterisks are strong.</summary>
    /// <returns>The baseline of the line that would come next.</returns>
    public double Paragraph(string text, double points, double leftMm, double baselineMm, double widthMm, double lineMm)
    {
        double at = leftMm, space = Width("n n", points, false) - Width("nn", points, false);
        bool strong = false;
        foreach (string word in text.Split(' '))
        {
            strong |= word.StartsWith('*');
            bool ends = word.TrimEnd('.', ',', ';', ':').EndsWith('*');
            string bare = word.Replace("*", "", StringComparison.Ordinal);
            double width = Width(bare, points, strong);
            if (at > leftMm && at + width > leftMm + widthMm)
                (at, baselineMm) = (leftMm, baselineMm + lineMm);
            at = Text(bare, points, at, baselineMm, strong) + space;
            strong &= !ends;
        }
        return baselineMm + lineMm;
    }

    /// <summary>How wide a line is.</summary>
    public double Width(string text, double points, bool strong = false) => Runs(text).Sum(run => run.IsFraction
        ? FiguresOf(run.Text[0]) is var (over, under) ? GapMm + pen.WidthMm(over, PaperType.Strong(PaperType.LeastPoints)) + pen.WidthMm(Slash, PaperType.Strong(PaperType.LeastPoints)) + pen.WidthMm(under, PaperType.Strong(PaperType.LeastPoints)) - 2 * Overlap * points * MmPerPoint : 0
        : pen.WidthMm(run.Text, Font(points, strong)));

    /// <summary>The largest size, in whole points down to a least one, at which a line fits a width.</summary>
    public double Fitting(string text, double most, double least, double widthMm, bool strong)
    {
        double points = most;
        while (points > least && Width(text, points, strong) > widthMm)
            points = Math.Max(least, points - 1);
        return points;
    }

    /// <summary>The head of a card, "Body A: clean 800, stretch 3200", as large as its width allows. What is cut is the name; letters that the type lacks are left out of it.</summary>
    public void Title(string name, string limits, double most, double least, double leftMm, double baselineMm, double widthMm)
    {
        string known = PaperType.WithKnownLetters(name), rest = $": {limits}";
        double points = Fitting(known + rest, most, least, widthMm, strong: true);
        Text(Cut(known, points, widthMm - Width(rest, points, strong: true), strong: true) + rest, points, leftMm, baselineMm, strong: true);
    }

    /// <summary>The text cut with three dots until it fits a width.</summary>
    public string Cut(string text, double points, double widthMm, bool strong = false)
    {
        if (Width(text, points, strong) <= widthMm)
            return text;
        while (text.Length > 1 && Width(text + "…", points, strong) > widthMm)
            text = text[..^(char.IsLowSurrogate(text[^1]) ? 2 : 1)];
        return text.TrimEnd(' ', '…') + "…";
    }

    /// <summary>A table with a rule above and below and hairlines between: the first column to the left, the others to the right.</summary>
    /// <param name="rows">Cells; the first row is the head when <paramref name="hasHead"/>.</param>
    /// <param name="points">Size of the type.</param>
    /// <param name="leftMm">Left edge.</param>
    /// <param name="topMm">Upper rule.</param>
    /// <param name="columnsMm">Right edge of each column from the left edge.</param>
    /// <param name="rowMm">Height of a row.</param>
    /// <param name="hasHead">True when the first row is the head.</param>
    /// <returns>The lower rule.</returns>
    public double Table(IReadOnlyList<string[]> rows, double points, double leftMm, double topMm, IReadOnlyList<double> columnsMm, double rowMm, bool hasHead)
    {
        double drop = rowMm / 2 + points * MmPerPoint * 0.33, y = topMm, right = leftMm + columnsMm[^1];
        if (!hasHead)
            pen.Rule(leftMm, topMm, right, topMm, 0.8);
        for (int row = 0; row < rows.Count; row++, y += rowMm)
        {
            bool isHead = hasHead && row == 0;
            Text(rows[row][0], points, leftMm, y + drop);
            for (int column = 1; column < rows[row].Length; column++)
                TextEndingAt(rows[row][column], points, leftMm + columnsMm[column], y + drop, strong: !isHead);
            pen.Rule(leftMm, y + rowMm, right, y + rowMm, isHead || row == rows.Count - 1 ? 0.8 : Hairline);
        }
        return y;
    }

    /// <summary>A line of a known length with an upright at either end, to be measured on the print.</summary>
    public void MeasuringLine(double leftMm, double yMm, double lengthMm)
    {
        pen.Rule(leftMm, yMm, leftMm + lengthMm, yMm, 1);
        foreach (double end in (double[])[leftMm, leftMm + lengthMm])
            pen.Rule(end, yMm - 1, end, yMm + 1, 1);
    }

    private static XFont Font(double points, bool strong) => strong ? PaperType.Strong(points) : PaperType.Book(points);

    private static (string Over, string Under) FiguresOf(char fraction)
    {
        int at = Fractions.IndexOf(fraction, StringComparison.Ordinal);
        return (Over[at..(at + 1)], Under[at..(at + 1)]);
    }

    private static IEnumerable<(string Text, bool IsFraction)> Runs(string text)
    {
        int from = 0;
        for (int i = 0; i <= text.Length; i++)
        {
            bool isEnd = i == text.Length, isFraction = !isEnd && Fractions.Contains(text[i], StringComparison.Ordinal);
            if (!isEnd && !isFraction)
                continue;
            if (i > from)
                yield return (text[from..i], false);
            if (isFraction)
                yield return (text[i..(i + 1)], true);
            from = i + 1;
        }
    }
}
