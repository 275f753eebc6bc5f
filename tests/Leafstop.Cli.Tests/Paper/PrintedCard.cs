using System.Diagnostics;
using System.Globalization;
using UglyToad.PdfPig;
using UglyToad.PdfPig.Content;
using UglyToad.PdfPig.Core;

namespace Leafstop.Cli.Tests.Paper;

/// <summary>A card in PDF, measured by a reader of PDF and read by a decoder that had no part in writing it.</summary>
internal static class PrintedCard
{
    public const double PointsPerMm = 72 / 25.4;

    public static void Fits(string pdf, double width, double height)
    {
        using PdfDocument document = PdfDocument.Open(pdf);
        Assert.Equal(2, document.NumberOfPages);
        foreach (Page page in document.GetPages())
        {
            Assert.Equal((width, height), (Math.Round(page.Width / PointsPerMm, 2), Math.Round(page.Height / PointsPerMm, 2)));
            Assert.Equal((0, 0), (page.MediaBox.Bounds.Left, page.MediaBox.Bounds.Bottom));
            Assert.Equal(page.MediaBox.Bounds.Width, page.CropBox.Bounds.Width, 1e-6);
            Assert.All(page.Letters, letter => Assert.True(letter.PointSize >= 10, $"{letter.Value} has {letter.PointSize} points"));
            // Two millimetres from every edge: what cutters and printers need.
            Assert.All(page.Letters.Select(l => l.BoundingBox).Concat(page.Paths.Select(p => p.GetBoundingRectangle()).Where(b => b is not null).Select(b => b!.Value)), box =>
            {
                Assert.InRange(box.Left / PointsPerMm, 1.7, width);
                Assert.InRange(box.Right / PointsPerMm, 0, width - 1.7);
                Assert.InRange(box.Bottom / PointsPerMm, 0.9, height);
                Assert.InRange(box.Top / PointsPerMm, 0, height - 1.7);
            });
            // No rule runs through a letter.
            Assert.All(Rules(page), rule => Assert.DoesNotContain(page.Letters, l => !string.IsNullOrWhiteSpace(l.Value)
                && l.BoundingBox.Left < rule.Right && rule.Left < l.BoundingBox.Right && l.BoundingBox.Bottom + 0.3 < rule.Top && rule.Bottom < l.BoundingBox.Top - 0.3));
            Word[] words = [.. page.GetWords()];
            for (int i = 0; i < words.Length; i++)
            {
                Assert.All(words.Skip(i + 1), other => Assert.False(
                    Overlap(words[i], other), $"'{words[i].Text}' and '{other.Text}' overlap on page {page.Number}"));
            }
        }
    }

    public static string Squeezed(string text) => string.Join(' ', text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));

    public static string Text(Page page) => string.Join(' ', page.GetWords().Select(w => w.Text));

    /// <summary>What is ruled on a page, level or upright, from two millimetres on.</summary>
    public static IReadOnlyList<PdfRectangle> Rules(Page page) =>
        [.. page.Paths.Where(p => p.IsStroked).Select(p => p.GetBoundingRectangle()).OfType<PdfRectangle>().Where(r => Math.Max(r.Width, r.Height) > 2 * PointsPerMm && Math.Min(r.Width, r.Height) < 0.1)];

    /// <summary>The front at 300 dpi: true where there is ink.</summary>
    public static (bool[][] Ink, double PerMm) Ink(string pdf)
    {
        string picture = Path.ChangeExtension(pdf, null) + "-front";
        Assert.Equal("", Ran("pdftoppm", "-r", "300", "-f", "1", "-singlefile", "-gray", pdf, picture));
        byte[] bytes = File.ReadAllBytes(picture + ".pgm");
        // A PGM begins with P5, width, height and 255, each ended by one white space.
        int at = 0;
        string[] head = [.. Enumerable.Range(0, 4).Select(_ =>
        {
            int from = at;
            while (!char.IsWhiteSpace((char)bytes[at]))
                at++;
            return System.Text.Encoding.ASCII.GetString(bytes, from, at++ - from);
        })];
        Assert.Equal(("P5", "255"), (head[0], head[3]));
        int width = int.Parse(head[1], CultureInfo.InvariantCulture), height = int.Parse(head[2], CultureInfo.InvariantCulture);
        return ([.. Enumerable.Range(0, height).Select(y => (bool[])[.. Enumerable.Range(0, width).Select(x => bytes[at + y * width + x] < 128)])], 300 / 25.4);
    }

    /// <summary>By more than their boxes touch at the ends of strokes; figures of one fraction of a stop belong together.</summary>
    public static bool Overlap(Word one, Word other)
    {
        const double Touch = 0.25 * PointsPerMm;
        bool isFraction = one.Text.Contains('\u2044', StringComparison.Ordinal) || other.Text.Contains('\u2044', StringComparison.Ordinal) || (one.Text.Length == 1 && other.Text.Length == 1);
        return !isFraction && one.BoundingBox.Left < other.BoundingBox.Right - Touch && other.BoundingBox.Left < one.BoundingBox.Right - Touch
            && one.BoundingBox.Bottom < other.BoundingBox.Top - Touch && other.BoundingBox.Bottom < one.BoundingBox.Top - Touch;
    }

    /// <summary>What the code on the back says.</summary>
    public static string Decoded(string pdf)
    {
        string picture = Path.ChangeExtension(pdf, null) + "-back";
        Assert.Equal("", Ran("pdftoppm", "-r", "300", "-f", "2", "-singlefile", "-gray", pdf, picture));
        string read = Ran("zbarimg", "--quiet", "--nodbus", "--raw", picture + ".pgm");
        // The decoder ends its output with a line feed of its own.
        return read[..^1];
    }

    public static string Ran(string program, params string[] args)
    {
        using Process process = Process.Start(new ProcessStartInfo(program, args) { RedirectStandardOutput = true, RedirectStandardError = true })!;
        Task<string> error = process.StandardError.ReadToEndAsync();
        string output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        Assert.True(process.ExitCode == 0, $"{program} ended with {process.ExitCode}: {error.Result}");
        return output;
    }
}
