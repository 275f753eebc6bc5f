using System.Text.Json;

namespace Leafstop.EndToEnd.Pocket;

/// <summary>Derived: what leafstop pocket refuses, and why.</summary>
public sealed class PocketVerbTests(PocketFiles files)
{
    [Theory]
    [InlineData("--out writes a web page", "--out", "page.pdf")]
    [InlineData("there is no folder", "--out", "nowhere/page.html")]
    [InlineData("no camera 'Body Z' is kept", "--camera", "Body Z")]
    [InlineData("needs --clean", "--stretch", "3200")]
    [InlineData("A limit holds for one print", "--clean", "800")]
    [InlineData("stretch is the higher of the two", "--clean", "800", "--stretch", "400", "--print", "60cm", "--distance", "60cm")]
    [InlineData("--lenses:", "--lenses", "24,wide")]
    [InlineData("--taste:", "--taste", "4")]
    [InlineData("--print needs --distance", "--print", "60cm")]
    public void What_cannot_be_written_is_refused_in_one_sentence(string sentence, params string[] args)
    {
        _ = files.Kept;
        Testing.Ended ended = files.Program.Run(["pocket", .. args]);
        Assert.NotEqual(0, ended.Code);
        Assert.Contains(sentence, ended.Error, StringComparison.Ordinal);
        Assert.Equal(1, ended.Error.TrimEnd().Count(c => c == '\n') + 1);
    }

    /// <summary>Whatever is wrong with a call, the lenses and tastes that it names are not kept.</summary>
    [Theory]
    [InlineData("--print", "60cm")]
    [InlineData("--camera", "Body Z")]
    [InlineData("--stretch", "3200")]
    [InlineData("--format", "wide")]
    public void A_refused_call_keeps_no_lenses_and_no_tastes(params string[] wrong)
    {
        using Testing.RunningProgram program = new();
        PocketFiles.Done(program.Run("pocket", "--lenses", "24,35", "--taste", "4%", "--out", "page.html"));
        Assert.NotEqual(0, program.Run(["pocket", "--lenses", "14,21,90", "--taste", "9%,12%", "--out", "other.html", .. wrong]).Code);
        Assert.NotEqual(0, program.Run(["pocket", "--lenses", "14", "--taste", "much", "--out", "other.html"]).Code);
        using var told = JsonDocument.Parse(program.Run("pocket", "--out", "page.html", "--json").Out);
        Assert.Equal((2, 1), (told.RootElement.GetProperty("lenses").GetInt32(), told.RootElement.GetProperty("tastes").GetInt32()));
        using var data = JsonDocument.Parse(PocketFiles.DataOf(Path.Combine(program.Folder, "page.html")));
        Assert.Equal([24, 35], data.RootElement.GetProperty("lenses").EnumerateArray().Select(l => l.GetProperty("focalLengthMm").GetDouble()));
        Assert.False(File.Exists(Path.Combine(program.Folder, "other.html")));
    }

    /// <summary>A page that is made again keeps its name, so that what was set in it is found; other cameras and other people have another.</summary>
    [Fact]
    public void A_page_is_known_by_its_data_folder_and_its_cameras()
    {
        using Testing.RunningProgram one = new(), other = new();
        string own = Identity(one, "--clean", "800", "--limit-print", "60cm", "--limit-distance", "60cm");
        Assert.Matches("^[0-9a-f]{16}$", own);
        Assert.Equal(own, Identity(one, "--clean", "1000", "--limit-print", "60cm", "--limit-distance", "60cm", "--lenses", "24,35"));
        Assert.NotEqual(own, Identity(other, "--clean", "800", "--limit-print", "60cm", "--limit-distance", "60cm"));
        _ = files.Kept;
        Assert.NotEqual(Identity(files.Program), Identity(files.Program, "--data", "elsewhere"));

        static string Identity(Testing.RunningProgram program, params string[] options)
        {
            PocketFiles.Done(program.Run(["pocket", "--out", "named.html", .. options]));
            using var data = JsonDocument.Parse(PocketFiles.DataOf(Path.Combine(program.Folder, "named.html")));
            return data.RootElement.GetProperty("page").GetString()!;
        }
    }
}
