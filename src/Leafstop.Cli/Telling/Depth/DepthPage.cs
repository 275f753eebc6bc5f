using System.Text;
using System.Text.RegularExpressions;

namespace Leafstop.Cli.Telling.Depth;

/// <summary>Lays an answer of leafstop depth out: the verdict, the numbers, how sure, and on request why.</summary>
internal static partial class DepthPage
{
    private const int PipeWidth = 100;
    private const int Widest = 110;

    /// <summary>The page.</summary>
    /// <param name="telling">The answer.</param>
    /// <param name="columns">Columns of the terminal; null in a pipe.</param>
    /// <param name="isQuiet">True for the verdict and the table alone.</param>
    /// <param name="withWhy">True to add formulas, sources and inputs.</param>
    public static string Of(DepthTelling telling, int? columns, bool isQuiet, bool withWhy)
    {
        int width = Math.Clamp((columns ?? PipeWidth) - 1, 40, Widest);
        StringBuilder page = new();
        Paragraph(page, telling.Verdict, width);
        if (!isQuiet)
        {
            foreach (string sentence in telling.Numbers)
                Paragraph(page, sentence, width);
        }
        if (telling.Table.Count > 0)
        {
            page.Append('\n');
            foreach (string line in Rows(telling.Table))
                page.Append("  ").Append(line).Append('\n');
            page.Append('\n');
        }
        if (!isQuiet)
        {
            Paragraph(page, telling.HowSure, width);
            foreach (string caution in telling.Cautions)
                Paragraph(page, caution, width);
        }
        if (withWhy)
        {
            page.Append("\nWhy\n");
            foreach (string line in telling.Inputs.Concat(telling.Formulas))
                Paragraph(page, $"- {line}", width, 2);
        }
        return BenchText.Plain(page.ToString());
    }

    private static void Paragraph(StringBuilder page, string text, int width, int hanging = 0)
    {
        foreach (string line in TextColumns.Wrap(Joined(text), width, hanging))
            page.Append(line).Append('\n');
    }

    // A number stays with the unit behind it.
    private static string Joined(string text) => BeforeUnit().Replace(text, Figures.NoBreak.ToString());

    [GeneratedRegex(@"(?<=[0-9]) (?=(?:mm|cm|nm|m|stops?)\b|%)")]
    private static partial Regex BeforeUnit();

    private static IEnumerable<string> Rows(IReadOnlyList<string[]> rows)
    {
        int[] widths = [.. Enumerable.Range(0, rows[0].Length).Select(c => rows.Max(r => r[c].Length))];
        return rows.Select(row => string.Join("  ", row.Select((cell, c) => cell.PadLeft(widths[c]))).TrimEnd());
    }
}
