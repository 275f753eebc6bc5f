using System.Diagnostics;
using System.Globalization;
using System.Text.Json;
using Leafstop.Testing;

namespace Leafstop.Cli.Tests.Verbs;

public sealed class SampleVerbTests : IDisposable
{
    private readonly RunningProgram _program = new();

    public void Dispose() => _program.Dispose();

    [Fact]
    public void A_ladder_is_written_with_its_truth_beside_it()
    {
        Ended sample = _program.Run("sample", "a ladder é", "--size", "240x160", "--isos", "100 800", "--caps", "0", "--compression", "none", "--seed", "7", "--json");
        Assert.Equal(0, sample.Code);
        using JsonDocument json = JsonDocument.Parse(sample.Out);
        Assert.Equal(4, json.RootElement.GetProperty("files").GetInt32());
        Assert.Equal(4, Directory.GetFiles(Path.Combine(_program.Folder, "a ladder é")).Length);
        Assert.True(File.Exists(json.RootElement.GetProperty("truth").GetString()));
        Assert.Equal(4, sample.Error.Count(c => c == '\n'));
    }

    [Theory]
    [InlineData("--size|240by160", "such as 2400x1600")]
    [InlineData("--size|10x10", "at least")]
    [InlineData("--mosaic|3x3", "--mosaic is 2x2 or 6x6, not '3x3'")]
    [InlineData("--ladder|rope", "--ladder is metered or same-light, not 'rope'")]
    [InlineData("--isos|100 x", "'x' cannot be read")]
    [InlineData("--fault|dust 3", "there is no fault 'dust 3'")]
    [InlineData("--fault|lamp-drift 1600", "write \"lamp-drift ISO STOPS\"")]
    [InlineData("--fault|lamp-drift 1600 much", "'much' cannot be read")]
    [InlineData("--fault|lamp-drift 100 -0.3|--fault|lamp-drift 400 0.3", "lamp-drift is given twice")]
    [InlineData("--seed|-1", "--seed is a whole number from 0 on, not '-1'")]
    [InlineData("--caps|many", "--caps is a whole number from 0 to 99, not 'many'")]
    [InlineData("--frames|0", "--frames is a whole number from 1 to 99, not '0'")]
    public void A_wrong_option_ends_with_2_and_writes_nothing(string option, string told)
    {
        Ended wrong = _program.Run(["sample", "ladder", .. option.Split('|')]);
        Assert.Equal((2, ""), (wrong.Code, wrong.Out));
        Assert.Contains(told, wrong.Error, StringComparison.Ordinal);
        Assert.Empty(Directory.GetFileSystemEntries(_program.Folder));
    }

    [Fact]
    public void A_folder_that_holds_something_is_left_alone()
    {
        string folder = Path.Combine(_program.Folder, "mine");
        Directory.CreateDirectory(folder);
        File.WriteAllText(Path.Combine(folder, "note.txt"), "mine");
        Ended refused = _program.Run("sample", folder);
        Assert.Equal((2, ""), (refused.Code, refused.Out));
        Assert.Equal([Path.Combine(folder, "note.txt")], Directory.GetFileSystemEntries(folder));
    }

    [Theory]
    [InlineData("INT", 2, "1200x800")]
    [InlineData("INT", 2, "7200x4800")]
    [InlineData("TERM", 15, "1200x800")]
    public void Stopping_half_way_ends_with_130_and_leaves_nothing(string signal, int number, string size)
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "the signal is sent and looked up as Linux does");
        // A shell starts its background jobs with Ctrl-C ignored, and their children inherit that.
        string ignored = File.ReadLines("/proc/self/status").Single(l => l.StartsWith("SigIgn:", StringComparison.Ordinal))[7..].Trim();
        bool isIgnored = (ulong.Parse(ignored, NumberStyles.HexNumber, CultureInfo.InvariantCulture) >> (number - 1) & 1) == 1;
        Assert.SkipWhen(isIgnored, $"these tests were started with {signal} ignored, as background jobs are");
        // Frames so large that one takes longer than the patience of the program: it is ended in the middle of one.
        using Process process = _program.Start([], "sample", "ladder", "--size", size);
        // The first frame is written: now it is half-way.
        Assert.NotNull(process.StandardError.ReadLine());
        using Process kill = Process.Start("kill", [$"-{signal}", process.Id.ToString(CultureInfo.InvariantCulture)]);
        kill.WaitForExit();
        string said = process.StandardError.ReadToEnd();
        process.WaitForExit();
        Assert.Equal(130, process.ExitCode);
        Assert.EndsWith("leafstop: stopped; nothing was kept or left half-written.\n", said, StringComparison.Ordinal);
        Assert.Empty(Directory.GetFileSystemEntries(_program.Folder));
    }
}
