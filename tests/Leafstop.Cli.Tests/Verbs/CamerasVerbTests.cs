using System.Text.Json;
using Leafstop.Testing;

namespace Leafstop.Cli.Tests.Verbs;

public sealed class CamerasVerbTests : IDisposable
{
    private readonly RunningProgram _program = new();

    /// <summary>A camera file of the invented Body A, two levels of the job's table.</summary>
    internal const string BodyA = """
        {
          "format": "leafstop-camera", "formatVersion": 1, "name": "Body A",
          "measurements": [
            {
              "measuredAt": "2026-03-01T06:50:12Z",
              "camera": { "make": "Invented", "model": "Body A", "bodyFingerprint": null, "widthPx": 8256, "heightPx": 5504, "mosaic": "2x2", "bits": 14 },
              "ladder": "metered",
              "levels": [
                { "iso": 100, "ladder": "metered", "gainElectronsPerDn": 3.2, "gainInterval95": [3.19, 3.21], "readNoiseElectrons": 3.6,
                  "readNoiseInterval95": [3.5, 3.7], "readNoiseSource": "capFrames", "saturationElectrons": 50000, "clipSeen": true, "usable": true, "flags": [], "reason": null },
                { "iso": 6400, "ladder": "metered", "gainElectronsPerDn": null, "gainInterval95": null, "readNoiseElectrons": null,
                  "readNoiseInterval95": null, "readNoiseSource": null, "saturationElectrons": null, "clipSeen": false, "usable": false, "flags": ["smoothed"],
                  "reason": "Noise was smoothed in the camera." }
              ],
              "gainSteps": [ { "belowIso": 400, "aboveIso": 500, "readNoiseRatio": 1.94 } ]
            }
          ]
        }
        """;

    public void Dispose() => _program.Dispose();

    private string Written(string text)
    {
        string file = Path.Combine(_program.Folder, "body a é.json");
        File.WriteAllText(file, text);
        return file;
    }

    [Fact]
    public void A_camera_is_imported_listed_shown_and_exported()
    {
        Assert.Equal("No camera is kept yet. Measure one: leafstop measure DIR --save NAME\n", _program.Run("cameras").Out);
        Assert.False(Directory.Exists(_program.Data));
        Assert.Equal(new Ended(0, "Kept as 'Body A': 1 measuring added, 1 in its history.\n", ""), _program.Run("cameras", "import", Written(BodyA)));
        Assert.Equal("Body A  ISO 100 to 100, imported, measured 2026-03-01\n", _program.Run("cameras", "list").Out);
        Ended shown = _program.Run("cameras", "show", " body a ");
        Assert.Equal(0, shown.Code);
        Assert.Contains("  100       3.2          3.6 (3.5 to 3.7)      50000         13.8\n", shown.Out, StringComparison.Ordinal);
        Assert.Contains("left off: Noise was smoothed in the camera.", shown.Out, StringComparison.Ordinal);
        Assert.Contains("Gain step between ISO 400 and 500.", shown.Out, StringComparison.Ordinal);
        string exported = _program.Run("cameras", "export", "BODY A").Out;
        Assert.True(JsonElement.DeepEquals(JsonDocument.Parse(BodyA).RootElement, JsonDocument.Parse(exported).RootElement));
    }

    [Fact]
    public void Importing_again_changes_nothing_and_says_so()
    {
        string file = Written(BodyA);
        _program.Run("cameras", "import", file);
        Assert.Equal(new Ended(0, "'Body A' holds all of this already; nothing was changed.\n", ""), _program.Run("cameras", "import", file));
    }

    [Fact]
    public void Another_body_is_not_imported_over_a_kept_one_but_under_a_name_of_its_own()
    {
        _program.Run("cameras", "import", Written(BodyA));
        string other = Written(BodyA.Replace("\"model\": \"Body A\"", "\"model\": \"Body B\"", StringComparison.Ordinal));
        Ended refused = _program.Run("cameras", "import", other);
        Assert.Equal((2, ""), (refused.Code, refused.Out));
        Assert.Contains("another body", refused.Error, StringComparison.Ordinal);
        Assert.Equal(0, _program.Run("cameras", "import", other, "--name", "Borrowed").Code);
        using JsonDocument list = JsonDocument.Parse(_program.Run("cameras", "list", "--json").Out);
        Assert.Equal(["Body A", "Borrowed"], list.RootElement.GetProperty("cameras").EnumerateArray().Select(c => c.GetProperty("name").GetString()));
    }

    [Theory]
    [InlineData("{}", "format")]
    [InlineData("not json", "no JSON")]
    public void A_file_that_is_no_camera_ends_with_3_and_keeps_nothing(string text, string told)
    {
        Ended refused = _program.Run("cameras", "import", Written(text));
        Assert.Equal((3, ""), (refused.Code, refused.Out));
        Assert.Contains(told, refused.Error, StringComparison.Ordinal);
        Assert.False(Directory.Exists(_program.Data));
    }

    [Fact]
    public void An_unknown_camera_ends_with_3_and_names_the_known_ones()
    {
        Assert.Contains("no camera is kept yet", _program.Run("cameras", "show", "Body A").Error, StringComparison.Ordinal);
        _program.Run("cameras", "import", Written(BodyA));
        Ended unknown = _program.Run("cameras", "show", "Body C");
        Assert.Equal(3, unknown.Code);
        Assert.Contains("There is 'Body A'.", unknown.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void An_export_replaces_no_file()
    {
        _program.Run("cameras", "import", Written(BodyA));
        string target = Path.Combine(_program.Folder, "kept.json");
        File.WriteAllText(target, "mine");
        Ended refused = _program.Run("cameras", "export", "Body A", target);
        Assert.Equal(2, refused.Code);
        Assert.Equal("mine", File.ReadAllText(target));
        Assert.Empty(Directory.GetFiles(_program.Folder, ".*.partial"));
    }

    [Fact]
    public void A_damaged_data_file_ends_with_3_and_stays_as_it_is()
    {
        Directory.CreateDirectory(_program.Data);
        string file = Path.Combine(_program.Data, "leafstop.db");
        File.WriteAllText(file, new string('x', 5000));
        Ended refused = _program.Run("cameras");
        Assert.Equal((3, ""), (refused.Code, refused.Out));
        Assert.Contains("damaged", refused.Error, StringComparison.Ordinal);
        Assert.Equal(5000, new FileInfo(file).Length);
    }
}
