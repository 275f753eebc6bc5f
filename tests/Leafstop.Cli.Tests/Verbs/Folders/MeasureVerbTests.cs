using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;
using Leafstop.Testing;

namespace Leafstop.Cli.Tests.Verbs.Folders;

/// <summary>One good folder, and everything that can be asked of it.</summary>
public sealed class MeasureVerbTests(SmallBench bench) : IClassFixture<SmallBench>, IDisposable
{
    private readonly RunningProgram _program = new();
    private readonly string _folder = Path.Combine(bench.Root, "clean");

    public void Dispose() => _program.Dispose();

    /// <summary>Published: job, Body A. Read noise 3.6, 3.1 and 1.5 e⁻ with the step between 400 and 500, 50 000 e⁻ at the clip of ISO 100.</summary>
    [Fact]
    public void Words_go_to_stdout_and_progress_and_remarks_to_stderr()
    {
        Ended ended = _program.Run("measure", _folder);
        Assert.Equal(0, ended.Code);
        Assert.StartsWith("A metered ladder. It is not complete: shoot what is missing.\nRead noise drops from 3.1 to 1.5 electrons between ISO 400 and 800", ended.Out, StringComparison.Ordinal);
        Assert.All(ended.Out.Split('\n'), line => Assert.InRange(line.Length, 0, 100));
        string[] progress = ended.Error.Split('\n', StringSplitOptions.RemoveEmptyEntries);
        Assert.Equal(12, progress.Length);
        Assert.Matches(@"^frame 1 of 12, LS_\d{4}$", progress[0]);
        Assert.Matches(@"^frame 12 of 12, LS_\d{4}$", progress[11]);
        Assert.DoesNotContain('\u001b', ended.Out + ended.Error);
    }

    [Fact]
    public void Quiet_leaves_the_answer_alone_on_the_line()
    {
        Ended ended = _program.Run("measure", _folder, "--quiet", "--save", "Body A");
        Assert.Equal((0, ""), (ended.Code, ended.Error));
        Assert.StartsWith("A metered ladder.", ended.Out, StringComparison.Ordinal);
    }

    /// <summary>Known before the measuring, in one sentence, and the file stays as it is.</summary>
    [Fact]
    public void A_damaged_data_file_is_said_before_anything_is_measured()
    {
        Directory.CreateDirectory(_program.Data);
        string file = Path.Combine(_program.Data, "leafstop.db");
        File.WriteAllText(file, new string('x', 5000));
        Ended refused = _program.Run("measure", _folder, "--save", "Body A");
        Assert.Equal((3, ""), (refused.Code, refused.Out));
        Assert.DoesNotContain("fault of Leafstop", refused.Error, StringComparison.Ordinal);
        Assert.Contains(file, Assert.Single(refused.Error.TrimEnd('\n').Split('\n')), StringComparison.Ordinal);
        Assert.Equal(new string('x', 5000), File.ReadAllText(file));
    }

    /// <summary>The contract of docs/json/measure.md: each field that it names is there, and no other.</summary>
    [Fact]
    public void JSON_has_the_shape_that_its_page_describes()
    {
        using JsonDocument json = JsonDocument.Parse(_program.Run("measure", _folder, "--json").Out);
        string page = File.ReadAllText(Path.Combine(Repository.Root, "docs", "json", "measure.md"));
        using JsonDocument example = JsonDocument.Parse(Regex.Match(page, "```json\n(.*?)```", RegexOptions.Singleline).Groups[1].Value);
        AssertSameNames(example.RootElement, json.RootElement, "");
        JsonElement level = json.RootElement.GetProperty("levels")[0];
        Assert.Equal(["LS_0001.DNG", "LS_0002.DNG"], level.GetProperty("frames").EnumerateArray().Select(f => f.GetString()));
        // Truth of Body A at ISO 100; 1 %, 5 % and 1 % are the accuracy asked, at six times this many pixels, and the seed is fixed.
        Assert.InRange(level.GetProperty("readNoiseElectrons").GetDouble(), 3.6 * 0.95, 3.6 * 1.05);
        Assert.InRange(level.GetProperty("saturationElectrons").GetDouble(), 50_000 * 0.99, 50_000 * 1.01);
    }

    [Fact]
    public void A_kept_camera_is_listed_shown_exported_imported_and_keeps_its_history()
    {
        Ended first = _program.Run("measure", _folder, "--save", "Bench é");
        Assert.Contains("Kept as 'Bench é'. See it with: leafstop cameras show \"Bench é\"", first.Error, StringComparison.Ordinal);
        Assert.StartsWith("Bench é  ISO 100 to 800, measured ", _program.Run("cameras").Out, StringComparison.Ordinal);
        Ended second = _program.Run("measure", _folder, "--save", " bench É ");
        Assert.Contains("measured 2 times", second.Error, StringComparison.Ordinal);
        Ended shown = _program.Run("cameras", "show", "bench é");
        Assert.Contains("Invented Body A, 14-bit raw, 2×2 mosaic, 480 × 320", shown.Out, StringComparison.Ordinal);
        Assert.Equal(2, Regex.Count(shown.Out, "3 usable levels"));

        Assert.Equal(0, _program.Run("cameras", "export", "Bench é", "camera.json").Code);
        string other = Path.Combine(_program.Folder, "other");
        Assert.Equal(0, _program.Run("cameras", "import", "camera.json", "--data", other).Code);
        // --data wins over LEAFSTOP_DATA, and the two folders know nothing of each other.
        Assert.Contains("imported", _program.Run("cameras", "--data", other).Out, StringComparison.Ordinal);
        Assert.DoesNotContain("imported", _program.Run("cameras").Out, StringComparison.Ordinal);
    }

    [Fact]
    public void Saving_without_a_name_takes_the_model_of_the_files()
    {
        Ended kept = _program.Run("measure", _folder, "--json", "--save");
        Assert.Contains("Kept as 'Body A'", kept.Error, StringComparison.Ordinal);
        using JsonDocument json = JsonDocument.Parse(kept.Out);
    }

    [Fact]
    public void The_report_is_one_page_that_asks_for_nothing()
    {
        Ended ended = _program.Run("measure", _folder, "--quiet", "--report", "page é.html");
        Assert.Equal((0, ""), (ended.Code, ended.Error));
        string page = File.ReadAllText(Path.Combine(_program.Folder, "page é.html"));
        Assert.StartsWith("<!DOCTYPE html>", page, StringComparison.Ordinal);
        Assert.Contains("Read noise drops from", page, StringComparison.Ordinal);
        Assert.DoesNotMatch("(src|href)=\"(https?:)?//", page);
    }

    [Fact]
    public void A_file_that_the_report_replaces_is_named()
    {
        string page = Path.Combine(_program.Folder, "page.html");
        Assert.DoesNotContain("replaced", _program.Run("measure", _folder, "--report", page).Error, StringComparison.Ordinal);
        Assert.Contains($"There was a file {page} already; it is replaced.\n", _program.Run("measure", _folder, "--report", page).Error, StringComparison.Ordinal);
    }

    [Fact]
    public void A_report_that_cannot_be_written_is_refused_before_anything_is_measured()
    {
        Ended ended = _program.Run("measure", _folder, "--quiet", "--save", "Body A", "--report", Path.Combine("no such folder", "page.html"));
        Assert.Equal((2, ""), (ended.Code, ended.Out));
        Assert.Contains("cannot be written", ended.Error, StringComparison.Ordinal);
        Assert.False(Directory.Exists(_program.Data));
    }

    private static void AssertSameNames(JsonElement example, JsonElement real, string path)
    {
        if (example.ValueKind == JsonValueKind.Object && real.ValueKind == JsonValueKind.Object)
        {
            Assert.True(example.EnumerateObject().Select(p => p.Name).SequenceEqual(real.EnumerateObject().Select(p => p.Name)), path);
            foreach (JsonProperty part in example.EnumerateObject())
                AssertSameNames(part.Value, real.GetProperty(part.Name), string.Create(CultureInfo.InvariantCulture, $"{path}.{part.Name}"));
        }
        else if (example.ValueKind == JsonValueKind.Array && real.ValueKind == JsonValueKind.Array && example.GetArrayLength() > 0 && real.GetArrayLength() > 0)
        {
            AssertSameNames(example[0], real[0], path + "[]");
        }
    }
}
