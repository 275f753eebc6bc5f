using Leafstop.Core.Card;
using Leafstop.Testing;
using UglyToad.PdfPig;
using UglyToad.PdfPig.Content;
using UglyToad.PdfPig.Core;
using UglyToad.PdfPig.Graphics;
using static Leafstop.Cli.Tests.Paper.PrintedCard;

namespace Leafstop.Cli.Tests.Paper;

/// <summary>The printed card as it lies on paper: sizes, margins, rules and marks.</summary>
public sealed class CardLayoutTests(CardBench bench) : IClassFixture<CardBench>
{
    // Published: ISO 216 A6 is 105 x 148 mm; ISO/IEC 7810 ID-1 is 85.60 x 53.98 mm. To a hundredth of a millimetre: PDF keeps more figures.
    [Theory]
    [InlineData("a6", 105, 148)]
    [InlineData("wallet", 85.60, 53.98)]
    public void Both_sides_have_the_size_of_the_card_nothing_hangs_over_nothing_overlaps_and_no_type_is_smaller_than_ten_points(string size, double width, double height) =>
        Fits(size == "a6" ? bench.A6 : bench.Wallet, width, height);

    // The most that a card has to hold: a long name, limits at the far end of the ladder, long lenses.
    [Fact]
    public void A_full_card_fits_too()
    {
        using RunningProgram other = CardBench.Unjudged("Körper Ähre é with a name as long as anybody ever gave one to a camera, 14 bit");
        string pdf = Path.Combine(other.Folder, "full.pdf");
        Assert.Equal(0, other.Run("card", "--clean", "12800", "--stretch", "25600", "--print", "2m", "--lenses", "16,24,135,400", "--out", pdf).Code);
        Fits(pdf, 105, 148);
        Assert.StartsWith("Körper Ähre é with a name", CardText.Parse(Decoded(pdf)).Name, StringComparison.Ordinal);
        Assert.Equal(0, other.Run("card", "--clean", "12800", "--stretch", "25600", "--limit-print", "2m", "--print", "2m", "--lenses", "16,135,400", "--size", "wallet", "--out", pdf).Code);
        Fits(pdf, 85.60, 53.98);
    }

    /// <summary>A card with limits that are given for a print of 60 cm.</summary>
    private string With(params string[] options) => bench.Made(Guid.NewGuid().ToString("N") + ".pdf", ["--camera", "Body A", "--limit-print", "60cm", "--limit-distance", "60cm", .. options]);

    // The ladders that had trouble: eight stops with five and six figures, limits at its end, beyond it, under base ISO, close together, between two marks.
    [Theory]
    [InlineData("--clean", "800", "--stretch", "25600")]
    [InlineData("--clean", "800", "--stretch", "102400")]
    [InlineData("--clean", "51200", "--stretch", "102400")]
    [InlineData("--clean", "64", "--stretch", "25600")]
    [InlineData("--clean", "64", "--stretch", "102400")]
    [InlineData("--clean", "50", "--stretch", "64")]
    [InlineData("--clean", "16000", "--stretch", "20000")]
    [InlineData("--clean", "20000", "--stretch", "102400")]
    [InlineData("--clean", "700", "--stretch", "22000")]
    [InlineData("--clean", "3200", "--stretch", "102400", "--base", "500")]
    [InlineData("--clean", "100", "--stretch", "125")]
    [InlineData("--clean", "9000000", "--stretch", "10000000", "--base", "100000")]
    public void A_ladder_of_any_limits_stands_whole_and_clear_of_its_figures(params string[] limits)
    {
        string a6 = With([.. limits, "--lenses", "14,24,35,200"]), wallet = With([.. limits, "--size", "wallet"]);
        Fits(a6, 105, 148);
        Fits(wallet, 85.60, 53.98);
        using PdfDocument document = PdfDocument.Open(a6);
        Page front = document.GetPage(1);
        (bool[][] ink, double perMm) = Ink(a6);
        // The axis of the ladder is the longest upright rule, the head rule the longest level one. Blanked in places, they would not be black from end to end on paper.
        PdfRectangle axis = Rules(front).MaxBy(r => r.Height), head = Rules(front).MaxBy(r => r.Width);
        Assert.True(axis.Height / PointsPerMm > 100 && head.Width / PointsPerMm > 90);
        int x = (int)Math.Round(axis.Centroid.X / PointsPerMm * perMm), level = (int)Math.Round((148 - head.Centroid.Y / PointsPerMm) * perMm);
        Assert.All(Enumerable.Range((int)((148 - axis.Top / PointsPerMm) * perMm) + 2, (int)(axis.Height / PointsPerMm * perMm) - 4), y => Assert.True(ink[y][x], $"the axis is broken {y / perMm:0.0} mm from the top"));
        Assert.All(Enumerable.Range((int)(head.Left / PointsPerMm * perMm) + 2, (int)(head.Width / PointsPerMm * perMm) - 4), at => Assert.True(ink[level][at], $"the head rule is broken {at / perMm:0.0} mm from the left"));
        // Figures stand beside the axis with its ticks, not on it.
        Assert.DoesNotContain(front.Letters, l => l.BoundingBox.Bottom < head.Bottom && l.BoundingBox.Right > axis.Left - 0.5 * PointsPerMm && l.BoundingBox.Left < axis.Right + 0.5 * PointsPerMm);
    }

    // Derived: 102400 is 10 stops over ISO 100, 51200 is 9; a card has room for a ladder of 8. 64 is less than 100. The longest sentence loses its beginning where a wallet has no room for it.
    [Theory]
    [InlineData("Off this ladder: stretch at 10 stops.", 1, 0, "--clean", "800", "--stretch", "102400")]
    [InlineData("Off this ladder: clean at 9, stretch at 10 stops.", 0, 0, "--clean", "51200", "--stretch", "102400")]
    [InlineData("under base.", 0, 2, "--clean", "64", "--stretch", "25600")]
    [InlineData("lean under base, stretch at 10 stops.", 0, 0, "--clean", "64", "--stretch", "102400")]
    [InlineData(null, 1, 2, "--clean", "800", "--stretch", "25600")]
    [InlineData(null, 1, 2, "--clean", "800", "--stretch", "3200")]
    // A third is 4000 to 5000: 4900 is dialled 4000, and so is marked between its rungs on the ladder, at 4000 in the table.
    [InlineData(null, 1, 2, "--clean", "700", "--stretch", "4900")]
    public void A_limit_is_marked_on_either_card_or_one_sentence_says_where_it_lies(string? sentence, int clean, int stretch, params string[] limits)
    {
        foreach (string size in (string[])["a6", "wallet"])
        {
            using PdfDocument document = PdfDocument.Open(With([.. limits, "--size", size]));
            Page front = document.GetPage(1);
            string text = Text(front);
            if (sentence is null)
            {
                Assert.DoesNotContain("ladder:", text, StringComparison.Ordinal);
                Assert.DoesNotContain("under base", text, StringComparison.Ordinal);
            }
            else
                Assert.Contains(sentence, text, StringComparison.Ordinal);
            // On A6 nothing else that is ruled ends where the ladder does; in the table nothing else is as short. One for clean, two thinner ones for stretch.
            double[] marks = [.. Rules(front).Where(r => size == "a6"
                ? r.Right / PointsPerMm is > 48 and < 50
                : r.Width / PointsPerMm is > 3 and < 16 && r.Left / PointsPerMm < 45).Select(r => r.Centroid.Y)];
            Assert.Equal(clean + stretch, marks.Length);
        }
    }

    // The last row of the table in the pocket is marked as well: that of 25600, 8 stops up.
    [Fact]
    public void The_limit_at_the_end_of_the_wallet_ladder_has_its_two_rules_under_its_own_figure()
    {
        using PdfDocument document = PdfDocument.Open(With("--clean", "800", "--stretch", "25600", "--size", "wallet"));
        Page front = document.GetPage(1);
        Letter[] figures = [.. front.Letters.Where(l => l.BoundingBox.Left / PointsPerMm < 25)];
        double low = figures.Where(l => l.Value == "8").Min(l => l.BoundingBox.Bottom);
        Assert.Equal("825600", string.Concat(figures.Where(l => Math.Abs(l.BoundingBox.Bottom - low) < 1.5 && char.IsAsciiDigit(l.Value[0])).OrderBy(l => l.BoundingBox.Left).Select(l => l.Value)));
        Assert.Equal(2, Rules(front).Count(r => r.Centroid.Y < low && low - r.Centroid.Y < 1.5 * PointsPerMm && r.Left / PointsPerMm < 12 && r.Width / PointsPerMm < 16));
    }

    // look.md: thousands have a thin space from 10 000.
    [Theory]
    [InlineData("a6")]
    [InlineData("wallet")]
    public void Thousands_have_a_thin_space_from_ten_thousand(string size)
    {
        using PdfDocument document = PdfDocument.Open(With("--clean", "800", "--stretch", "25600", "--size", size));
        string front = string.Concat(document.GetPage(1).Letters.Select(l => l.Value));
        Assert.Contains("clean 800, stretch 25\u2009600", front, StringComparison.Ordinal);
        Assert.All((string[])["10\u2009000", "12\u2009800", "16\u2009000", "20\u2009000", "8000"], iso => Assert.Contains(iso, front, StringComparison.Ordinal));
        Assert.DoesNotContain("25600", front, StringComparison.Ordinal);
    }

    // Letters that the type lacks are left out, with one mark for each gap; the code keeps the name.
    [Theory]
    [InlineData("Körper \U0001F4F7 名", "Körper …: clean")]
    [InlineData("名", "…: clean")]
    [InlineData("Körper 名 B", "Körper … B: clean")]
    [InlineData("WWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWW 名", "WW…: clean")]
    [InlineData("Body A", "Body A: clean")]
    public void A_title_has_only_letters_that_the_type_has_and_ends_inside_the_margin(string name, string title)
    {
        using RunningProgram other = CardBench.Unjudged(name);
        string pdf = Path.Combine(other.Folder, "named.pdf");
        foreach (string size in (string[])["a6", "wallet"])
        {
            Assert.Equal(0, other.Run("card", "--clean", "800", "--stretch", "25600", "--limit-print", "60cm", "--limit-distance", "60cm", "--size", size, "--out", pdf).Code);
            using PdfDocument document = PdfDocument.Open(pdf);
            Page front = document.GetPage(1);
            Letter[] first = [.. front.Letters.Where(l => Math.Abs(l.StartBaseLine.Y - front.Letters[0].StartBaseLine.Y) < 0.5)];
            string line = string.Concat(first.Select(l => l.Value));
            Assert.EndsWith("25\u2009600", line, StringComparison.Ordinal);
            Assert.Contains(title, line, StringComparison.Ordinal);
            Assert.All(first, l => Assert.True(l.BoundingBox.Right / PointsPerMm <= (size == "a6" ? 100 : 82.4) + 0.1, $"{l.Value} ends at {l.BoundingBox.Right / PointsPerMm:0.0} mm"));
            Assert.Equal(name, CardText.Parse(Decoded(pdf)).Name);
        }
    }

    [Theory]
    [InlineData("a6")]
    [InlineData("wallet")]
    public void The_measuring_line_is_fifty_millimetres_long_and_says_so(string size)
    {
        using PdfDocument document = PdfDocument.Open(size == "a6" ? bench.A6 : bench.Wallet);
        Page back = document.GetPage(2);
        Assert.Contains(back.Paths, p => Math.Abs((p.GetBoundingRectangle()?.Width ?? 0) / PointsPerMm - 50) < 0.01);
        Assert.Contains("This line is 50\u00a0mm", Text(back).Replace(' ', '\u00a0').Replace("This\u00a0line\u00a0is\u00a0", "This line is ", StringComparison.Ordinal), StringComparison.Ordinal);
    }

    // Worked-out limits have broken marks in the table as on the ladder, judged ones whole marks.
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Marks_of_worked_out_limits_are_broken_on_the_smaller_card_too(bool isWorkedOut)
    {
        using RunningProgram other = new();
        string file = Path.Combine(other.Folder, "body.json"), pdf = Path.Combine(other.Folder, "body.pdf");
        File.WriteAllText(file, CardBench.BodyA("Body A", withJudging: !isWorkedOut));
        Assert.Equal(0, other.Run("cameras", "import", file).Code);
        Assert.Equal(0, other.Run(["card", "--size", "wallet", "--out", pdf, .. isWorkedOut ? (string[])["--print", "2m", "--distance", "60cm"] : []]).Code);
        using PdfDocument document = PdfDocument.Open(pdf);
        PdfPath[] marks = [.. document.GetPage(1).Paths.Where(p => p.IsStroked && p.GetBoundingRectangle() is { } box && box.Height < 0.1 && box.Width / PointsPerMm is > 3 and < 16 && box.Left / PointsPerMm < 45)];
        Assert.Equal(3, marks.Length);
        Assert.All(marks, m => Assert.Equal(isWorkedOut, m.LineDashPattern is { Array.Count: > 0 }));
    }
}
