using Leafstop.Browser.Contracts;
using Leafstop.Web.Safety;

namespace Leafstop.Web.Features.Judgings;

/// <summary>The judgings that are open in this host. They end with it; their answers are kept, and they can be gone on with in another.</summary>
internal sealed class RunningJudgings(JudgingStores stores, NamedFolders named, DecodingTurn turn) : IAsyncDisposable
{
    /// <summary>More than this at once are refused: each holds its crops in memory. One that failed holds none and does not count.</summary>
    public const int Most = 4;

    private readonly Lock _one = new();
    private readonly Dictionary<string, RunningJudging> _all = new(StringComparer.Ordinal);

    /// <summary>Starts one; null when there are as many as can be.</summary>
    public RunningJudging? Start(JudgingWish wish)
    {
        lock (_one)
            return IsFull ? null : Add(JudgingOrder.Of(wish with { Folder = named.Find(wish.Folder) }));
    }

    /// <summary>Goes on with one that was begun earlier. One that is open already is left as it is; one that failed is tried again.</summary>
    /// <returns>The judging, or the status and the sentence of the refusal.</returns>
    public async Task<(RunningJudging? Judging, int Status, string Why)> ResumeAsync(string id)
    {
        if (Find(id) is { HasFailed: false } open)
            return (open, 200, "");
        if (stores.Judgings.Find(id) is not var (camera, kept) || kept.Scene is not { } scene)
            return (null, 404, "No judging with this id is kept, so there is nothing to go on with: begin a new one.");
        if (!kept.IsUnfinished)
            return (null, 409, "This judging is over: its result is kept with the camera.");
        if (!Directory.Exists(scene.Folder))
            return (null, 409, JudgingOrder.Gone(scene.Folder));
        if (named.Find(scene.Folder) is null)
            return (null, 409, JudgingOrder.NotNamed(scene.Folder));
        RunningJudging? failed = null;
        try
        {
            lock (_one)
            {
                if (_all.TryGetValue(id, out RunningJudging? other))
                {
                    if (!other.HasFailed)
                        return (other, 200, "");
                    failed = other;
                    _all.Remove(id);
                }
                return IsFull ? (null, 409, TooMany) : (Add(JudgingOrder.Of(camera, kept, scene)), 202, "");
            }
        }
        finally
        {
            if (failed is not null)
                await failed.DisposeAsync().ConfigureAwait(false);
        }
    }

    /// <summary>The sentence when there are as many as can be.</summary>
    public static string TooMany => $"{Most} judgings are open already: end one first.";

    /// <summary>True when one with this id is not open and could be gone on with.</summary>
    public bool IsWaiting(string id) => Find(id) is null && stores.Judgings.Find(id) is (_, { IsUnfinished: true });

    private bool IsFull => _all.Values.Count(j => !j.HasFailed) >= Most;

    /// <summary>All that are open, failed ones too.</summary>
    public IReadOnlyList<RunningJudging> Open()
    {
        lock (_one)
            return [.. _all.Values];
    }

    /// <summary>The one with this id; null when there is none.</summary>
    public RunningJudging? Find(string id)
    {
        lock (_one)
            return _all.GetValueOrDefault(id);
    }

    /// <summary>Ends one. False when there is none.</summary>
    public async Task<bool> EndAsync(string id)
    {
        RunningJudging? judging;
        lock (_one)
            _all.Remove(id, out judging);
        if (judging is null)
            return false;
        await judging.DisposeAsync().ConfigureAwait(false);
        return true;
    }

    /// <summary>Ends all.</summary>
    public async ValueTask DisposeAsync()
    {
        RunningJudging[] all;
        lock (_one)
        {
            all = [.. _all.Values];
            _all.Clear();
        }
        foreach (RunningJudging judging in all)
            await judging.DisposeAsync().ConfigureAwait(false);
    }

    private RunningJudging Add(JudgingOrder order)
    {
        // Their sentences are kept for the page, but not without end.
        foreach (RunningJudging failed in _all.Values.Where(j => j.HasFailed).Skip(Most - 1).ToArray())
        {
            _all.Remove(failed.Id);
            _ = failed.DisposeAsync().AsTask();
        }
        RunningJudging judging = RunningJudging.Start(order, stores, turn.Turn);
        _all.Add(judging.Id, judging);
        return judging;
    }
}
