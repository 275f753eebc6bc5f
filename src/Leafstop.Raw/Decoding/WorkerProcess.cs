using System.Diagnostics;
using System.Globalization;
using System.Text;
using System.Text.Json;

namespace Leafstop.Raw.Decoding;

/// <summary>How a job ended in a worker.</summary>
/// <param name="Finished">True when the worker did all of it and can take another.</param>
/// <param name="Blamed">The file on which the worker died or was stopped; null when it finished or died before any file.</param>
/// <param name="Why">The reason in plain words when it did not finish.</param>
internal sealed record JobEnd(bool Finished, string? Blamed, string Why);

/// <summary>One child process that opens files, watched for time and memory.</summary>
internal sealed class WorkerProcess : IDisposable
{
    private static readonly TimeSpan WatchInterval = TimeSpan.FromMilliseconds(40);

    private readonly Process _process;
    private readonly StreamReader _replies;
    private readonly DecodingLimits _limits;
    private readonly StringBuilder _complaints = new();
    private readonly Lock _watch = new();
    private string? _announced;
    private int _reading;
    private long _lastSign;
    private string? _verdict;

    private WorkerProcess(Process process, DecodingLimits limits)
    {
        _process = process;
        _limits = limits;
        _replies = new StreamReader(process.StandardOutput.BaseStream, new UTF8Encoding(false), false, 1 << 16);
        process.ErrorDataReceived += (_, line) => Complain(line.Data);
        process.BeginErrorReadLine();
    }

    /// <summary>Starts a child.</summary>
    /// <exception cref="InvalidOperationException">The program does not start.</exception>
    public static WorkerProcess Start(WorkerCommand command, DecodingLimits limits)
    {
        var start = new ProcessStartInfo(command.Executable, command.Arguments)
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            UseShellExecute = false,
            CreateNoWindow = true,
        };
        foreach (var (name, value) in command.Environment)
            start.Environment[name] = value;
        try
        {
            return new WorkerProcess(Process.Start(start)!, limits);
        }
        catch (System.ComponentModel.Win32Exception e)
        {
            throw new InvalidOperationException($"The decoding worker '{command.Executable}' does not start: {e.Message}", e);
        }
    }

    /// <summary>Runs one job. Cancelling kills the child at once.</summary>
    /// <param name="job">What to do.</param>
    /// <param name="heard">Called for each report, in order.</param>
    /// <param name="cancel">Stops the work.</param>
    /// <exception cref="InvalidOperationException">The worker says that it is itself at fault.</exception>
    public async Task<JobEnd> RunAsync(WorkerJob job, Action<WorkerReply> heard, CancellationToken cancel)
    {
        using var killing = cancel.UnsafeRegister(static self => ((WorkerProcess)self!).Kill(), this);
        lock (_watch)
        {
            (_announced, _reading, _lastSign, _verdict) = (null, 0, Stopwatch.GetTimestamp(), null);
        }
        using var over = new CancellationTokenSource();
        var watching = WatchAsync(over.Token);
        try
        {
            if (await AskAsync(job).ConfigureAwait(false) && await ListenAsync(heard, cancel).ConfigureAwait(false))
                return new JobEnd(true, null, "");
            cancel.ThrowIfCancellationRequested();
            return await DiedAsync().ConfigureAwait(false);
        }
        finally
        {
            await over.CancelAsync().ConfigureAwait(false);
            await watching.ConfigureAwait(false);
        }
    }

    /// <summary>Ends the child without asking.</summary>
    public void Kill()
    {
        try
        {
            _process.Kill();
        }
        catch (Exception e) when (e is InvalidOperationException or System.ComponentModel.Win32Exception)
        {
            // It has already ended.
        }
    }

    public void Dispose()
    {
        Kill();
        _replies.Dispose();
        _process.Dispose();
    }

    private async Task<bool> AskAsync(WorkerJob job)
    {
        try
        {
            await _process.StandardInput.BaseStream.WriteAsync(WorkerMessages.Line(job), CancellationToken.None).ConfigureAwait(false);
            await _process.StandardInput.BaseStream.FlushAsync(CancellationToken.None).ConfigureAwait(false);
            return true;
        }
        catch (IOException)
        {
            return false;
        }
    }

    private async Task<bool> ListenAsync(Action<WorkerReply> heard, CancellationToken cancel)
    {
        while (await _replies.ReadLineAsync(cancel).ConfigureAwait(false) is { } line)
        {
            if (Parse(line) is not { } reply)
                return false;
            lock (_watch)
            {
                _lastSign = Stopwatch.GetTimestamp();
                if (reply.Kind == ReplyKind.Opening)
                    (_announced, _reading) = (reply.File, _reading + 1);
                else if (reply.Kind is ReplyKind.Opened or ReplyKind.Header or ReplyKind.Unread)
                    _reading--;
            }
            if (reply.Kind == ReplyKind.Failed)
                throw new InvalidOperationException($"A decoding worker failed. {reply.Why}");
            if (reply.Kind == ReplyKind.Done)
                return true;
            heard(reply);
        }
        return false;
    }

    // Half a line is what a dying child leaves.
    private static WorkerReply? Parse(string line)
    {
        try
        {
            return JsonSerializer.Deserialize(line, WorkerMessages.Default.WorkerReply);
        }
        catch (JsonException)
        {
            return null;
        }
    }

    private async Task<JobEnd> DiedAsync()
    {
        Kill();
        await _process.WaitForExitAsync(CancellationToken.None).ConfigureAwait(false);
        lock (_watch)
        {
            string why = _verdict ?? string.Create(CultureInfo.InvariantCulture,
                $"The decoder broke down on this file (exit code {_process.ExitCode}): the file is damaged, or of a kind that it can not handle.");
            if (_announced is null)
                why = $"A decoding worker ended before it opened a file (exit code {_process.ExitCode}). {_complaints}".TrimEnd();
            return new JobEnd(false, _announced, why);
        }
    }

    private async Task WatchAsync(CancellationToken over)
    {
        using var timer = new PeriodicTimer(WatchInterval);
        try
        {
            while (await timer.WaitForNextTickAsync(over).ConfigureAwait(false))
            {
                if (Judge() is not { } verdict)
                    continue;
                lock (_watch)
                {
                    _verdict = verdict;
                }
                Kill();
                return;
            }
        }
        catch (OperationCanceledException)
        {
            // The job is over.
        }
    }

    private string? Judge()
    {
        lock (_watch)
        {
            var silent = Stopwatch.GetElapsedTime(_lastSign);
            if (silent > (_reading > 0 ? _limits.FileTime : _limits.Silence))
                return string.Create(CultureInfo.InvariantCulture,
                    $"Reading stood still for {silent.TotalSeconds:0.#} s on this file and was stopped: the file is damaged, or its disk does not answer.");
        }
        return Resident() > _limits.ResidentBytes
            ? string.Create(CultureInfo.InvariantCulture,
                $"Reading took more than {_limits.ResidentBytes / (double)(1 << 30):0.##} GiB of memory on this file and was stopped: the file is damaged, or of a kind that is not read.")
            : null;
    }

    private long Resident()
    {
        try
        {
            // Asked 25 times a second: one short file, where the general way reads one for each thread.
            if (OperatingSystem.IsLinux())
                return long.Parse(File.ReadAllText($"/proc/{_process.Id}/statm").Split(' ')[1], CultureInfo.InvariantCulture) * Environment.SystemPageSize;
            _process.Refresh();
            return _process.WorkingSet64;
        }
        catch (Exception e) when (e is InvalidOperationException or System.ComponentModel.Win32Exception or IOException or UnauthorizedAccessException)
        {
            return 0;
        }
    }

    private void Complain(string? line)
    {
        const int Most = 2000;
        lock (_watch)
        {
            if (line is not null && _complaints.Length < Most)
                _complaints.Append(line).Append(' ');
        }
    }
}
