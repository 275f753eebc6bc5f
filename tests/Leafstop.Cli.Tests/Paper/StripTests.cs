using System.Globalization;
using System.Text.Json;
using Leafstop.Raw.Synthetic;
using Leafstop.Testing;
using UglyToad.PdfPig;
using UglyToad.PdfPig.Content;
using UglyToad.PdfPig.Core;

namespace Leafstop.Cli.Tests.Paper;

/// <summary>A ladder of Body A, eight levels of 1200 × 800 and two frames each, kept as a camera, and strip 1 made of it for a print 15 cm wide.</summary>
public sealed class StripBench : IDisposable
{
    public StripBench()
    {
        BenchSample.Write(new SampleOptions { Width = 1200, Height = 800, Isos = [100, 400, 800, 1600, 3200, 5000, 6400, 8000], CapFramesPerLevel = 0 }, Folder);
        Assert.Equal(0, Program.Run("measure", Folder, "--save", "Body A", "--quiet").Code);
        Made("one.pdf", "--print", "15cm", "--camera", "body a");
    }

    public RunningProgram Program { get; } = new();

    public string Folder => Path.Combine(Program.Folder, "bench");

    /// <summary>Strip 1.</summary>
    public string One => Path.Combine(Program.Folder, "one.pdf");

    public string Made(string name, params string[] options)
    {
        string file = Path.Combine(Program.Folder, name);
        Ended ended = Program.Run(["strip", Folder, "--out", file, "--quiet", .. options]);
        Assert.Equal((0, ""), (ended.Code, ended.Error));
        return file;
    }

    public void Dispose() => Program.Dispose();
}

/// <summary>The printed sheet, measured by a reader of PDF that had no part in writing it, and the answers typed in.</summary>
public sealed class StripTests(StripBench bench) : IClassFixture<StripBench>
{
    private const double PointsPerCentimetre = 72 / 2.54;

    // Derived: PRN-01's arithmetic, 1200 pixels over 15 cm are 80 on a centimetre, on either sheet; ISO 216 A4 is 210 x 297 mm, letter 8.5 x 11 in.
    [Theory]
    [InlineData("a4", 21.0, 29.7)]
    [InlineData("letter", 21.59, 27.94)]
    public void Every_crop_has_the_pixels_per_centimetre_of_the_print(string sheet, double width, double height)
    {
        using PdfDocument document = PdfDocument.Open(sheet == "a4" ? bench.One : bench.Made("sheet.pdf", "--print", "15cm", "--sheet", sheet));
        Page page = document.GetPage(1);
        // What was measured goes beneath the key where there is room, else behind it.
        Assert.InRange(document.NumberOfPages, 2, 3);
        Assert.Equal(width, page.Width / PointsPerCentimetre, 0.01);
        Assert.Equal(height, page.Height / PointsPerCentimetre, 0.01);
        IPdfImage[] crops = [.. page.GetImages()];
        // Eight levels, four of them twice, and the blank check; three places each.
        Assert.Equal(13 * 3, crops.Length);
        Assert.All(crops, crop =>
        {
            Assert.Equal(80, crop.WidthInSamples / (crop.BoundingBox.Width / PointsPerCentimetre), 0.01);
            Assert.Equal(80, crop.HeightInSamples / (crop.BoundingBox.Height / PointsPerCentimetre), 0.01);
            Assert.Equal(8, crop.BitsPerComponent);
            Assert.InRange(crop.BoundingBox.Left / PointsPerCentimetre, 1.8 - 0.01, width - 1.8);
            Assert.InRange(crop.BoundingBox.Right / PointsPerCentimetre, 1.8, width - 1.8 + 0.01);
            Assert.InRange(crop.BoundingBox.Bottom / PointsPerCentimetre, 1.8, height);
        });
        // No two crops overlap.
        for (int i = 0; i < crops.Length; i++)
            Assert.All(crops.Skip(i + 1), other => Assert.False(Overlap(crops[i].BoundingBox, other.BoundingBox)));
    }

    [Fact]
    public void The_page_that_is_judged_names_no_ISO_and_no_type_is_smaller_than_ten_points()
    {
        using PdfDocument document = PdfDocument.Open(bench.One);
        string front = document.GetPage(1).Text, back = document.GetPage(2).Text;
        Assert.DoesNotContain("ISO", front, StringComparison.OrdinalIgnoreCase);
        Assert.All((string[])["8000", "6400", "5000", "3200", "1600", "800", "400"], iso => Assert.DoesNotContain(iso, front, StringComparison.Ordinal));
        Assert.All((string[])["8000", "6400", "5000", "3200", "1600", "800", "400"], iso => Assert.Contains(iso, back, StringComparison.Ordinal));
        Assert.All(document.GetPages().SelectMany(p => p.Letters), letter => Assert.True(letter.PointSize >= 10, $"{letter.Value} has {letter.PointSize} points"));
    }

    [Fact]
    public void The_measuring_line_is_a_hundred_millimetres_long()
    {
        using PdfDocument document = PdfDocument.Open(bench.One);
        double longest = document.GetPage(1).Paths.Select(p => p.GetBoundingRectangle()?.Width ?? 0).Max();
        Assert.Equal(10, longest / PointsPerCentimetre, 0.005);
    }

    [Fact]
    public void The_same_number_gives_the_same_letters_and_another_number_others()
    {
        string[] Letters(string number)
        {
            using PdfDocument document = PdfDocument.Open(number == "1" ? bench.One : bench.Made("number.pdf", "--print", "15cm", "--number", number));
            return [.. document.GetPage(2).GetWords().Select(w => w.Text)];
        }

        string[] seven = Letters("7");
        Assert.Equal(seven, Letters("7"));
        Assert.NotEqual(seven.Skip(12), Letters("1").Skip(12));
    }

    // Derived: an observer who writes clean up to 800, bearable up to 3200 and no above, read off the key; a third of a stop either way.
    [Fact]
    public void Answers_typed_in_become_the_limits_that_a_plan_uses()
    {
        string typed = Typed(bench.One);
        Ended judged = bench.Program.Run("judge", "--strip", "1", "--paper", typed);
        Assert.Equal((0, ""), (judged.Code, judged.Error));
        Assert.StartsWith("Clean ", judged.Out, StringComparison.Ordinal);
        Assert.Contains("for 15 cm at 60 cm", judged.Out, StringComparison.Ordinal);

        using JsonDocument json = JsonDocument.Parse(bench.Program.Run("judge", "--strip", "1", "--paper", typed, "--json").Out);
        double clean = json.RootElement.GetProperty("clean").GetProperty("iso").GetDouble(), stretch = json.RootElement.GetProperty("stretch").GetProperty("iso").GetDouble();
        // Steps of a whole stop: the limit lies anywhere between the last yes and the first no.
        Assert.InRange(Math.Log2(clean / 800), -1 / 3.0, 1 + 1 / 3.0);
        Assert.InRange(Math.Log2(stretch / 3200), -1 / 3.0, 1 + 1 / 3.0);

        Ended plan = bench.Program.Run("plan", "--aperture", "11", "--shutter", "1/4", "--under", "2 1/3", "--print", "15cm", "--distance", "60cm");
        Assert.Equal(0, plan.Code);
        Assert.Contains("by your own judging", plan.Out.ReplaceLineEndings(" "), StringComparison.Ordinal);
        Assert.Contains("Limits by your own judging", bench.Program.Run("cameras", "show", "Body A").Out, StringComparison.Ordinal);
        Assert.Contains($"Limits of Body A are your own, judged on {DateTime.UtcNow.ToString("d MMMM yyyy", CultureInfo.InvariantCulture)}", (plan.Out + plan.Error).ReplaceLineEndings(" "), StringComparison.Ordinal);

        // What the judging knew of itself comes along, and moves with the print: half as wide is two stops.
        string[] scene = ["--aperture", "11", "--shutter", "1/4", "--under", "2 1/3", "--distance", "60cm", "--json"];
        JsonElement Limits(params string[] rest) => JsonDocument.Parse(bench.Program.Run(["plan", .. scene, .. rest]).Out).RootElement.GetProperty("limits");
        JsonElement own = Limits("--print", "15cm"), half = Limits("--print", "7.5cm");
        Assert.Equal(DateTime.UtcNow.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture), own.GetProperty("judgedOn").GetString());
        Assert.Equal(13, own.GetProperty("cleanJudged").GetProperty("answers").GetInt32());
        Assert.Equal(4, half.GetProperty("cleanJudged").GetProperty("interval95Iso")[1].GetDouble() / own.GetProperty("cleanJudged").GetProperty("interval95Iso")[1].GetDouble(), 1e-9);
        Assert.Equal("textured", Limits("--print", "15cm", "--tone", "textured").GetProperty("tone").GetString());
        // No rule leads from smooth tones to shadows: the criterion speaks, and says why.
        JsonElement shadows = JsonDocument.Parse(bench.Program.Run(["plan", .. scene, "--print", "15cm", "--tone", "shadows"]).Out).RootElement;
        Assert.Equal(("workedOut", "shadows"), (shadows.GetProperty("limits").GetProperty("how").GetString(), shadows.GetProperty("limits").GetProperty("tone").GetString()));
        Assert.Contains(shadows.GetProperty("assumed").EnumerateArray(), s => s.GetString()!.Contains("not for shadows", StringComparison.Ordinal));

        Ended known = bench.Program.Run("judge", "--print", "15cm", "--distance", "60cm", "--json");
        Assert.Contains("you judged Body A: clean ", known.Out.ReplaceLineEndings(" "), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(2, "no crop 'Z'", "--strip", "1", "--paper", "A clean, Z no")]
    [InlineData(2, "both", "--strip", "1", "--paper", "A clean, A no")]
    [InlineData(2, "too few", "--strip", "1", "--paper", "A clean")]
    [InlineData(2, "goes with --strip", "--paper", "A clean")]
    [InlineData(2, "goes with --paper", "--strip", "1")]
    [InlineData(2, "--strip is a whole number such as 3, not 'x'.", "--strip", "x", "--paper", "A clean")]
    [InlineData(2, "--drop is a whole number such as 3, not 'x'.", "--drop", "x")]
    [InlineData(3, "no strip 999", "--strip", "999", "--paper", "A clean")]
    [InlineData(2, "holds for the print", "--strip", "1", "--paper", "A clean", "--print", "60cm")]
    public void Answers_that_cannot_be_read_are_refused_with_the_reason(int code, string reason, params string[] rest)
    {
        Ended ended = bench.Program.Run(["judge", .. rest]);
        Assert.Equal(code, ended.Code);
        Assert.Contains(reason, ended.Error, StringComparison.Ordinal);
    }

    // A person who never says no is told so; what a person reads, a program reads too.
    [Fact]
    public void Never_no_on_paper_reads_above_the_noisiest_and_programs_get_the_sentences()
    {
        bench.Made("seventy.pdf", "--print", "15cm", "--number", "70", "--camera", "Body A");
        string letters = string.Join(' ', "ABCDEFGHJKLMN".Select(c => c));
        Ended judged = bench.Program.Run("judge", "--strip", "70", "--paper", $"{letters} clean", "--json");
        Assert.Equal((3, ""), (judged.Code, judged.Error));
        JsonElement json = JsonDocument.Parse(judged.Out).RootElement;
        Assert.Equal("aboveLadder", json.GetProperty("stretch").GetProperty("outcome").GetString());
        string[] words = [.. json.GetProperty("words").EnumerateArray().Select(w => w.GetString()!)];
        Assert.Contains(words, w => w.StartsWith("Stretch: above the noisiest shown, because you never said no", StringComparison.Ordinal));
        Assert.Contains(words, w => w.StartsWith("The answers are kept with 'Body A'", StringComparison.Ordinal));
        Ended read = bench.Program.Run("judge", "--strip", "70", "--paper", $"{letters} clean");
        Assert.All(words.Take(2), w => Assert.Contains(w, read.Out.ReplaceLineEndings(" "), StringComparison.Ordinal));

        // It is in the history, where it can be dropped and taken back in.
        JsonElement[] all = History();
        int number = all.Last().GetProperty("number").GetInt32();
        Assert.True(History("--drop", number.ToString(CultureInfo.InvariantCulture)).Single(j => j.GetProperty("number").GetInt32() == number).GetProperty("isDropped").GetBoolean());
        Assert.False(History("--restore", number.ToString(CultureInfo.InvariantCulture)).Single(j => j.GetProperty("number").GetInt32() == number).GetProperty("isDropped").GetBoolean());
        Assert.Contains("Tells no limit.", bench.Program.Run("judge", "--history", "--camera", "Body A").Out.ReplaceLineEndings(" "), StringComparison.Ordinal);
        Assert.Equal(3, bench.Program.Run("judge", "--drop", "99", "--camera", "Body A").Code);

        JsonElement[] History(params string[] rest)
        {
            Ended ended = bench.Program.Run(["judge", "--history", "--camera", "Body A", "--json", .. rest]);
            Assert.Equal((0, ""), (ended.Code, ended.Error));
            return [.. JsonDocument.Parse(ended.Out).RootElement.GetProperty("judgings").EnumerateArray()];
        }
    }

    [Fact]
    public void The_lift_of_the_dark_stands_on_both_sides_of_the_sheet_and_goes_with_the_limits()
    {
        string file = Path.Combine(bench.Program.Folder, "lifted.pdf");
        Ended made = bench.Program.Run("strip", bench.Folder, "--out", file, "--print", "15cm", "--lift", "2 1/3", "--json", "--quiet", "--camera", "Body A");
        Assert.Equal((0, ""), (made.Code, made.Error));
        JsonElement told = JsonDocument.Parse(made.Out).RootElement;
        Assert.Equal(7 / 3.0, told.GetProperty("darkLiftStops").GetDouble(), 1e-9);
        Assert.True(told.GetProperty("isCameraKept").GetBoolean());
        using (PdfDocument document = PdfDocument.Open(file))
            Assert.All(document.GetPages(), page => Assert.Contains("lifted by 2 1/3 stops", string.Join(' ', page.GetWords().Select(w => w.Text)), StringComparison.Ordinal));
        long strip = told.GetProperty("number").GetInt64();
        JsonElement judged = JsonDocument.Parse(bench.Program.Run("judge", "--strip", strip.ToString(CultureInfo.InvariantCulture), "--paper", Typed(file), "--json").Out).RootElement;
        Assert.Equal(7 / 3.0, judged.GetProperty("darkLiftStops").GetDouble(), 1e-9);
        Assert.Contains("the dark lifted by 2 1/3 stops", judged.GetProperty("words")[0].GetString(), StringComparison.Ordinal);

        // Without a wish it is found, in thirds, and told all the same; a camera that is not kept is told before anybody judges.
        Ended plain = bench.Program.Run("strip", bench.Folder, "--out", file, "--print", "15cm", "--quiet", "--data", Path.Combine(bench.Program.Folder, "elsewhere"));
        Assert.Matches("The dark is lifted by [0-9 /]+ stops", plain.Out.ReplaceLineEndings(" "));
        Assert.Contains("is kept, so the answers could not be", plain.Out.ReplaceLineEndings(" "), StringComparison.Ordinal);
    }

    // Derived: an eighth of 800 pixels is 100 of 1200 across; 12 cm wide that is 10 mm, and below it nothing is judged. At 30 cm the sheet has room for 78 of them.
    [Theory]
    [InlineData("12cm", 10.0)]
    [InlineData("17cm", 14.17)]
    [InlineData("30cm", 19.5)]
    public void Small_crops_stand_apart_far_enough_for_the_words_over_them(string print, double sideMm)
    {
        using PdfDocument document = PdfDocument.Open(bench.Made($"print{print}.pdf", "--print", print, "--sheet", "letter"));
        Page page = document.GetPage(1);
        Assert.All(page.GetImages(), crop => Assert.Equal(sideMm, crop.BoundingBox.Width / PointsPerCentimetre * 10, 0.02));
        // Words of one line do not run into each other.
        Word[] words = [.. page.GetWords()];
        Assert.All(words, one => Assert.DoesNotContain(words, other => other != one && Overlap(one.BoundingBox, other.BoundingBox)));
    }

    [Theory]
    [InlineData("two.txt", "60cm", "a4", ".pdf")]
    [InlineData("two.pdf", "60cm", "a3", "a4 or letter")]
    [InlineData("two.pdf", "20m", "a4", "smaller print")]
    [InlineData("two.pdf", "9cm", "a4", "too small for a strip")]
    public void A_sheet_that_cannot_be_made_is_refused_with_the_reason(string file, string print, string sheet, string reason)
    {
        Ended ended = bench.Program.Run("strip", bench.Folder, "--out", Path.Combine(bench.Program.Folder, file), "--print", print, "--sheet", sheet, "--quiet");
        Assert.NotEqual(0, ended.Code);
        Assert.Contains(reason, ended.Error, StringComparison.Ordinal);
        Assert.False(File.Exists(Path.Combine(bench.Program.Folder, file)));
    }

    // Derived: the middle that is asked for, to the pixel of a crop's edge: half of one in 1200 and in 800.
    [Fact]
    public void A_crop_is_cut_where_the_person_puts_it_and_the_key_says_so()
    {
        string file = Path.Combine(bench.Program.Folder, "moved.pdf");
        Ended made = bench.Program.Run("strip", bench.Folder, "--out", file, "--print", "15cm", "--dark", "30%,40%", "--texture", "0.75 0.6", "--json", "--quiet");
        Assert.Equal((0, ""), (made.Code, made.Error));
        JsonElement[] places = [.. JsonDocument.Parse(made.Out).RootElement.GetProperty("places").EnumerateArray()];
        Assert.Equal([("dark", true), ("mid tone", false), ("texture", true)], places.Select(p => (p.GetProperty("shows").GetString()!, p.GetProperty("isChosen").GetBoolean())));
        Assert.Equal(30, places[0].GetProperty("acrossPercent").GetDouble(), 0.05);
        Assert.Equal(40, places[0].GetProperty("downPercent").GetDouble(), 0.07);
        Assert.Equal(75, places[2].GetProperty("acrossPercent").GetDouble(), 0.05);
        using PdfDocument document = PdfDocument.Open(file);
        Assert.Contains("30%,40% (chosen by you)", string.Join(' ', document.GetPage(2).GetWords().Select(w => w.Text)), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--dark", "99%,50%", "its middle can lie from")]
    [InlineData("--mid", "30%", "as in 20%,35%")]
    [InlineData("--texture", "130%,20%", "no share")]
    public void A_place_that_cannot_be_is_refused_with_the_reason(string option, string place, string reason)
    {
        Ended ended = bench.Program.Run("strip", bench.Folder, "--out", Path.Combine(bench.Program.Folder, "nowhere.pdf"), "--print", "15cm", option, place, "--quiet");
        Assert.Equal(2, ended.Code);
        Assert.Contains(option, ended.Error, StringComparison.Ordinal);
        Assert.Contains(reason, ended.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--number", "-4", "from 1 to 999999")]
    [InlineData("--number", "0", "from 1 to 999999")]
    [InlineData("--lift", "-1", "0 to 10 stops")]
    [InlineData("--lift", "much", "--lift: ")]
    public void A_number_or_lift_that_cannot_be_is_refused(string option, string value, string reason)
    {
        Ended ended = bench.Program.Run("strip", bench.Folder, "--out", Path.Combine(bench.Program.Folder, "none.pdf"), "--print", "15cm", option, value, "--quiet");
        Assert.Equal(2, ended.Code);
        Assert.Contains(reason, ended.Error, StringComparison.Ordinal);
        Assert.False(File.Exists(Path.Combine(bench.Program.Folder, "none.pdf")));
    }

    [Fact]
    public void Help_tells_a_default_once_and_how_a_crop_is_moved()
    {
        string help = bench.Program.Run("strip", "--help").Out;
        Assert.Equal(1, help.Split("a4 when not given").Length - 1);
        Assert.DoesNotContain("[default: a4]", help, StringComparison.Ordinal);
        Assert.Contains("--dark 20%,35%", help, StringComparison.Ordinal);
    }

    private static bool Overlap(PdfRectangle one, PdfRectangle other) => one.Left < other.Right && other.Left < one.Right && one.Bottom < other.Top && other.Bottom < one.Top;

    /// <summary>One answer to each letter, by what the key says behind it.</summary>
    private static string Typed(string file)
    {
        using PdfDocument document = PdfDocument.Open(file);
        string[] words = [.. document.GetPage(2).GetWords().Select(w => w.Text.Trim(','))];
        List<string> answers = [];
        for (int i = 0; i + 2 < words.Length; i++)
        {
            if (words[i].Length != 1 || !char.IsAsciiLetterUpper(words[i][0]) || !words[i + 1].StartsWith("ISO", StringComparison.Ordinal)) continue;
            string number = words[i + 1].Length > 3 ? words[i + 1][3..].Trim('\u00a0', ' ') : words[i + 2];
            int iso = int.Parse(number, CultureInfo.InvariantCulture);
            answers.Add($"{words[i]} {(iso <= 800 ? "clean" : iso <= 3200 ? "bearable" : "no")}");
        }

        Assert.Equal(13, answers.Count);
        return string.Join(", ", answers);
    }
}
