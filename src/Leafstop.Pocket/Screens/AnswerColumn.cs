namespace Leafstop.Pocket.Screens;

/// <summary>How a line of the answer is set.</summary>
internal enum TextKind
{
    /// <summary>The verdict.</summary>
    Verdict,

    /// <summary>Whose limits, what the polariser costs.</summary>
    Note,

    /// <summary>A thing to mind, under a rule.</summary>
    Care,
}

/// <summary>The column of words beside the standing staff: says what still fits above the steps. It counts letters, for nothing here can measure them, and rather a little too many.</summary>
internal sealed class AnswerColumn
{
    // Sizes of page.css, px, on a telephone 390 px wide: for windows from 800 px on, from 720 px on, and shorter ones.
    private static readonly Sizes Tall = new(Below: 363, Head: 138, Width: 208, [(8, 38.2, 15.6), (9, 22.5, 8.2), (17, 23.8, 9.5)]);
    private static readonly Sizes Middle = new(Below: 269, Head: 126, Width: 208, [(8, 32.9, 13.5), (9, 22.5, 8.2), (17, 23.8, 9.5)]);
    private static readonly Sizes Short = new(Below: 269, Head: 111, Width: 216, [(4, 30.8, 12.6), (5, 20, 7.3), (11, 20, 8)]);

    private readonly Sizes _sizes;
    private double _left;

    /// <param name="height">Height of the window, px.</param>
    public AnswerColumn(int height)
    {
        _sizes = height >= 800 ? Tall : height >= 720 ? Middle : Short;
        _left = height - _sizes.Below - _sizes.Head;
    }

    /// <summary>True where a text still fits.</summary>
    /// <param name="html">The text.</param>
    /// <param name="kind">How it is set.</param>
    public bool Fits(string html, TextKind kind) => HeightOf(html, kind) <= _left;

    /// <summary>Counts a text that is shown.</summary>
    public void Take(string html, TextKind kind) => _left -= HeightOf(html, kind);

    private double HeightOf(string html, TextKind kind)
    {
        (double margin, double line, double letter) = _sizes.Kinds[(int)kind];
        double at = 0;
        int lines = 1;
        foreach (string word in GapWords.Words(html))
        {
            double width = word.Length * letter;
            if (at > 0 && at + letter / 2 + width > _sizes.Width)
                (at, lines) = (0, lines + 1);
            at += width + (at > 0 ? letter / 2 : 0);
        }
        return margin + lines * line;
    }

    /// <param name="Below">Steps, doors and the margin of the page.</param>
    /// <param name="Head">Place and ISO.</param>
    /// <param name="Width">Of the column.</param>
    /// <param name="Kinds">Space above, height of a line, width of a letter, by kind.</param>
    private sealed record Sizes(double Below, double Head, double Width, (double Margin, double Line, double Letter)[] Kinds);
}
