using System.Diagnostics;
using System.Globalization;
using System.Text.Json;
using Leafstop.Core.Card;
using Leafstop.Testing;
using UglyToad.PdfPig;
using UglyToad.PdfPig.Content;
using UglyToad.PdfPig.Core;
using UglyToad.PdfPig.Graphics;

namespace Leafstop.Cli.Tests.Paper;

/// <summary>Body A of the job, kept with limits judged at 60 cm, and its card in both sizes.</summary>
public sealed class CardBench : IDisposable
{
    private static readonly (double Iso, double Exact, double ReadNoise)[] Levels =
    [
        (100, 100, 3.6), (200, 200, 3.3), (400, 400, 3.1), (500, 503.968, 1.6), (640, 634.960, 1.55), (800, 800, 1.5), (1600, 1600, 1.4), (3200, 3200, 1.3), (6400, 6400, 1.25),
    ];

    public CardBench()
    {
        string file = Path.Combine(Program.Folder, "body-a.json");
        File.WriteAllText(file, BodyA("Body A", withJudging: true));
        Assert.Equal(0, Program.Run("cameras", "import", file).Code);
        A6 = Made("a6.pdf");
        Wallet = Made("wallet.pdf", "--size", "wallet");
    }

    public RunningProgram Program { get; } = new();

    public string A6 { get; }

    public string Wallet { get; }

    public string Named(string name) => Path.Combine(Program.Folder, name);

    public string Made(string name, params string[] options)
    {
        Ended ended = Program.Run(["card", "--out", Named(name), "--quiet", .. options]);
        Assert.Equal((0, ""), (ended.Code, ended.Error));
        return Named(name);
    }

    public void Dispose() => Program.Dispose();

    /// <summary>A camera file: the table of the job, and a judging of 800 (640 to 1000) and 3200 (2500 to 4000).</summary>
    internal static string BodyA(string name, bool withJudging)
    {
        string levels = string.Join(",", Levels.Select(l => string.Create(CultureInfo.InvariantCulture,
            $$"""{"iso":{{l.Iso}},"ladder":"metered","gainElectronsPerDn":{{325.52 / l.Exact}},"gainInterval95":[{{325 / l.Exact}},{{326 / l.Exact}}],"readNoiseElectrons":{{l.ReadNoise}},"readNoiseInterval95":[{{l.ReadNoise - 0.02}},{{l.ReadNoise + 0.02}}],"readNoiseSource":"capFrames","saturationElectrons":{{5e6 / l.Exact}},"clipSeen":true,"usable":true,"flags":[],"reason":null}""")));
        static string Limit(double limit, double low, double high) => string.Create(CultureInfo.InvariantCulture,
            $$"""{"outcome":"reached","answers":24,"blanks":5,"blanksRefused":0,"limitStopsAboveIso100":{{limit}},"interval95Stops":[{{low}},{{high}}],"spreadStops":0.5}""");
        string judging = $$"""
            ,"judgings":[{"begunAt":"2026-10-03T18:00:00Z","judgedAt":"2026-10-03T18:20:00Z","source":"screen","seed":"1","body":"Invented Body A, 14-bit raw, 8256 pixels across",
            "printWidthMm":600,"viewingDistanceMm":600,"tone":"smooth","treatment":"none","ladder":[{"iso":100,"pair":true}],"clean":{{Limit(3.05, 2.75, 3.3)}},"stretch":{{Limit(4.98, 4.7, 5.3)}},"answers":[]}]
            """;
        return $$"""
            {"format":"leafstop-camera","formatVersion":1,"name":"{{name}}","measurements":[{"measuredAt":"2026-03-01T06:50:12Z",
            "camera":{"make":"Invented","model":"Body A","bodyFingerprint":null,"widthPx":8256,"heightPx":5504,"mosaic":"2x2","bits":14},"ladder":"metered","levels":[{{levels}}],
            "gainSteps":[{"belowIso":400,"aboveIso":500,"readNoiseRatio":1.94}]}]{{(withJudging ? judging : "")}}}
            """;
    }
}

/// <summary>The printed card, measured by a reader of PDF and read by a decoder that had no part in writing it.</summary>
public sealed class CardTests(CardBench bench) : IClassFixture<CardBench>
{
    private const double PointsPerMm = 72 / 25.4;

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
        using RunningProgram other = new();
        string file = Path.Combine(other.Folder, "full.json"), pdf = Path.Combine(other.Folder, "full.pdf");
        File.WriteAllText(file, CardBench.BodyA("Körper Ähre é with a name as long as anybody ever gave one to a camera, 14 bit", withJudging: false));
        Assert.Equal(0, other.Run("cameras", "import", file).Code);
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
        using RunningProgram other = new();
        string file = Path.Combine(other.Folder, "named.json"), pdf = Path.Combine(other.Folder, "named.pdf");
        File.WriteAllText(file, CardBench.BodyA(name, withJudging: false));
        Assert.Equal(0, other.Run("cameras", "import", file).Code);
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

    /// <summary>One rule for the list of lenses, wherever it is asked for.</summary>
    [Theory]
    [InlineData("24,,35", "an entry is missing between two commas")]
    [InlineData("24,35,", "an entry is missing")]
    [InlineData("", "an entry is missing")]
    [InlineData("24,wide", "'wide' is no focal length")]
    [InlineData("24 35", "'24 35' is no focal length")]
    [InlineData("0.5,24", "'0.5' is out of range: a lens for landscapes has 4 to 1000 mm")]
    public void Card_and_pocket_page_refuse_the_same_lists_of_lenses_in_the_same_words(string lenses, string reason)
    {
        Ended card = bench.Program.Run("card", "--lenses", lenses, "--out", bench.Named("none.pdf")), page = bench.Program.Run("pocket", "--lenses", lenses, "--out", bench.Named("none.html"));
        Assert.Equal((2, 2), (card.Code, page.Code));
        Assert.Contains("--lenses: " + reason, card.Error, StringComparison.Ordinal);
        Assert.Equal(card.Error.Replace("leafstop card", "", StringComparison.Ordinal), page.Error.Replace("leafstop pocket", "", StringComparison.Ordinal));
        Assert.False(File.Exists(bench.Named("none.html")));
    }

    private static void Fits(string pdf, double width, double height)
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

    // Derived: the ladder of the job, gap beside ISO on one line; whole stops are words of their own, thirds are built of figures.
    [Fact]
    public void The_ladder_on_paper_is_the_one_of_the_job_with_both_limits_in_words_and_rules()
    {
        using PdfDocument document = PdfDocument.Open(bench.A6);
        Page front = document.GetPage(1);
        Word[] words = [.. front.GetWords().Where(w => w.BoundingBox.Left / PointsPerMm < 50)];
        double[] heights = [.. new[] { 1, 2, 4 }.Select(stops => At(stops.ToString(CultureInfo.InvariantCulture), 14))];
        foreach ((string iso, int i) in new[] { "200", "400", "1600" }.Select((iso, i) => (iso, i)))
            Assert.Equal(heights[i], At(iso, 27), 0.3);
        Assert.All((string[])["100", "125", "160", "250", "320", "500", "640", "800", "1000", "1250", "2000", "2500", "3200", "4000"], iso => Assert.Contains(words, w => w.Text == iso));
        // Even steps: a stop is as high everywhere.
        Assert.Equal(heights[1] - heights[0], (heights[2] - heights[1]) / 2, 0.1);
        // The words stand on their own ISO, over one rule and over two.
        Assert.Equal(At("800", 27), At("clean", 49), 0.6);
        Assert.Equal(At("3200", 27), At("stretch", 49), 0.6);
        double[] thick = [.. front.Paths.Where(p => p.GetBoundingRectangle() is { } box && box.Width / PointsPerMm > 30 && box.Width / PointsPerMm < 45 && box.Left / PointsPerMm < 30).Select(p => p.GetBoundingRectangle()!.Value.Bottom / PointsPerMm)];
        Assert.Equal(3, thick.Length);
        Assert.Contains(thick, y => Math.Abs(y - At("800", 27)) < 2.5);
        Assert.Equal(2, thick.Count(y => Math.Abs(y - At("3200", 27)) < 2.5));
        Assert.Contains("Body A: clean 800, stretch 3200", Text(front), StringComparison.Ordinal);
        Assert.Contains("60\u00a0cm wide, seen from 60\u00a0cm", Text(front).Replace("60 cm", "60\u00a0cm", StringComparison.Ordinal), StringComparison.Ordinal);
        Assert.Contains("3 October 2026", Text(front), StringComparison.Ordinal);

        // Gaps end at 14 mm, ISOs at 27, the words of the limits at 49; the upper figure of a fraction ends earlier.
        double At(string text, double endsAt) => words.Single(w => w.Text == text && Math.Abs(w.BoundingBox.Right / PointsPerMm - endsAt) < 0.6 && w.BoundingBox.Bottom / PointsPerMm < 125).BoundingBox.Bottom / PointsPerMm;
    }

    [Fact]
    public void The_tables_on_paper_hold_what_the_json_says()
    {
        using JsonDocument json = JsonDocument.Parse(bench.Program.Run("card", "--out", bench.Named("json.pdf"), "--json").Out);
        JsonElement root = json.RootElement;
        Assert.Equal((105, 148, "judged", false), (root.GetProperty("widthMm").GetDouble(), root.GetProperty("heightMm").GetDouble(), root.GetProperty("limits").GetProperty("how").GetString(), root.GetProperty("limits").GetProperty("converted").GetBoolean()));
        Assert.Equal((800, 3200), (root.GetProperty("limits").GetProperty("cleanDial").GetDouble(), root.GetProperty("limits").GetProperty("stretchDial").GetDouble()));
        using PdfDocument a6 = PdfDocument.Open(bench.A6), wallet = PdfDocument.Open(bench.Wallet);
        foreach (PdfDocument document in (PdfDocument[])[a6, wallet])
        {
            string[] words = [.. document.GetPages().SelectMany(p => p.GetWords()).Select(w => w.Text.Trim(',', '.', ':'))];
            foreach (JsonElement lens in root.GetProperty("lenses").EnumerateArray())
            {
                double[] hyperfocal = [.. lens.GetProperty("hyperfocal").EnumerateArray().Select(h => h.GetProperty("distanceMm").GetDouble() / 1000)];
                Assert.All(hyperfocal, metres => Assert.Contains(metres.ToString(metres < 19.95 ? "0.0" : "0", CultureInfo.InvariantCulture), words));
            }
            Assert.All((string[])["24", "35", "70", "1/4", "1/8", "1/160", "1/320", "14", "29", "4.7×", "f/11", "polariser"], word => Assert.Contains(word, words));
        }
        Assert.Contains("rangers come first", Text(a6.GetPage(2)), StringComparison.Ordinal);
    }

    // The code, drawn by the PDF's renderer at 300 dpi and read by a decoder of another family.
    [Fact]
    public void The_code_reads_back_byte_for_byte_and_a_camera_is_imported_from_it()
    {
        string read = Decoded(bench.A6);
        Assert.Equal(read, Decoded(bench.Wallet));
        using JsonDocument json = JsonDocument.Parse(bench.Program.Run("card", "--out", bench.Named("again.pdf"), "--json").Out);
        Assert.Equal(json.RootElement.GetProperty("text").GetString(), read);
        Assert.True(json.RootElement.GetProperty("textBytes").GetInt32() < 700);
        var card = CardText.Parse(read);
        Assert.Equal(("Body A", 9, 100), (card.Name, card.Levels.Length, card.BaseIso.Speed));

        using RunningProgram other = new();
        string file = Path.Combine(other.Folder, "card.txt");
        File.WriteAllText(file, read + "\n");
        Ended imported = other.Run("cameras", "import", file);
        Assert.Equal((0, "Kept as 'Body A', from a card: its limits and noise as the card carries them, without intervals or single answers.\n"), (imported.Code, imported.Out));
        Assert.Equal("'Body A' holds this card already; nothing was changed.\n", other.Run("cameras", "import", file).Out);
        // What is not carried is not made up: no measuring, no judging, no interval.
        using JsonDocument shown = JsonDocument.Parse(other.Run("cameras", "show", "Body A", "--json").Out);
        Assert.Empty(shown.RootElement.GetProperty("measurements").EnumerateArray());
        Assert.False(shown.RootElement.TryGetProperty("judgings", out _));
        Assert.Contains("from a card of ", other.Run("cameras").Out, StringComparison.Ordinal);
        // A plan elsewhere answers as here, and says where the limits come from.
        string[] scene = ["plan", "--aperture", "11", "--shutter", "1/4", "--under", "2 1/3", "--print", "90cm", "--distance", "60cm", "--json"];
        using JsonDocument here = JsonDocument.Parse(bench.Program.Run(scene).Out), there = JsonDocument.Parse(other.Run(scene).Out);
        Assert.True(JsonElement.DeepEquals(here.RootElement.GetProperty("spare"), there.RootElement.GetProperty("spare")));
        Assert.Contains(there.RootElement.GetProperty("assumed").EnumerateArray(), s => s.GetString()!.Contains("your own, from a card, judged on 3 October 2026", StringComparison.Ordinal));
    }

    [Fact]
    public void Without_a_judging_the_card_says_that_nobody_judged()
    {
        using RunningProgram other = new();
        string file = Path.Combine(other.Folder, "plain.json"), pdf = Path.Combine(other.Folder, "plain.pdf");
        File.WriteAllText(file, CardBench.BodyA("Body A", withJudging: false));
        Assert.Equal(0, other.Run("cameras", "import", file).Code);
        Assert.Equal(0, other.Run("card", "--print", "2m", "--distance", "60cm", "--out", pdf).Code);
        Assert.Equal(Leafstop.Core.Viewing.LimitOrigin.WorkedOut, CardText.Parse(Decoded(pdf)).Limits!.Origin);
        using PdfDocument document = PdfDocument.Open(pdf);
        Assert.Contains("worked out, not judged by you", Text(document.GetPage(1)), StringComparison.Ordinal);
    }

    [Fact]
    public void Limits_judged_for_another_print_are_converted_and_the_code_keeps_what_was_judged()
    {
        // E4 of the job: 90 cm from 60 cm is 356, dial 320.
        string pdf = bench.Made("large.pdf", "--print", "90cm", "--distance", "60cm");
        using PdfDocument document = PdfDocument.Open(pdf);
        Assert.Contains("clean 320, stretch 1250", Text(document.GetPage(1)), StringComparison.Ordinal);
        Assert.Contains("worked out from your judging", Text(document.GetPage(1)), StringComparison.Ordinal);
        var card = CardText.Parse(Decoded(pdf));
        Assert.Equal((600, 900, 800), (card.Limits!.Tags.Print.WidthMm, card.Print.WidthMm, card.Limits.Clean!.Speed));
    }

    [Theory]
    [InlineData(3, "no camera 'Body Z' is kept. There is 'Body A'", "--camera", "Body Z")]
    [InlineData(2, "no size that is known here: a6 or wallet", "--size", "a4")]
    [InlineData(2, "'wide' is no focal length", "--lenses", "24,wide")]
    [InlineData(2, "out of range: a lens for landscapes has 4 to 1000 mm", "--lenses", "0.5")]
    [InlineData(2, "4 are more than the card has room for: 3 at most", "--lenses", "16,24,35,50", "--size", "wallet")]
    [InlineData(2, "write a length from 1 cm to 100 m", "--print", "1mm")]
    [InlineData(2, "lies below --clean", "--clean", "800", "--stretch", "400")]
    [InlineData(2, "a streak lies between", "--streak", "200%")]
    public void A_card_that_cannot_be_made_is_refused_with_the_reason(int code, string reason, params string[] options)
    {
        Ended ended = bench.Program.Run(["card", "--out", bench.Named("none.pdf"), .. options]);
        Assert.Equal((code, ""), (ended.Code, ended.Out));
        Assert.Contains(reason, ended.Error, StringComparison.Ordinal);
        Assert.False(File.Exists(bench.Named("none.pdf")));
    }

    // Body A for a print so small and so far that it is clean even at ISO 6400, the highest measured: that is no limit.
    [Theory]
    [InlineData("a6")]
    [InlineData("wallet")]
    public void A_ladder_that_ends_inside_clean_is_printed_without_limits_and_says_how_far_was_measured(string size)
    {
        using RunningProgram other = new();
        string file = Path.Combine(other.Folder, "open.json"), pdf = Path.Combine(other.Folder, "open.pdf");
        File.WriteAllText(file, CardBench.BodyA("Body A", withJudging: false));
        Assert.Equal(0, other.Run("cameras", "import", file).Code);
        Ended ended = other.Run("card", "--print", "10cm", "--distance", "3m", "--size", size, "--out", pdf, "--quiet");
        Assert.Equal(0, ended.Code);
        Assert.Contains("No limit was reached.", ended.Out, StringComparison.Ordinal);
        Assert.Contains("the highest measured, is still clean for this print; nothing is known above it.", Squeezed(ended.Out), StringComparison.Ordinal);
        Fits(pdf, size == "a6" ? 105 : 85.60, size == "a6" ? 148 : 53.98);
        using PdfDocument document = PdfDocument.Open(pdf);
        string front = Text(document.GetPage(1));
        Assert.Contains("Body A: clean at least to 6400", front, StringComparison.Ordinal);
        Assert.Contains("clean even", front, StringComparison.Ordinal);
        Assert.DoesNotContain("stretch", front, StringComparison.Ordinal);
        // Neither one rule nor two: no limit is marked.
        Assert.DoesNotContain(Rules(document.GetPage(1)), r => size == "a6" ? r.Right / PointsPerMm is > 48 and < 50 && r.Width / PointsPerMm > 30 : r.Width / PointsPerMm is > 3 and < 16 && r.Left / PointsPerMm < 45);
        var card = CardText.Parse(Decoded(pdf));
        Assert.Equal((6400, true), (card.MeasuredTo!.Speed, card.Limits is null));
        using JsonDocument json = JsonDocument.Parse(other.Run("card", "--print", "10cm", "--distance", "3m", "--out", pdf, "--json").Out);
        Assert.Equal((JsonValueKind.Null, 6400), (json.RootElement.GetProperty("limits").ValueKind, json.RootElement.GetProperty("measuredToIso").GetDouble()));
        // Read back elsewhere it says the same, and a plan there does not take the end of the ladder for a limit without saying so.
        string text = Path.Combine(other.Folder, "card.txt");
        File.WriteAllText(text, Decoded(pdf));
        Assert.Equal(0, other.Run("cameras", "import", text, "--name", "From paper").Code);
        Assert.Contains("nothing is known above it", Squeezed(other.Run("plan", "--camera", "From paper", "--aperture", "11", "--shutter", "1/4", "--under", "2", "--print", "10cm", "--distance", "3m").Out), StringComparison.Ordinal);
    }

    // Limits in the head, no camera kept: the card is of those alone, and its code reads back.
    [Theory]
    [InlineData("Your camera")]
    [InlineData("Grey one", "--camera", "Grey one")]
    public void Limits_alone_make_a_card(string name, params string[] options)
    {
        using RunningProgram other = new();
        string pdf = Path.Combine(other.Folder, "own.pdf");
        string[] call = ["card", "--clean", "800", "--stretch", "3200", "--limit-print", "60cm", "--limit-distance", "60cm", "--out", pdf, .. options];
        foreach ((string size, double width, double height) in new[] { ("wallet", 85.60, 53.98), ("a6", 105.0, 148.0) })
        {
            Ended ended = other.Run([.. call, "--size", size]);
            Assert.Equal(0, ended.Code);
            Assert.Contains("carry the limits alone", Squeezed(ended.Out), StringComparison.Ordinal);
            Fits(pdf, width, height);
        }
        using PdfDocument document = PdfDocument.Open(pdf);
        Assert.Contains($"{name}: clean 800, stretch 3200", Text(document.GetPage(1)), StringComparison.Ordinal);
        Assert.Contains("as you gave them", Text(document.GetPage(1)), StringComparison.Ordinal);
        string text = Path.Combine(other.Folder, "own.txt");
        File.WriteAllText(text, Decoded(pdf));
        Assert.Equal(0, other.Run("cameras", "import", text).Code);
        Assert.Contains("The body is not known.", other.Run("cameras", "show", name).Out, StringComparison.Ordinal);
        Ended plan = other.Run("plan", "--aperture", "11", "--shutter", "1/4", "--under", "2 1/3");
        Assert.Equal((0, ""), (plan.Code, plan.Error));
        Assert.Contains("inside clean, 2/3 stop to spare", Squeezed(plan.Out), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(3, "no camera is kept yet: measure yours with leafstop measure DIR --save NAME, then ask for its card, or give your limits with --clean and --stretch")]
    [InlineData(2, "lies below --clean", "--clean", "800", "--stretch", "400")]
    [InlineData(2, "--camera:", "--clean", "800", "--camera", " ")]
    public void Without_a_camera_what_is_missing_is_said(int code, string reason, params string[] options)
    {
        using RunningProgram other = new();
        Ended ended = other.Run(["card", "--out", Path.Combine(other.Folder, "none.pdf"), .. options]);
        Assert.Equal((code, ""), (ended.Code, ended.Out));
        Assert.Contains(reason, ended.Error, StringComparison.Ordinal);
        Assert.Empty(Directory.GetFiles(other.Folder));
    }

    // What the page for people shows is what the program says, line by line.
    [Fact]
    public void The_readme_shows_what_the_program_says()
    {
        string said = bench.Program.Run("card", "--camera", "Body A", "--lenses", "24,35,70", "--out", "card.pdf", "--quiet").Out, readme = File.ReadAllText(Path.Combine(Repository.Root, "README.md"));
        Assert.Contains("./leafstop card --camera \"Body A\" --lenses 24,35,70 --out card.pdf", readme, StringComparison.Ordinal);
        Assert.Contains("```\n" + said.Replace('\u00a0', ' '), readme.Replace('\u00a0', ' '), StringComparison.Ordinal);
    }

    // Falling branches are told on either card, once.
    [Theory]
    [InlineData("a6")]
    [InlineData("wallet")]
    public void Water_branches_and_local_rules_are_told_once_on_either_card(string size)
    {
        using PdfDocument document = PdfDocument.Open(size == "a6" ? bench.A6 : bench.Wallet);
        string text = string.Join(' ', document.GetPages().Select(Text));
        foreach (string word in (string[])["Feet first", "ranches", "ocal rules", "ouder"])
            Assert.Equal(2, text.Split(word).Length);
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

    private static string Squeezed(string text) => string.Join(' ', text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));

    [Theory]
    [InlineData("card.txt", "ends in .pdf")]
    [InlineData("nowhere/card.pdf", "there is no folder")]
    [InlineData("/proc/card.pdf", "cannot be written")]
    public void A_place_that_cannot_be_written_is_refused_with_the_reason(string file, string reason)
    {
        Ended ended = bench.Program.Run("card", "--out", file);
        Assert.Equal((2, ""), (ended.Code, ended.Out));
        Assert.Contains(reason, ended.Error, StringComparison.Ordinal);
        // What lies beside a target for a moment is nobody's business, and does not stay.
        Assert.DoesNotContain("partial", ended.Error, StringComparison.Ordinal);
        Assert.Empty(Directory.GetFiles(bench.Program.Folder, "*.partial"));
    }

    // 255 bytes, the longest name that there is.
    [Fact]
    public void A_name_of_any_length_that_a_folder_takes_is_written()
    {
        string file = bench.Named(new string('n', 251) + ".pdf");
        Assert.Equal(0, bench.Program.Run("card", "--out", file, "--quiet").Code);
        Assert.True(File.Exists(file));
        Ended longer = bench.Program.Run("card", "--out", bench.Named(new string('n', 252) + ".pdf"), "--quiet");
        Assert.Equal(2, longer.Code);
        Assert.DoesNotContain("partial", longer.Error, StringComparison.Ordinal);
        Assert.Empty(Directory.GetFiles(bench.Program.Folder, "*.partial"));
    }

    [Theory]
    [InlineData("damaged", "This card is damaged: its check says")]
    [InlineData("cut", "This card is cut off")]
    public void A_card_that_cannot_be_read_is_refused_with_the_reason(string how, string reason)
    {
        string text = Decoded(bench.A6), file = bench.Named(how + ".txt");
        File.WriteAllText(file, how == "cut" ? text[..200] : text.Replace("clean 800", "clean 900", StringComparison.Ordinal));
        Ended ended = bench.Program.Run("cameras", "import", file);
        Assert.Equal((3, ""), (ended.Code, ended.Out));
        Assert.Contains(reason, ended.Error, StringComparison.Ordinal);
    }

    private static string Text(Page page) => string.Join(' ', page.GetWords().Select(w => w.Text));

    /// <summary>What is ruled on a page, level or upright, from two millimetres on.</summary>
    private static IReadOnlyList<PdfRectangle> Rules(Page page) =>
        [.. page.Paths.Where(p => p.IsStroked).Select(p => p.GetBoundingRectangle()).OfType<PdfRectangle>().Where(r => Math.Max(r.Width, r.Height) > 2 * PointsPerMm && Math.Min(r.Width, r.Height) < 0.1)];

    /// <summary>The front at 300 dpi: true where there is ink.</summary>
    private static (bool[][] Ink, double PerMm) Ink(string pdf)
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
    private static bool Overlap(Word one, Word other)
    {
        const double Touch = 0.25 * PointsPerMm;
        bool isFraction = one.Text.Contains('\u2044', StringComparison.Ordinal) || other.Text.Contains('\u2044', StringComparison.Ordinal) || (one.Text.Length == 1 && other.Text.Length == 1);
        return !isFraction && one.BoundingBox.Left < other.BoundingBox.Right - Touch && other.BoundingBox.Left < one.BoundingBox.Right - Touch
            && one.BoundingBox.Bottom < other.BoundingBox.Top - Touch && other.BoundingBox.Bottom < one.BoundingBox.Top - Touch;
    }

    /// <summary>What the code on the back says.</summary>
    private static string Decoded(string pdf)
    {
        string picture = Path.ChangeExtension(pdf, null) + "-back";
        Assert.Equal("", Ran("pdftoppm", "-r", "300", "-f", "2", "-singlefile", "-gray", pdf, picture));
        string read = Ran("zbarimg", "--quiet", "--nodbus", "--raw", picture + ".pgm");
        // The decoder ends its output with a line feed of its own.
        return read[..^1];
    }

    private static string Ran(string program, params string[] args)
    {
        using Process process = Process.Start(new ProcessStartInfo(program, args) { RedirectStandardOutput = true, RedirectStandardError = true })!;
        Task<string> error = process.StandardError.ReadToEndAsync();
        string output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        Assert.True(process.ExitCode == 0, $"{program} ended with {process.ExitCode}: {error.Result}");
        return output;
    }

    /// <summary>One decision for all three: what was judged of another raw setting speaks neither in a plan nor on paper nor in the page.</summary>
    [Fact]
    public void Limits_of_another_raw_setting_are_refused_with_the_reason_by_plan_and_card_and_pocket_page()
    {
        using RunningProgram program = new();
        string file = Path.Combine(program.Folder, "body-a.json");
        File.WriteAllText(file, CardBench.BodyA("Body A", withJudging: true).Replace("\"body\":\"Invented Body A, 14-bit raw", "\"body\":\"Invented Body A, 12-bit raw", StringComparison.Ordinal));
        Assert.Equal(0, program.Run("cameras", "import", file).Code);
        string[][] calls =
        [
            ["plan", "--aperture", "f/11", "--shutter", "1/4", "--under", "2 1/3", "--print", "60cm", "--distance", "60cm"],
            ["card", "--print", "60cm", "--distance", "60cm", "--out", Path.Combine(program.Folder, "card.pdf")],
            ["pocket", "--print", "60cm", "--distance", "60cm", "--out", Path.Combine(program.Folder, "pocket.html")],
        ];
        foreach (string[] call in calls)
        {
            Ended ended = program.Run(call);
            string told = string.Join(' ', (ended.Out + ended.Error).Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
            Assert.Equal(0, ended.Code);
            Assert.Contains("hold for Invented Body A, 12-bit raw", told, StringComparison.Ordinal);
            Assert.DoesNotContain("by your own judging", told, StringComparison.Ordinal);
        }
    }
}
