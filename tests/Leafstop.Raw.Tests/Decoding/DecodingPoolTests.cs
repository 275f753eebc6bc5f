using System.Diagnostics;
using Leafstop.Raw.Decoding;
using Leafstop.Raw.Measurement;

namespace Leafstop.Raw.Tests.Decoding;

/// <summary>Real child processes; the faults come from a second build of the native library that breaks down, stalls or bloats on request.</summary>
public sealed class DecodingPoolTests : IDisposable
{
    private static readonly DecodingLimits Short = new() { FileTime = TimeSpan.FromSeconds(3) };

    private readonly ScratchFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    private static CancellationToken Test => TestContext.Current.CancellationToken;

    private static WorkerCommand Worker(bool faulty = false, params (string Name, string Value)[] environment) =>
        new(Path.Combine(AppContext.BaseDirectory, "Leafstop.Testing.Worker"), [])
        {
            Environment = environment.Append((faulty ? "LEAFSTOP_TEST_RAW_LIBRARY" : "LEAFSTOP_TEST_NOTHING", Path.Combine(AppContext.BaseDirectory, "libfaulty_raw.so")))
                .ToDictionary(e => e.Item1, e => e.Item2),
        };

    private string Frame(string name) => _folder.Write(name, new PlainDng().ToBytes());

    [Fact]
    public async Task Headers_come_back_in_the_order_of_the_files_whatever_their_names()
    {
        string[] names = ["z.dng", "a b.dng", "Fälle.dng", "two\nlines.dng", "\"quoted\".dng", .. Enumerable.Range(0, 60).Select(i => $"{(i * 37) % 60:D2}.dng")];
        string[] files = [.. names.Select(Frame)];
        await using var pool = new DecodingPool(Worker(), workers: 3);

        var batch = await pool.ReadHeadersAsync(files, cancel: Test);

        Assert.Equal(files, batch.Headers.Select(h => h.File));
        Assert.Empty(batch.Unread);
        Assert.All(batch.Headers, h => Assert.Equal((96, 64, "RGGB", 400.0), (h.Width, h.Height, h.Mosaic.Letters, h.Iso)));
    }

    [Fact]
    public async Task A_header_from_a_child_equals_one_read_here()
    {
        string file = Frame("frame.dng");
        await using var pool = new DecodingPool(Worker());
        var there = (await pool.ReadHeadersAsync([file], cancel: Test)).Headers.Single();
        var here = RawFile.ReadHeader(file);
        Assert.Equal(here with { Mosaic = there.Mosaic }, there);
        Assert.Equal(here.Mosaic.Letters, there.Mosaic.Letters);
    }

    [Fact]
    public async Task Unreadable_files_are_listed_with_their_reason_and_the_others_are_read()
    {
        string[] files = [Frame("a.dng"), _folder.Write("empty.dng", []), Path.Combine(_folder.Root, "gone.dng"), Frame("b.dng")];
        await using var pool = new DecodingPool(Worker(), workers: 1);
        var batch = await pool.ReadHeadersAsync(files, cancel: Test);
        Assert.Equal([files[0], files[3]], batch.Headers.Select(h => h.File));
        Assert.Equal([files[1], files[2]], batch.Unread.Select(u => u.File));
        Assert.Contains("0 bytes", batch.Unread[0].Why, StringComparison.Ordinal);
        Assert.Contains("not there", batch.Unread[1].Why, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_file_that_breaks_its_decoder_is_lost_alone()
    {
        string[] files = [Frame("a.dng"), Frame("b.dng"), Frame("this ends its decoder.dng"), Frame("c.dng"), Frame("so this ends its decoder.dng"), Frame("d.dng")];
        await using var pool = new DecodingPool(Worker(faulty: true), workers: 2);
        var told = new List<DecodingProgress>();
        var batch = await pool.ReadHeadersAsync(files, new Told(told), Test);
        Assert.Equal([files[0], files[1], files[3], files[5]], batch.Headers.Select(h => h.File));
        Assert.Equal([files[2], files[4]], batch.Unread.Select(u => u.File));
        Assert.All(batch.Unread, u => Assert.Contains("broke down on this file", u.Why, StringComparison.Ordinal));
        Assert.Equal(Enumerable.Range(1, 6), told.Select(p => p.Done));
        Assert.All(told, p => Assert.Equal(6, p.Total));
        Assert.Equal(files.Order(StringComparer.Ordinal), told.Select(p => p.File).Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task A_file_that_stalls_its_decoder_is_lost_alone_and_soon()
    {
        string[] files = [Frame("a.dng"), Frame("this stalls its decoder.dng"), Frame("b.dng")];
        await using var pool = new DecodingPool(Worker(faulty: true), Short, workers: 1);
        var clock = Stopwatch.StartNew();
        var batch = await pool.ReadHeadersAsync(files, cancel: Test);
        Assert.InRange(clock.Elapsed.TotalSeconds, 3, 20); // 3 s of waiting, the rest is two process starts on a busy machine
        Assert.Equal([files[0], files[2]], batch.Headers.Select(h => h.File));
        Assert.Contains("stood still", batch.Unread.Single().Why, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_file_that_bloats_its_decoder_is_lost_alone()
    {
        string[] files = [Frame("a.dng"), Frame("this bloats its decoder.dng"), Frame("b.dng")];
        await using var pool = new DecodingPool(Worker(faulty: true), workers: 1);
        var batch = await pool.ReadHeadersAsync(files, cancel: Test);
        Assert.Equal([files[0], files[2]], batch.Headers.Select(h => h.File));
        Assert.Contains("2 GiB of memory", batch.Unread.Single().Why, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_a_decoder_prints_does_not_pass_for_an_answer()
    {
        string[] files = [Frame("this makes its decoder talk.dng"), Frame("b.dng")];
        await using var pool = new DecodingPool(Worker(faulty: true), workers: 1);
        var batch = await pool.ReadHeadersAsync(files, cancel: Test);
        Assert.Equal(files, batch.Headers.Select(h => h.File));
    }

    [Fact]
    public async Task In_a_group_a_broken_file_is_lost_and_the_rest_is_measured_again()
    {
        string[] files = [Frame("a.dng"), Frame("this ends its decoder.dng"), Frame("b.dng"), _folder.Write("empty.dng", [])];
        Assert.SkipUnless(GroupsAreMeasured(files[0]), "The measurement of groups opens no files yet.");
        await using var pool = new DecodingPool(Worker(faulty: true), workers: 2);
        var told = new List<DecodingProgress>();
        var surveys = await pool.SurveyAsync([files, [files[2]]], new Told(told), cancel: Test);
        Assert.Equal(["empty.dng", "this ends its decoder.dng"], surveys[0].Unread.Select(u => Path.GetFileName(u.File)).Order(StringComparer.Ordinal));
        Assert.Equal([files[0], files[2]], surveys[0].Frames.Select(f => f.Header.File).Order(StringComparer.Ordinal));
        Assert.Equal([files[2]], surveys[1].Frames.Select(f => f.Header.File));
        Assert.Equal(Enumerable.Range(1, 5), told.Select(p => p.Done));
    }

    [Fact]
    public async Task A_group_whose_every_file_breaks_its_decoder_is_an_empty_survey_with_reasons()
    {
        string[] files = [Frame("one ends its decoder.dng"), Frame("two ends its decoder.dng")];
        Assert.SkipUnless(GroupsAreMeasured(Frame("sound.dng")), "The measurement of groups opens no files yet.");
        await using var pool = new DecodingPool(Worker(faulty: true), workers: 2);
        var survey = (await pool.SurveyAsync([files], cancel: Test)).Single();
        Assert.Empty(survey.Frames);
        Assert.Equal(files, survey.Unread.Select(u => u.File));
    }

    [Fact]
    public async Task Cancelling_ends_the_job_and_its_children_at_once()
    {
        string file = Frame("this stalls its decoder.dng");
        await using var pool = new DecodingPool(Worker(faulty: true, ("LEAFSTOP_TEST_MARK", "cancel")), workers: 1);
        using var cancel = CancellationTokenSource.CreateLinkedTokenSource(Test);
        var job = pool.ReadHeadersAsync([file], cancel: cancel.Token);
        Assert.True(await EventuallyAsync(() => Children("cancel").Count == 1));
        var clock = Stopwatch.StartNew();
        await cancel.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => job);
        Assert.InRange(clock.Elapsed.TotalSeconds, 0, 15); // the decoder would stall for 30 s; a kill takes milliseconds, the rest is a busy machine
        Assert.True(await EventuallyAsync(() => Children("cancel").Count == 0));
    }

    [Fact]
    public async Task A_child_leaves_when_its_parent_goes_away_even_in_the_middle_of_a_decoder()
    {
        var command = Worker(faulty: true);
        var start = new ProcessStartInfo(command.Executable) { RedirectStandardInput = true, RedirectStandardOutput = true, RedirectStandardError = true };
        foreach (var (name, value) in command.Environment)
            start.Environment[name] = value;
        using var child = Process.Start(start)!;
        await child.StandardInput.BaseStream.WriteAsync(WorkerMessages.Line(new WorkerJob(JobKind.Headers, [Frame("this stalls its decoder.dng")])), Test);
        await child.StandardInput.BaseStream.FlushAsync(Test);
        Assert.Contains("Opening", await child.StandardOutput.ReadLineAsync(Test), StringComparison.Ordinal);

        child.StandardInput.Close();

        using var patience = CancellationTokenSource.CreateLinkedTokenSource(Test);
        patience.CancelAfter(TimeSpan.FromSeconds(5));
        await child.WaitForExitAsync(patience.Token);
        Assert.Equal(0, child.ExitCode);
    }

    [Fact]
    public async Task Disposing_the_pool_ends_its_children()
    {
        var pool = new DecodingPool(Worker(false, ("LEAFSTOP_TEST_MARK", "dispose")), workers: 1);
        await pool.ReadHeadersAsync([Frame("a.dng")], cancel: Test);
        Assert.Single(Children("dispose"));
        await pool.DisposeAsync();
        Assert.True(await EventuallyAsync(() => Children("dispose").Count == 0));
    }

    [Fact]
    public async Task A_program_that_does_not_start_is_our_fault_and_no_file_is_blamed()
    {
        await using var pool = new DecodingPool(new WorkerCommand(Path.Combine(_folder.Root, "no such program"), []));
        var e = await Assert.ThrowsAsync<InvalidOperationException>(() => pool.ReadHeadersAsync([Frame("a.dng")], cancel: Test));
        Assert.Contains("does not start", e.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_missing_native_library_is_told_as_such_and_no_file_is_blamed()
    {
        var command = Worker() with { Environment = new Dictionary<string, string> { ["LEAFSTOP_TEST_RAW_LIBRARY"] = Path.Combine(_folder.Root, "none.so") } };
        await using var pool = new DecodingPool(command);
        var e = await Assert.ThrowsAsync<InvalidOperationException>(() => pool.ReadHeadersAsync([Frame("a.dng")], cancel: Test));
        Assert.Contains("native library does not load", e.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_file_that_may_not_be_read_is_listed_with_that_reason()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "Uses the permissions of Linux.");
        string file = Frame("shut.dng");
        if (OperatingSystem.IsLinux())
            File.SetUnixFileMode(file, UnixFileMode.None);
        // The administrator may read everything, so the child is started as nobody.
        var command = Worker();
        if (Environment.IsPrivilegedProcess)
        {
            string[] asNobody = ["--reuid=65534", "--regid=65534", "--clear-groups"];
            using var mayStart = Process.Start("setpriv", [.. asNobody, "test", "-x", command.Executable]);
            await mayStart.WaitForExitAsync(Test);
            Assert.SkipUnless(mayStart.ExitCode == 0, "This repository lies where nobody else may start its programs.");
            command = command with { Executable = "setpriv", Arguments = [.. asNobody, command.Executable] };
        }
        await using var pool = new DecodingPool(command, workers: 1);
        var batch = await pool.ReadHeadersAsync([file], cancel: Test);
        Assert.Empty(batch.Headers);
        Assert.Contains("no permission", batch.Unread.Single().Why, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_camera_clock_does_not_depend_on_the_zone_of_this_machine()
    {
        string[] files = [SampleFiles.Raw("canon-s40-0119.crw"), Frame("frame.dng"), SampleFiles.Raw("kodak-dc120-3908.kdc")];
        var seen = new List<DateTime?[]>();
        foreach (string zone in new[] { "UTC0", "AAA-11", "BBB+9" })
        {
            await using var pool = new DecodingPool(Worker(false, ("TZ", zone)), workers: 1);
            seen.Add([.. (await pool.ReadHeadersAsync(files, cancel: Test)).Headers.Select(h => h.TakenAt)]);
        }
        Assert.NotNull(seen[0][0]);
        Assert.NotNull(seen[0][2]);
        Assert.Equal(new DateTime(2026, 11, 25, 5, 30, 7, DateTimeKind.Unspecified), seen[0][1]);
        Assert.Equal(seen[0], seen[1]);
        Assert.Equal(seen[0], seen[2]);
    }

    private static bool GroupsAreMeasured(string file)
    {
        bool opened = false;
        GroupMeasurement.Survey([file], path =>
        {
            opened = true;
            return RawFile.Open(path);
        });
        return opened;
    }

    // Children of this process that carry a mark in their environment.
    private static List<int> Children(string mark)
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "Looks into /proc.");
        var found = new List<int>();
        foreach (string folder in Directory.EnumerateDirectories("/proc").Where(d => int.TryParse(Path.GetFileName(d), out _)))
        {
            try
            {
                if (File.ReadAllText(Path.Combine(folder, "environ")).Contains($"LEAFSTOP_TEST_MARK={mark}\0", StringComparison.Ordinal))
                    found.Add(int.Parse(Path.GetFileName(folder), System.Globalization.CultureInfo.InvariantCulture));
            }
            catch (Exception e) when (e is IOException or UnauthorizedAccessException)
            {
                // It ended while we looked, or belongs to somebody else.
            }
        }
        return found;
    }

    private static async Task<bool> EventuallyAsync(Func<bool> holds)
    {
        for (int i = 0; i < 200; i++)
        {
            if (holds())
                return true;
            await Task.Delay(50, Test);
        }
        return false;
    }

    private sealed class Told(List<DecodingProgress> seen) : IProgress<DecodingProgress>
    {
        public void Report(DecodingProgress value) => seen.Add(value);
    }
}
