using System.Globalization;
using System.Text.Json;
using Leafstop.Core.Card;
using Leafstop.Testing;
using UglyToad.PdfPig;
using UglyToad.PdfPig.Content;
using static Leafstop.Cli.Tests.Paper.PrintedCard;

namespace Leafstop.Cli.Tests.Paper;

/// <summary>What the printed card says, and what reads back from its code.</summary>
public sealed class CardTests(CardBench bench) : IClassFixture<CardBench>
{
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
        using RunningProgram other = CardBench.Unjudged();
        string pdf = Path.Combine(other.Folder, "plain.pdf");
        Assert.Equal(0, other.Run("card", "--print", "2m", "--distance", "60cm", "--out", pdf).Code);
        Assert.Equal(Leafstop.Core.Viewing.LimitOrigin.WorkedOut, CardText.Parse(Decoded(pdf)).Limits!.Origin);
        using PdfDocument document = PdfDocument.Open(pdf);
        Assert.Contains("Worked out, not judged by you; stretch: rule of thumb.", Text(document.GetPage(1)), StringComparison.Ordinal);
        Assert.Contains("Other tables: worked out.", Text(document.GetPage(2)), StringComparison.Ordinal);
    }

    // Pinned: a print six metres wide seen from a hand's width is past the criterion for every level of Body A.
    [Fact]
    public void Where_even_the_lowest_level_is_past_stretch_card_and_plan_say_so()
    {
        using RunningProgram other = CardBench.Unjudged();
        string pdf = Path.Combine(other.Folder, "past.pdf");
        string[] print = ["--print", "600cm", "--distance", "20cm"];
        Ended ended = other.Run(["card", .. print, "--out", pdf]);
        Assert.Equal(0, ended.Code);
        Assert.Contains("By the criterion even ISO 100, the lowest measured on Body A, is past stretch for this print. Judge a strip", Squeezed(ended.Out), StringComparison.Ordinal);
        using PdfDocument document = PdfDocument.Open(pdf);
        Assert.Contains("Even 100 is past stretch. (rule of thumb)", Text(document.GetPage(1)), StringComparison.Ordinal);
        // Between the two limits lies the lowest level of a smaller print.
        Assert.Equal(0, other.Run("card", "--print", "300cm", "--distance", "20cm", "--out", pdf).Code);
        using PdfDocument between = PdfDocument.Open(pdf);
        Assert.Contains("clean under 100, stretch 160", Text(between.GetPage(1)), StringComparison.Ordinal);
        Assert.Contains("even ISO 100, the lowest measured on Body A, is past stretch", Squeezed(other.Run(["plan", "--under", "2", "--aperture", "11", "--shutter", "1/4", .. print]).Out), StringComparison.Ordinal);
    }

    [Fact]
    public void A_gain_step_under_a_given_base_is_not_on_the_card()
    {
        string below = bench.Made("step-above.pdf", "--base", "400"), above = bench.Made("step-under.pdf", "--base", "500");
        using PdfDocument with = PdfDocument.Open(below), without = PdfDocument.Open(above);
        Assert.Contains("between 400 and 500", Text(with.GetPage(1)), StringComparison.Ordinal);
        Assert.DoesNotContain("between 400 and 500", Text(without.GetPage(1)), StringComparison.Ordinal);
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

    // Body A for a print so small and so far that it is clean even at ISO 6400, the highest measured: that is no limit.
    [Theory]
    [InlineData("a6")]
    [InlineData("wallet")]
    public void A_ladder_that_ends_inside_clean_is_printed_without_limits_and_says_how_far_was_measured(string size)
    {
        using RunningProgram other = CardBench.Unjudged();
        string pdf = Path.Combine(other.Folder, "open.pdf");
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
}
