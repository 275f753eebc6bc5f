using System.Diagnostics;
using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;
using Leafstop.Testing;

namespace Leafstop.Cli.Tests.Verbs.Folders;

/// <summary>Folders that hold too little, the wrong thing, or are shut or gone: refused with 3 and a reason, never with a crash.</summary>
public sealed class PoorFolderTests(SmallBench bench) : IClassFixture<SmallBench>, IDisposable
{
    private readonly RunningProgram _program = new();

    public void Dispose() => _program.Dispose();

    private string Folder(string name = "bench") => Directory.CreateDirectory(Path.Combine(_program.Folder, name)).FullName;

    private Ended Refused(string folder, string reason)
    {
        Ended ended = _program.Run("measure", folder);
        Assert.Equal(3, ended.Code);
        // The last line says why, also when all that came before it is switched off.
        Assert.Contains(reason, ended.Error.TrimEnd('\n').Split('\n')[^1], StringComparison.Ordinal);
        // Once, on stderr; stdout holds what was noticed on the way.
        Assert.Single(Regex.Matches(ended.Out + ended.Error, "I cannot measure this camera"));
        Assert.Single(Regex.Matches(ended.Out + ended.Error, Regex.Escape(reason)));
        Assert.DoesNotContain("fault of Leafstop", ended.Error, StringComparison.Ordinal);
        return ended;
    }

    [Fact]
    public void An_empty_folder_is_refused() => Refused(Folder(), "holds no files");

    [Fact]
    public void Raws_one_folder_down_are_pointed_at()
    {
        string folder = Folder();
        SmallBench.CopyTo(bench.Files.Take(2), Path.Combine(folder, "a"));
        SmallBench.CopyTo(bench.Files.Take(2), Path.Combine(folder, "b"));
        Directory.CreateDirectory(Path.Combine(folder, "notes"));
        File.WriteAllText(Path.Combine(folder, "notes", "light.txt"), "f/11, 1/4 s");
        Ended refused = Refused(folder, "Files that may be raws lie in 'a', 'b': measure one of these, such as " + Path.Combine(folder, "a"));
        Assert.DoesNotContain("notes", refused.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void A_folder_without_raws_is_refused()
    {
        string folder = Folder();
        File.WriteAllText(Path.Combine(folder, "notes.txt"), "f/11, 1/4 s");
        File.WriteAllText(Path.Combine(folder, "list.csv"), "a;b");
        Refused(folder, "no raw file");
        using JsonDocument json = JsonDocument.Parse(_program.Run("measure", folder, "--json", "--quiet").Out);
        Assert.False(json.RootElement.GetProperty("verdict").GetProperty("hasAnswer").GetBoolean());
    }

    [Fact]
    public void A_folder_of_JPEGs_sets_no_limit()
    {
        string folder = Folder();
        foreach (string raw in bench.Files)
            File.WriteAllBytes(Path.Combine(folder, Path.GetFileNameWithoutExtension(raw) + ".JPG"), SmallJpeg.Of(File.ReadAllBytes(raw)));
        Ended refused = Refused(folder, "no limit can be set from them");
        Assert.DoesNotContain("Limits by", refused.Out, StringComparison.Ordinal);
    }

    [Fact]
    public void A_folder_of_cap_frames_alone_says_what_it_holds_and_what_it_lacks()
    {
        string folder = SmallBench.CopyTo(bench.Files.Skip(6), Path.Combine(_program.Folder, "caps"));
        Ended refused = Refused(folder, "there are only lens-cap frames.");
        Assert.Contains("Copy the frames of the bench scene", refused.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("No raw frames", refused.Out, StringComparison.OrdinalIgnoreCase);
        using JsonDocument json = JsonDocument.Parse(_program.Run("measure", folder, "--json", "--quiet").Out);
        Assert.Equal(14, json.RootElement.GetProperty("camera").GetProperty("bits").GetInt32());
    }

    [Fact]
    public void One_frame_makes_no_ladder_and_no_limit()
    {
        string folder = SmallBench.CopyTo([bench.Files[0]], Path.Combine(_program.Folder, "one"));
        Ended ended = _program.Run("measure", folder, "--json");
        using JsonDocument json = JsonDocument.Parse(ended.Out);
        Assert.Equal("none", json.RootElement.GetProperty("ladder").GetString());
        JsonElement level = Assert.Single(json.RootElement.GetProperty("levels").EnumerateArray());
        Assert.Contains("singleFrame", level.GetProperty("flags").EnumerateArray().Select(f => f.GetString()));
        Assert.Equal(level.GetProperty("usable").GetBoolean() ? 0 : 3, ended.Code);
        Assert.Empty(json.RootElement.GetProperty("predictedLimits").EnumerateArray());
    }

    [Fact]
    public void Pairs_whose_framing_moved_are_refused_with_that_reason()
    {
        string folder = Folder();
        foreach (string name in new[] { "canon-g2-0304.crw", "canon-g2-0305.crw" })
            File.Copy(Samples.Path("raw/" + name), Path.Combine(folder, name));
        Ended ended = _program.Run("measure", folder, "--json");
        using JsonDocument json = JsonDocument.Parse(ended.Out);
        JsonElement finding = Assert.Single(json.RootElement.GetProperty("findings").EnumerateArray(), f => f.GetProperty("code").GetString() == "falsePair");
        Assert.Equal(2, finding.GetProperty("frames").GetArrayLength());
        Assert.Contains("show different pictures", finding.GetProperty("text").GetString(), StringComparison.OrdinalIgnoreCase);
    }

    [Theory]
    [InlineData("kodak-dc120-3911.kdc")]
    [InlineData("kodak-dc50-0009l.kdc")]
    public void A_lossy_raw_is_warned_of_and_gives_no_noise_figure(string name)
    {
        string folder = Folder();
        File.Copy(Samples.Path("raw/" + name), Path.Combine(folder, name));
        Ended ended = _program.Run("measure", folder, "--json");
        Assert.Equal(3, ended.Code);
        using JsonDocument json = JsonDocument.Parse(ended.Out);
        Assert.Contains(json.RootElement.GetProperty("findings").EnumerateArray(), f => f.GetProperty("code").GetString() == "lossy");
        JsonElement level = Assert.Single(json.RootElement.GetProperty("levels").EnumerateArray());
        Assert.False(level.GetProperty("usable").GetBoolean());
    }

    [Fact]
    public void A_file_that_may_not_be_read_is_named_and_the_others_are_measured()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "Uses the permissions of Linux.");
        string folder = SmallBench.CopyTo(bench.Files, Folder("shut"));
        if (OperatingSystem.IsLinux())
            File.SetUnixFileMode(Path.Combine(folder, Path.GetFileName(bench.Files[5])), UnixFileMode.None);
        Ended ended = AsSomebodyElse("measure", folder, "--json");
        Assert.True(ended.Code == 0, ended.Error);
        using JsonDocument json = JsonDocument.Parse(ended.Out);
        JsonElement finding = Assert.Single(json.RootElement.GetProperty("findings").EnumerateArray(), f => f.GetProperty("code").GetString() == "unreadable");
        Assert.Equal(Path.GetFileName(bench.Files[5]), finding.GetProperty("frames")[0].GetString());
        Assert.Contains("no permission", finding.GetProperty("text").GetString(), StringComparison.Ordinal);
        Assert.Equal(3, json.RootElement.GetProperty("levels").GetArrayLength());
    }

    [Fact]
    public void A_folder_that_may_not_be_listed_is_refused()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "Uses the permissions of Linux.");
        string folder = SmallBench.CopyTo(bench.Files.Take(1), Folder("shut"));
        if (OperatingSystem.IsLinux())
            File.SetUnixFileMode(folder, UnixFileMode.None);
        Ended ended = AsSomebodyElse("measure", folder);
        if (OperatingSystem.IsLinux())
            File.SetUnixFileMode(folder, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
        Assert.Equal((3, ""), (ended.Code, ended.Out));
        Assert.Contains("cannot be listed", ended.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Raws_in_a_folder_that_may_not_be_written_are_measured_and_stay_as_they_are()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "Uses the permissions of Linux.");
        string folder = SmallBench.CopyTo(bench.Files, Folder("kept"));
        SortedDictionary<string, string> before = SmallBench.Digests(folder);
        if (OperatingSystem.IsLinux())
        {
            foreach (string file in Directory.GetFiles(folder))
                File.SetUnixFileMode(file, UnixFileMode.UserRead | UnixFileMode.GroupRead | UnixFileMode.OtherRead);
            File.SetUnixFileMode(folder, (UnixFileMode)0b101_101_101);
        }
        Ended ended = AsSomebodyElse("measure", folder, "--quiet");
        Assert.Equal((0, ""), (ended.Code, ended.Error));
        Assert.Equal(before, SmallBench.Digests(folder));
        if (OperatingSystem.IsLinux())
            File.SetUnixFileMode(folder, (UnixFileMode)0b111_101_101);
    }

    [Fact]
    public async Task A_folder_that_vanishes_half_way_ends_in_sentences()
    {
        string folder = Folder("gone");
        for (int copy = 0; copy < 6; copy++)
        {
            foreach (string file in bench.Files)
                File.Copy(file, Path.Combine(folder, $"{copy}_{Path.GetFileName(file)}"));
        }
        using Process process = _program.Start([], "measure", folder);
        // The first frame is read: now it is half-way.
        Assert.NotNull(await process.StandardError.ReadLineAsync(TestContext.Current.CancellationToken));
        Directory.Delete(folder, recursive: true);
        Task<string> error = process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        string found = await process.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        string said = await error;
        await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        Assert.True(process.ExitCode is 0 or 3, said);
        Assert.DoesNotContain("fault of Leafstop", said, StringComparison.Ordinal);
        // One line as it happens and one in the answer, not one a file.
        Assert.InRange(Regex.Count(said, "not there"), 0, 1);
        Assert.DoesNotContain("not there:", found, StringComparison.Ordinal);
        // In the first sentence of what is told, be it an answer or a refusal.
        Assert.Matches("^[^.]*\\.?[^.]*folder\\s+went\\s+away", process.ExitCode == 0 ? found : said[said.IndexOf("leafstop: ", StringComparison.Ordinal)..]);
    }

    [Fact]
    public void A_name_that_is_no_text_is_explained_and_the_others_are_measured()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "Only there may a name be any bytes.");
        string folder = SmallBench.CopyTo(bench.Files, Folder("bytes"));
        // E4 alone is a letter in Latin-1 and nothing in UTF-8.
        using (var copy = Process.Start("sh", ["-c", "cp \"$1\" \"$2/B$(printf '\\344')nk.DNG\"", "sh", bench.Files[0], folder]))
            copy.WaitForExit();
        Ended ended = _program.Run("measure", folder);
        // What cannot be opened by its name cannot be removed by it either.
        using (var remove = Process.Start("rm", ["-r", folder]))
            remove.WaitForExit();
        Assert.True(ended.Code == 0, ended.Error);
        Assert.Matches("B\uFFFDnk.DNG: Its name is not valid UTF-8", ended.Out);
        Assert.DoesNotContain("not there", ended.Out + ended.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Names_with_spaces_accents_and_line_breaks_do_no_harm()
    {
        string folder = Folder("bench é\u00A0 of\nBrackenhush Wood");
        string[] names = ["été 1.dng", "line\nbreak.dng", "colour\u001b[31m.dng", "back\u202Ewards.dng", "--json", "bell\u0007.dng"];
        for (int i = 0; i < bench.Files.Count; i++)
            File.Copy(bench.Files[i], Path.Combine(folder, i < names.Length ? names[i] : Path.GetFileName(bench.Files[i])));
        File.WriteAllBytes(Path.Combine(folder, "zero\n\u001b[2J.dng"), []);
        Ended ended = _program.Run("measure", folder, "--report", "page.html");
        Assert.True(ended.Code == 0, ended.Error);
        string said = ended.Out + ended.Error;
        Assert.DoesNotContain(said, c => char.IsControl(c) && c != '\n' || c is '\u202E');
        Assert.DoesNotContain(said.Split('\n'), l => l.StartsWith("break", StringComparison.Ordinal));
        using JsonDocument json = JsonDocument.Parse(_program.Run("measure", folder, "--json", "--quiet").Out);
        string[] inJson = [.. json.RootElement.GetProperty("levels").EnumerateArray()
            .SelectMany(l => l.GetProperty("frames").EnumerateArray().Concat(l.GetProperty("capFrames").EnumerateArray())).Select(f => f.GetString()!)];
        Assert.All(names, n => Assert.Contains(n, inJson));
    }

    [Theory]
    [InlineData("INT", 2)]
    [InlineData("TERM", 15)]
    public void Stopping_while_measuring_ends_at_once_and_leaves_nothing(string signal, int number)
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "the signal is sent and looked up as Linux does");
        string ignored = File.ReadLines("/proc/self/status").Single(l => l.StartsWith("SigIgn:", StringComparison.Ordinal))[7..].Trim();
        bool isIgnored = (ulong.Parse(ignored, NumberStyles.HexNumber, CultureInfo.InvariantCulture) >> (number - 1) & 1) == 1;
        Assert.SkipWhen(isIgnored, $"these tests were started with {signal} ignored, as background jobs are");
        string folder = SmallBench.CopyTo(bench.Files, Folder("bench"));
        string[] before = [.. Directory.GetFiles(folder).Order(StringComparer.Ordinal)];
        using Process process = _program.Start([], "measure", folder, "--save", "Body A", "--report", "page.html");
        Assert.NotNull(process.StandardError.ReadLine());
        var watch = Stopwatch.StartNew();
        using Process kill = Process.Start("kill", [$"-{signal}", process.Id.ToString(CultureInfo.InvariantCulture)]);
        kill.WaitForExit();
        string output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        // 3 s is the program's own patience, 1 s is for a busy machine.
        Assert.InRange(watch.Elapsed, TimeSpan.Zero, TimeSpan.FromSeconds(4));
        Assert.Equal((130, ""), (process.ExitCode, output));
        Assert.Equal(before, Directory.GetFiles(folder).Order(StringComparer.Ordinal));
        Assert.Equal(["bench"], Directory.GetFileSystemEntries(_program.Folder).Select(Path.GetFileName));
    }

    // The administrator may read everything, so the program is started as nobody, who may not write anything either.
    private Ended AsSomebodyElse(params string[] args)
    {
        if (!Environment.IsPrivilegedProcess)
            return _program.Run(args);
        string[] asNobody = ["--reuid=65534", "--regid=65534", "--clear-groups"];
        using var mayStart = Process.Start("setpriv", [.. asNobody, "test", "-r", Path.Combine(AppContext.BaseDirectory, "leafstop.dll")]);
        mayStart.WaitForExit();
        Assert.SkipUnless(mayStart.ExitCode == 0, "This repository lies where nobody else may start its programs.");
        if (OperatingSystem.IsLinux())
            File.SetUnixFileMode(_program.Folder, (UnixFileMode)0b111_101_101);
        return _program.RunThrough(["setpriv", .. asNobody], args);
    }
}
