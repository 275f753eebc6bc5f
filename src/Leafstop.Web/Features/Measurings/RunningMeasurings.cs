using System.Security.Cryptography;
using Leafstop.Browser.Contracts;
using Leafstop.Core.Sensor;
using Leafstop.Raw.Decoding;
using Leafstop.Storage.Measurings;
using Leafstop.Web.Safety;

namespace Leafstop.Web.Features.Measurings;

/// <summary>Folders that are measured as jobs. What was asked for is kept before the work begins, so that a host that was killed is followed by one that goes on; answers stay when their job is over.</summary>
internal sealed class RunningMeasurings(MeasuringStore store, NamedFolders named, WorkerCommand worker, DecodingTurn turn) : IAsyncDisposable
{
    /// <summary>More than this open at once are refused: one is measured at a time, and a queue that nobody sees the end of helps nobody.</summary>
    public const int Most = 4;

    private readonly Lock _one = new();
    private readonly Dictionary<string, RunningMeasuring> _all = new(StringComparer.Ordinal);
    private bool _isEnding;

    /// <summary>The sentence when there are as many as can be.</summary>
    public static string TooMany => $"{Most} folders are waiting to be measured already: wait for one, or stop one.";

    /// <summary>The word for a state that is kept.</summary>
    public static string Word(MeasuringState state) => state switch
    {
        MeasuringState.Done => "done",
        MeasuringState.Stopped => "stopped",
        MeasuringState.Failed => "failed",
        _ => "waiting",
    };

    /// <summary>Goes on with what an earlier host left open, where its folder may be opened.</summary>
    public void PickUp()
    {
        foreach (KeptMeasuring left in store.List().Where(m => m.State == MeasuringState.Open).OrderBy(m => m.BegunAt))
            Run(left);
    }

    /// <summary>Starts one, or answers the one that is at the same folder for the same print; null when there are as many as can be.</summary>
    /// <param name="folder">A folder that may be opened.</param>
    /// <param name="print">The print that limits are worked out for.</param>
    public MeasuringView? Start(string folder, PrintCondition print)
    {
        KeptMeasuring order = new(
            Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(16)), folder, print, DateTimeOffset.FromUnixTimeSeconds(DateTimeOffset.UtcNow.ToUnixTimeSeconds()));
        lock (_one)
        {
            // Asked for twice, by two windows or an impatient hand, it is still one thing to do.
            if (_all.Values.FirstOrDefault(r => !r.IsOver && r.IsFor(folder, print)) is { } same)
                return same.View();
            if (AtWork() >= Most)
                return null;
            store.Add(order);
            Run(order);
        }

        return Find(order.Id);
    }

    /// <summary>Goes on with one that was stopped or failed. One that is open is left as it is.</summary>
    /// <returns>How it stands, or the status and the sentence of the refusal.</returns>
    public (MeasuringView? View, int Status, string Why) Resume(string id)
    {
        if (Find(id) is not { } view)
            return (null, 404, Unknown);
        if (view.State == "done")
            return (null, 409, "This measuring is done: its answer is here.");
        if (view.State is "stopped" or "failed")
        {
            if (named.Find(view.Folder) is null)
                return (null, 409, named.Refusal(view.Folder));
            lock (_one)
            {
                if (AtWork() >= Most)
                    return (null, 409, TooMany);
                store.Reopen(id);
            }
        }

        if (store.Find(id) is { State: MeasuringState.Open } open)
            Run(open);
        return (Find(id), 202, "");
    }

    /// <summary>Stops one; its wish stays, and it can be gone on with. False when there is none that is open here.</summary>
    public async Task<bool> StopAsync(string id)
    {
        RunningMeasuring? running = RunningOf(id);
        if (running is not null)
        {
            await running.StopAsync().ConfigureAwait(false);
            return true;
        }

        // Left open, and not being worked at by any host: a wish whose folder was not named.
        if (store.Find(id) is not { State: MeasuringState.Open } left || store.Claim(id) is not { } claim)
            return false;
        using (claim)
            store.End(left with { State = MeasuringState.Stopped, EndedAt = DateTimeOffset.UtcNow }, null);
        return true;
    }

    /// <summary>Stops one and forgets it, its answer too. False when there is none.</summary>
    public async Task<bool> RemoveAsync(string id)
    {
        await StopAsync(id).ConfigureAwait(false);
        lock (_one)
            _all.Remove(id);
        return store.Remove(id);
    }

    /// <summary>All that are kept, newest first.</summary>
    public IReadOnlyList<MeasuringView> Views() => [.. store.List().Select(Of)];

    /// <summary>The one with this id; null when there is none.</summary>
    public MeasuringView? Find(string id) => store.Find(id) is { } kept ? Of(kept) : null;

    /// <summary>The work at the one with this id; null when it is not worked at here.</summary>
    public RunningMeasuring? RunningOf(string id)
    {
        lock (_one)
            return _all.TryGetValue(id, out RunningMeasuring? running) && !running.IsOver ? running : null;
    }

    /// <summary>Ends the work; what is open stays open for the next host.</summary>
    public async ValueTask DisposeAsync()
    {
        RunningMeasuring[] all;
        lock (_one)
        {
            _isEnding = true;
            all = [.. _all.Values];
            _all.Clear();
        }

        foreach (RunningMeasuring running in all)
            await running.DisposeAsync().ConfigureAwait(false);
    }

    internal const string Unknown = "There is no such measuring here: it was removed, or is so old that it gave way to newer ones.";

    private int AtWork() => _all.Values.Count(r => !r.IsOver);

    private void Run(KeptMeasuring order)
    {
        lock (_one)
        {
            if (_isEnding || (_all.TryGetValue(order.Id, out RunningMeasuring? before) && !before.IsOver))
                return;
            if (named.Find(order.Folder) is null || store.Claim(order.Id) is not { } claim)
                return;
            foreach (string over in _all.Values.Where(r => r.IsOver).Select(r => r.Id).ToArray())
                _all.Remove(over);
            _all[order.Id] = RunningMeasuring.Start(order, store, worker, claim, turn.Turn);
        }
    }

    private MeasuringView Of(KeptMeasuring kept)
    {
        if (RunningOf(kept.Id) is { } running)
            return running.View();
        MeasuringView view = new(
            kept.Id, Word(kept.State), kept.Folder, kept.Print.WidthMm, kept.Print.ViewingDistanceMm, kept.BegunAt, kept.EndedAt, 0, 0, "", null, [], kept.Why, kept.Camera, kept.Verdict);
        return kept.State != MeasuringState.Open ? view
            : named.Find(kept.Folder) is null ? view with
            {
                State = "held",
                Why = $"This was asked for earlier, and its folder \"{kept.Folder}\" was not named when this was started or is not there: start it again with leafstop serve \"{kept.Folder}\" to go on.",
            }
            : view with { State = "elsewhere", Why = "Another workbench with the same data is measuring this." };
    }
}
