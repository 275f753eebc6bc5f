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
}
