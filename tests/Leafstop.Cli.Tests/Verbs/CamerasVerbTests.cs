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
        Assert.Equal("Body A  ISO 100, imported, measured 2026-03-01\n", _program.Run("cameras", "list").Out);
        Ended shown = _program.Run("cameras", "show", " body a ");
        Assert.Equal(0, shown.Code);
        // In the words of a bench test: the same columns and units, and how each number is known.
        Assert.Contains("\n      e\u2212/DN           e\u2212        e\u2212  stops\n", shown.Out, StringComparison.Ordinal);
        Assert.Contains("\n 100  3.200  3.60 ± 0.10    50 000   13.8\n", shown.Out, StringComparison.Ordinal);
        Assert.Contains("\n- ISO 6400 is left off: Noise was smoothed in the camera.\n", shown.Out, StringComparison.Ordinal);
        Assert.Contains("worked out", shown.Out, StringComparison.Ordinal);
        Assert.Contains("Read noise steps down by 1.9 times between ISO 400 and 500. (measured)", shown.Out, StringComparison.Ordinal);
        string exported = _program.Run("cameras", "export", "BODY A").Out;
        Assert.True(JsonElement.DeepEquals(JsonDocument.Parse(BodyA).RootElement, JsonDocument.Parse(exported).RootElement));
    }

    /// <summary>The range that plans and limits take, 1 to 10 000 000.</summary>
    [Theory]
    [InlineData("1000000000")]
    [InlineData("0.5")]
    public void A_level_at_an_ISO_that_no_surface_takes_is_not_imported(string iso)
    {
        Ended refused = _program.Run("cameras", "import", Written(BodyA.Replace("\"iso\": 6400", $"\"iso\": {iso}", StringComparison.Ordinal)));
        Assert.Equal((3, ""), (refused.Code, refused.Out));
        Assert.Contains("\"measurements[0].levels[1].iso\" is an ISO between 1 and 10000000", refused.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Two_measurings_of_one_day_are_told_apart_by_their_time()
    {
        _program.Run("cameras", "import", Written(BodyA));
        _program.Run("cameras", "import", Written(BodyA.Replace("06:50:12Z", "18:05:00Z", StringComparison.Ordinal)));
        string shown = _program.Run("cameras", "show", "Body A").Out;
        Assert.Contains("- 2026-03-01 06:50:12 UTC, imported: ", shown, StringComparison.Ordinal);
        Assert.Contains("- 2026-03-01 18:05:00 UTC, imported: ", shown, StringComparison.Ordinal);
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
    [InlineData("\"mosaic\": \"2x2\"", "\"mosaic\": \"6x6\"", "has another mosaic")]
    [InlineData("\"widthPx\": 8256", "\"widthPx\": 5504", "has frames of another size")]
    public void A_measurement_of_another_mosaic_or_size_is_not_added(string kept, string now, string told)
    {
        _program.Run("cameras", "import", Written(BodyA));
        string other = BodyA.Replace(kept, now, StringComparison.Ordinal).Replace("2026-03-01", "2026-04-01", StringComparison.Ordinal);
        Ended refused = _program.Run("cameras", "import", Written(other));
        Assert.Equal((2, ""), (refused.Code, refused.Out));
        Assert.Contains($"'Body A' is already kept and {told}: it is Invented Body A, 8256 × 5504, 2×2 mosaic; this one is", refused.Error, StringComparison.Ordinal);
        Assert.Contains("under another name", refused.Error, StringComparison.Ordinal);
        Assert.Equal("Body A  ISO 100, imported, measured 2026-03-01\n", _program.Run("cameras").Out);
    }

    [Fact]
    public void A_camera_is_forgotten_only_after_a_clear_yes_and_says_what_goes()
    {
        _program.Run("cameras", "import", Written(BodyA));
        Ended asked = _program.Run("cameras", "forget", "body a");
        Assert.Equal((2, ""), (asked.Code, asked.Out));
        Assert.Contains("'Body A' would be removed with its history: 1 measuring, 2026-03-01. Nothing was removed: add --yes", asked.Error, StringComparison.Ordinal);
        Assert.Contains("leafstop cameras export \"Body A\" FILE", asked.Error, StringComparison.Ordinal);
        Assert.Contains("Body A", _program.Run("cameras").Out, StringComparison.Ordinal);
        Assert.Equal(new Ended(0, "Forgot 'Body A' (1 measuring, 2026-03-01). Nothing of it is kept.\n", ""), _program.Run("cameras", "forget", "body a", "--yes"));
        Assert.StartsWith("No camera is kept yet.", _program.Run("cameras").Out, StringComparison.Ordinal);
        Assert.Equal(3, _program.Run("cameras", "forget", "body a", "--yes").Code);
    }

    [Fact]
    public void A_forgotten_camera_comes_back_from_the_file_that_was_written_first()
    {
        _program.Run("cameras", "import", Written(BodyA));
        string before = _program.Run("cameras", "export", "Body A").Out;
        string copy = Path.Combine(_program.Folder, "copy.json");
        Ended gone = _program.Run("cameras", "forget", "Body A", "--export", copy, "--yes");
        Assert.Equal(0, gone.Code);
        Assert.Contains("brings it back", gone.Out, StringComparison.Ordinal);
        Assert.Equal(0, _program.Run("cameras", "import", copy).Code);
        Assert.Equal(before, _program.Run("cameras", "export", "Body A").Out);
        // A place that cannot be written keeps the camera.
        Assert.Equal(2, _program.Run("cameras", "forget", "Body A", "--export", copy, "--yes").Code);
        Assert.Equal(before, _program.Run("cameras", "export", "Body A").Out);
    }

    [Theory]
    [InlineData("{}", "its \"format\" is not \"leafstop-camera\". Name a file that leafstop cameras export wrote.")]
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
