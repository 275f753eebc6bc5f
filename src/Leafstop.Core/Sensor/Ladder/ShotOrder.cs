namespace Leafstop.Core.Sensor;

/// <summary>The order in which frames were shot, by camera clock, else by file name.</summary>
internal sealed class ShotOrder
{
    private readonly Dictionary<string, int> _place;

    /// <summary>Orders the frames; without a full set of times the names decide for all.</summary>
    public ShotOrder(IEnumerable<FrameSurvey> frames)
    {
        FrameSurvey[] all = [.. frames];
        bool timed = all.All(f => f.Header.TakenAt is not null);
        _place = all
            .OrderBy(f => timed ? f.Header.TakenAt : null)
            .ThenBy(f => f.Header.File, StringComparer.Ordinal)
            .Select((f, i) => (f.Header.File, i))
            .ToDictionary(p => p.File, p => p.i);
    }

    /// <summary>Place of a frame in the order.</summary>
    public int Place(string file) => _place[file];

    /// <summary>Frames of a level in runs that follow each other without frames of other levels between.</summary>
    public IEnumerable<string[]> Runs(LevelShots level)
    {
        string[] files = [.. level.Files.OrderBy(Place)];
        int start = 0;
        for (int i = 1; i <= files.Length; i++)
        {
            if (i < files.Length && Place(files[i]) == Place(files[i - 1]) + 1) continue;
            yield return files[start..i];
            start = i;
        }
    }

    /// <summary>Steps in the order from a level to the nearest frame of others.</summary>
    public int Distance(LevelShots level, IEnumerable<LevelShots> others) => others
        .SelectMany(o => o.Files)
        .Select(other => level.Files.Min(own => Math.Abs(Place(own) - Place(other))))
        .DefaultIfEmpty(int.MaxValue)
        .Min();
}
