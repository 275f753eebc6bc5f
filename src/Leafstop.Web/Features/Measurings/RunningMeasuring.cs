using System.Collections.Immutable;
using System.Diagnostics;
using System.Runtime.CompilerServices;
using Leafstop.Browser.Contracts;
using Leafstop.Core.Sensor;
using Leafstop.Look;
using Leafstop.Look.Bench;
using Leafstop.Raw.Decoding;
using Leafstop.Raw.Measurement;
using Leafstop.Storage;
using Leafstop.Storage.Measurings;

namespace Leafstop.Web.Features.Measurings;

/// <summary>A folder that is being measured in this host, from its turn to the kept answer. Any number of readers may follow it.</summary>
internal sealed class RunningMeasuring : IAsyncDisposable
{
    // Findings on the way are about single files; a folder of thousands of strays must not fill the memory of every reader. The answer has them all.
    private const int MostFindings = 200;

    private readonly CancellationTokenSource _stop = new();
    private readonly Lock _one = new();
    private readonly KeptMeasuring _order;
    private readonly MeasuringStore _store;
    private readonly WorkerCommand _worker;
    private readonly IDisposable _claim;
    private readonly Task _work;
    private readonly string _run = Guid.NewGuid().ToString("N");
    private volatile bool _isStoppedByPerson;
    private Standing _now = new("waiting", 0, 0, "", [], null);
    private long _version;
    private TaskCompletionSource _changed = NewChange();
    private Stopwatch? _watch;

    private RunningMeasuring(KeptMeasuring order, MeasuringStore store, WorkerCommand worker, IDisposable claim, SemaphoreSlim turn)
    {
        (_order, _store, _worker, _claim) = (order, store, worker, claim);
        _work = Task.Run(() => WorkAsync(turn));
    }

    /// <summary>Starts the work and does not wait for it.</summary>
    /// <param name="order">An open one.</param>
    /// <param name="store">Where its end is kept.</param>
    /// <param name="worker">How to start a decoding process.</param>
    /// <param name="claim">Held until the work is over.</param>
    /// <param name="turn">Waited for before anything is decoded.</param>
    public static RunningMeasuring Start(KeptMeasuring order, MeasuringStore store, WorkerCommand worker, IDisposable claim, SemaphoreSlim turn) => new(order, store, worker, claim, turn);

    /// <summary>Stands for it in addresses.</summary>
    public string Id => _order.Id;

    /// <summary>True when this is what it was asked for.</summary>
    public bool IsFor(string folder, PrintCondition print) => _order.Folder == folder && _order.Print == print;

    /// <summary>True when the work is over and its end is kept.</summary>
    public bool IsOver => _work.IsCompleted;

    /// <summary>How far it is.</summary>
    public MeasuringView View()
    {
        lock (_one)
            return ViewNow();
    }

    /// <summary>How far it is, now and each time that it changes, until it is over. What came while a reader was busy is told as it stands by then.</summary>
    /// <param name="after">The mark of the last state that the reader has; null for none. A mark of another run, as after the host was started anew, counts as none.</param>
    /// <param name="cancel">Ends the following.</param>
    public async IAsyncEnumerable<(string Mark, MeasuringView View)> FollowAsync(string? after, [EnumeratorCancellation] CancellationToken cancel)
    {
        while (!cancel.IsCancellationRequested)
        {
            MeasuringView? view = null;
            string mark;
            Task change;
            lock (_one)
            {
                mark = $"{_run}-{_version}";
                change = _changed.Task;
                if (mark != after)
                    view = ViewNow();
            }

            if (view is not null)
            {
                after = mark;
                yield return (mark, view);
                if (!view.IsRunning)
                    yield break;
            }
            else if (_work.IsCompleted)
            {
                yield break;
            }

            await Next(change, cancel).ConfigureAwait(false);
        }
    }

    private static async Task Next(Task change, CancellationToken cancel)
    {
        try
        {
            await change.WaitAsync(cancel).ConfigureAwait(false);
        }
        catch (OperationCanceledException)
        {
            // Whoever followed is gone; the loop looks.
        }
    }

    /// <summary>Stops it for the person: it can be gone on with. Child processes end too.</summary>
    public async Task StopAsync()
    {
        _isStoppedByPerson = true;
        await _stop.CancelAsync().ConfigureAwait(false);
        await _work.ConfigureAwait(false);
    }

    /// <summary>Ends the work with the host: it stays open, and the next host goes on with it.</summary>
    public async ValueTask DisposeAsync()
    {
        await _stop.CancelAsync().ConfigureAwait(false);
        await _work.ConfigureAwait(false);
        _stop.Dispose();
    }

    private async Task WorkAsync(SemaphoreSlim turn)
    {
        KeptMeasuring? ended = null;
        string? answer = null;
        try
        {
            await turn.WaitAsync(_stop.Token).ConfigureAwait(false);
            try
            {
                BenchAnswer measured = await MeasureAsync().ConfigureAwait(false);
                BenchAccount account = BenchAccount.Of(measured);
                answer = BenchJson.Compact(measured);
                ended = _order with { State = MeasuringState.Done, Camera = account.Camera, Verdict = account.Verdict.Sentence };
            }
            finally
            {
                turn.Release();
            }
        }
        catch (OperationCanceledException)
        {
            ended = _isStoppedByPerson ? _order with { State = MeasuringState.Stopped } : null;
        }
        catch (DirectoryNotFoundException)
        {
            ended = Failed(FolderWords.Gone(_order.Folder));
        }
        catch (Exception denied) when (denied is UnauthorizedAccessException or IOException)
        {
            ended = Failed(FolderWords.Shut(_order.Folder, denied.Message));
        }
        catch (InvalidOperationException fault)
        {
            ended = Failed(fault.Message);
        }
        catch (Exception fault)
        {
            // Nobody waits for this work: a fault that is not told here would leave the page waiting for ever.
            ended = Failed($"a fault in Leafstop itself ended this measuring ({fault.GetType().Name}). Go on to try once more.");
        }

        End(ended, answer);
    }

    private void End(KeptMeasuring? ended, string? answer)
    {
        if (ended is not null)
        {
            ended = ended with { EndedAt = DateTimeOffset.UtcNow };
            try
            {
                _store.End(ended, answer);
            }
            catch (UnusableDataFileException unusable)
            {
                ended = Failed(unusable.Message) with { EndedAt = ended.EndedAt };
            }
        }

        _claim.Dispose();
        Tell(now => now with { Ended = ended, State = ended is null ? "waiting" : RunningMeasurings.Word(ended.State) });
    }

    private KeptMeasuring Failed(string why) => _order with { State = MeasuringState.Failed, Why = BenchVerdict.Capital(why) };

    private async Task<BenchAnswer> MeasureAsync()
    {
        _watch = Stopwatch.StartNew();
        Tell(now => now with { State = "measuring" });
        VanishedFiles vanished = new(_order.Folder);
        BenchAnswer answer = await FolderMeasurement.MeasureAsync(_order.Folder, _worker, _order.Print, new Steps(this), Found, _stop.Token).ConfigureAwait(false);
        return vanished.Gathered(answer);

        void Found(Finding finding)
        {
            if (vanished.IsNews(finding))
                Tell(now => now.Findings.Length < MostFindings ? now with { Findings = now.Findings.Add(BenchJson.FindingOf(finding, new FrameNames(finding.Frames))) } : now);
        }
    }

    private void Tell(Func<Standing, Standing> change)
    {
        TaskCompletionSource before;
        lock (_one)
        {
            _now = change(_now);
            _version++;
            (before, _changed) = (_changed, NewChange());
        }

        before.SetResult();
    }

    private MeasuringView ViewNow() => new(
        Id, _now.State, _order.Folder, _order.Print.WidthMm, _order.Print.ViewingDistanceMm, _order.BegunAt, _now.Ended?.EndedAt, _now.Done, _now.Total, OneLine.Of(Path.GetFileName(_now.File)),
        _now.State == "measuring" && _watch is { } watch ? ProgressWords.SecondsLeft(_now.Done, _now.Total, watch.Elapsed.TotalSeconds) : null,
        _now.Findings, _now.Ended?.Why, _now.Ended?.Camera, _now.Ended?.Verdict);

    private static TaskCompletionSource NewChange() => new(TaskCreationOptions.RunContinuationsAsynchronously);

    private sealed record Standing(string State, int Done, int Total, string File, ImmutableArray<FindingDocument> Findings, KeptMeasuring? Ended);

    private sealed class Steps(RunningMeasuring of) : IProgress<DecodingProgress>
    {
        public void Report(DecodingProgress value) => of.Tell(now => now with { Done = Math.Max(now.Done, value.Done), Total = value.Total, File = value.File });
    }
}
