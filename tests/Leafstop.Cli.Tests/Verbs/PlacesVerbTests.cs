using System.Text.Json;
using Leafstop.Testing;

namespace Leafstop.Cli.Tests.Verbs;

public sealed class PlacesVerbTests : IDisposable
{
    private readonly RunningProgram _program = new();

    public void Dispose() => _program.Dispose();

    private void Keep()
    {
        Assert.Equal(0, _program.Run("places", "add", "Dimble Spout", "--lat", "50.1", "--lon", "-3.2", "--zone", "Europe/London", "--canopy", "0.5").Code);
        Assert.Equal(0, _program.Run("places", "note", "dimble spout", "--at", "2026-10-17 08:40", "--ev", "6 2/3", "--okta", "8", "--filter", "polariser 1.5").Code);
    }

    [Fact]
    public void Lists_are_the_same_when_quiet()
    {
        Keep();
        Assert.Equal(_program.Run("places").Out, _program.Run("places", "--quiet").Out);
        Assert.Equal(_program.Run("places", "list").Out, _program.Run("places", "list", "--quiet").Out);
    }

    // Derived: the reading and its filter, at the note's own time and sky; carried by the model at another.
    [Fact]
    public void A_note_of_your_own_goes_before_the_model_and_says_so()
    {
        Keep();
        string[] asked = ["light", "--place", "Dimble Spout", "--date", "2026-10-17", "--okta", "8", "--at"];
        JsonElement same = JsonDocument.Parse(_program.Run([.. asked, "08:40", "--json"]).Out).RootElement;
        JsonElement row = same.GetProperty("samples")[0];
        Assert.Equal(6 + (2 / 3.0) + 1.5, row.GetProperty("ev100").GetDouble(), 1e-4);
        Assert.Equal(("workedOut", "2026-10-17T08:40:00+01:00"), (row.GetProperty("how").GetString(), row.GetProperty("noteTime").GetString()));
        Assert.False(same.GetProperty("place").TryGetProperty("latitudeDeg", out _));
        Assert.Contains("From your note of 2026-10-17 08:40", _program.Run([.. asked, "10:00"]).Out.ReplaceLineEndings(" "), StringComparison.Ordinal);
    }

    [Fact]
    public void Places_are_listed_shown_exported_without_whereabouts_and_removed()
    {
        Assert.StartsWith("No place is kept yet.", _program.Run("places").Out, StringComparison.Ordinal);
        Assert.False(Directory.Exists(_program.Data));
        Keep();
        Assert.Equal("Dimble Spout  1 light note, Europe/London\n", _program.Run("places", "list").Out);
        Assert.Contains("  1  2026-10-17 08:40  EV 6 2/3 measured, 8/8 cloud, through polariser 1.5", _program.Run("places", "show", "dimble spout").Out, StringComparison.Ordinal);
        Assert.DoesNotContain("50.1", _program.Run("places", "export", "Dimble Spout").Out, StringComparison.Ordinal);
        Assert.Contains("50.1", _program.Run("places", "export", "Dimble Spout", "--with-location").Out, StringComparison.Ordinal);
        Assert.Equal(3, _program.Run("places", "unnote", "Dimble Spout", "7").Code);
        Assert.Equal(0, _program.Run("places", "unnote", "Dimble Spout", "1").Code);
        Assert.Equal(0, _program.Run("places", "remove", "Dimble Spout").Code);
        Assert.Equal(3, _program.Run("places", "show", "Dimble Spout").Code);
    }

    // Derived: what was exported with its whereabouts comes back as it was; without them it cannot.
    [Fact]
    public void A_place_comes_back_from_its_file()
    {
        Keep();
        string file = Path.Combine(_program.Folder, "spout.json"), secret = Path.Combine(_program.Folder, "secret.json");
        Assert.Equal(0, _program.Run("places", "export", "Dimble Spout", file, "--with-location").Code);
        Assert.Equal(0, _program.Run("places", "export", "Dimble Spout", secret).Code);
        string shown = _program.Run("places", "show", "Dimble Spout").Out;
        Assert.Contains("remove it first", _program.Run("places", "import", file).Error, StringComparison.Ordinal);
        Assert.Equal(0, _program.Run("places", "remove", "Dimble Spout").Code);
        Ended refused = _program.Run("places", "import", secret);
        Assert.Equal(3, refused.Code);
        Assert.Contains("--with-location", refused.Error, StringComparison.Ordinal);
        Assert.Equal((0, "Kept 'Dimble Spout' with its light note.\n"), (_program.Run("places", "import", file) is var back ? back.Code : 1, back.Error));
        Assert.Equal(shown, _program.Run("places", "show", "Dimble Spout").Out);
        Assert.Equal(2, _program.Run("places", "import", Path.Combine(_program.Folder, "nothing.json")).Code);
    }

    [Theory]
    [InlineData("kept already", "add", "Dimble Spout", "--lat", "1", "--lon", "1", "--zone", "UTC")]
    [InlineData("latitude", "add", "Elsewhere", "--lat", "91", "--lon", "1", "--zone", "UTC")]
    [InlineData("no time", "note", "Dimble Spout", "--at", "yesterday", "--ev", "9")]
    [InlineData("--ev", "note", "Dimble Spout", "--at", "2026-10-17 08:40", "--ev", "bright")]
    [InlineData("eighths", "note", "Dimble Spout", "--at", "2026-10-17 08:40", "--ev", "9", "--okta", "11")]
    public void A_wrong_call_ends_with_2_and_one_sentence(string told, params string[] args)
    {
        Keep();
        Ended refused = _program.Run(["places", .. args]);
        Assert.Equal((2, ""), (refused.Code, refused.Out));
        Assert.Contains(told, refused.Error, StringComparison.Ordinal);
    }
}
