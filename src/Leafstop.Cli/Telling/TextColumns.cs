using System.Text;

namespace Leafstop.Cli.Telling;

/// <summary>Lines of text for a terminal of known width: wrapped paragraphs, and columns of which the last one wraps.</summary>
internal static class TextColumns
{
    private const int Gap = 2;
    private const int Narrowest = 14;

    /// <summary>Breaks a paragraph at plain spaces only, so that a number stays with its unit; a longer word is cut.</summary>
    /// <param name="text">One paragraph.</param>
    /// <param name="width">Columns, at least 8.</param>
    /// <param name="hanging">Spaces before every line but the first.</param>
    public static IEnumerable<string> Wrap(string text, int width, int hanging = 0)
    {
        var line = new StringBuilder();
        foreach (string word in text.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            string rest = word;
            if (line.Length > 0 && line.ToString().Trim().Length > 0 && line.Length + 1 + rest.Length > width)
            {
                yield return line.ToString();
                line.Clear().Append(' ', hanging);
            }

            if (line.Length > 0 && line[^1] != ' ')
                line.Append(' ');
            while (line.Length + rest.Length > width)
            {
                int fits = Math.Max(1, width - line.Length);
                yield return line + rest[..fits];
                rest = rest[fits..];
                line.Clear().Append(' ', hanging);
            }

            line.Append(rest);
        }

        if (line.Length > 0)
            yield return line.ToString();
    }

    /// <summary>Sets rows in columns; all but the last are flush right. Returns the lines of each row.</summary>
    public static IReadOnlyList<IReadOnlyList<string>> Set(IReadOnlyList<string[]> rows, int width)
    {
        int last = rows[0].Length - 1;
        int[] widths = [.. Enumerable.Range(0, last).Select(c => rows.Max(r => r[c].Length))];
        int indent = widths.Sum() + (last * Gap);
        int room = width - indent;
        // Too narrow for the last column: it goes on lines of its own.
        if (room < Narrowest)
            return [.. rows.Select(row => Row([.. row[..last], ""], widths, last, 8, 0).Concat(Wrap(row[last], width - 4).Select(l => "    " + l)).ToArray())];
        return [.. rows.Select(row => Row(row, widths, last, room, indent))];
    }

    private static List<string> Row(string[] row, int[] widths, int last, int room, int indent)
    {
        string head = string.Concat(Enumerable.Range(0, last).Select(c => row[c].PadLeft(widths[c]) + new string(' ', Gap)));
        string[] remark = [.. Wrap(row[last], room)];
        List<string> lines = [(head + remark.FirstOrDefault("")).TrimEnd(' ')];
        lines.AddRange(remark.Skip(1).Select(r => new string(' ', indent) + r));
        return lines;
    }
}
