namespace Leafstop.Web.Features.Judgings;

/// <summary>The judgings that are under way in this host. They end with it; their answers are kept.</summary>
internal sealed class RunningJudgings(JudgingStores stores) : IAsyncDisposable
{
    /// <summary>More than this at once are refused: each holds its crops in memory.</summary>
    public const int Most = 4;

    private readonly Lock _one = new();
    private readonly Dictionary<string, RunningJudging> _all = new(StringComparer.Ordinal);

    /// <summary>Starts one; null when there are as many as can be.</summary>
    public RunningJudging? Start(JudgingWish wish)
    {
        lock (_one)
        {
            if (_all.Count >= Most)
                return null;
            RunningJudging judging = RunningJudging.Start(wish, stores);
            _all.Add(judging.Id, judging);
            return judging;
        }
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
}
