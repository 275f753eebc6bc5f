using Leafstop.Testing;
using static Leafstop.Cli.Tests.Paper.PrintedCard;

namespace Leafstop.Cli.Tests.Paper;

/// <summary>Cards that cannot be made, written or read: refused with the reason, and nothing is left behind.</summary>
public sealed class CardRefusalTests(CardBench bench) : IClassFixture<CardBench>
{
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
            string told = Squeezed(ended.Out + ended.Error);
            Assert.Equal(0, ended.Code);
            Assert.Contains("hold for Invented Body A, 12-bit raw", told, StringComparison.Ordinal);
            Assert.DoesNotContain("by your own judging", told, StringComparison.Ordinal);
        }
    }
}
