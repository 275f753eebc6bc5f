using System.Text.Json;
using System.Text.RegularExpressions;
using Leafstop.Testing;

namespace Leafstop.Cli.Tests.Verbs.Folders;

/// <summary>Scenario E10, its second folder: only JPEGs, of which the highest ISO is the smoothest. Refused as a measurement, shown to the eye.</summary>
public sealed class JpegFolderTests : IDisposable
{
    private readonly RunningProgram _program = new();

    public void Dispose() => _program.Dispose();

    [Fact]
    public void The_report_shows_them_side_by_side_and_claims_no_figure()
    {
        string folder = Path.Combine(_program.Folder, "jpegs"), page = Path.Combine(_program.Folder, "look.html");
        CameraJpegs.Write(folder, 100, 1600, 6400);
        SortedDictionary<string, string> before = SmallBench.Digests(folder);
        Ended ended = _program.Run("measure", folder, "--report", page);
        Assert.Equal(3, ended.Code);
        Assert.Contains("no limit can be set from them", ended.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("Limits by", ended.Out + ended.Error, StringComparison.Ordinal);
        Assert.Equal(before, SmallBench.Digests(folder));

        string html = File.ReadAllText(page);
        string section = Regex.Match(html, "<section><h2>To look at, not to measure</h2>.*?</section>", RegexOptions.Singleline).Value;
        Assert.Equal(9, Regex.Count(section, "<figure>"));
        Assert.Contains("No limit comes of these", section, StringComparison.Ordinal);
        Assert.DoesNotContain("Limits by", html, StringComparison.Ordinal);
        // Under a picture stand its ISO and its name, and nothing else.
        string[] captions = [.. Regex.Matches(section, "<figcaption>(.*?)</figcaption>", RegexOptions.Singleline).Select(m => Regex.Replace(m.Groups[1].Value, "<[^>]*>", " ").Trim())];
        Assert.All(captions, c => Assert.Matches("^ISO.(100|1600|6400) +B0[0-9]{4}_1\\.JPG$", c));
        Assert.DoesNotMatch("[0-9] *(%|dB|e\u2212|stops?|DN)", Regex.Replace(section, "<[^>]*>", " "));
    }

    [Fact]
    public void Without_a_report_the_refusal_says_how_to_look_at_them()
    {
        string folder = Path.Combine(_program.Folder, "jpegs");
        CameraJpegs.Write(folder, 100, 6400);
        Ended ended = _program.Run("measure", folder);
        Assert.Equal(3, ended.Code);
        Assert.EndsWith($"To look at them: leafstop measure \"{folder}\" --report look.html", ended.Error.TrimEnd(), StringComparison.Ordinal);
        using JsonDocument json = JsonDocument.Parse(_program.Run("measure", folder, "--json", "--quiet").Out);
        Assert.Empty(json.RootElement.GetProperty("predictedLimits").EnumerateArray());
        Assert.False(json.RootElement.GetProperty("verdict").GetProperty("hasAnswer").GetBoolean());
    }
}
