using System.Collections.Immutable;

namespace Leafstop.Core.Sensor;

/// <summary>Banding and hot pixels, told apart from grain.</summary>
internal static class PatternTest
{
    private const double BandedShare = 0.2;
    private const double StandardErrors = 4;
    private const double HotShare = 2e-5;
    private const long LeastHot = 6;

    /// <summary>Notes banded levels and levels with hot pixels; they stay usable.</summary>
    public static IEnumerable<Finding> Apply(ImmutableArray<LevelDraft> levels)
    {
        List<(LevelDraft Level, bool Rows, double Share)> banded = [];
        foreach (LevelDraft level in levels)
        {
            if (Offsets(level.Shots) is not { } offsets) continue;
            level.RowNoiseDn = Math.Sqrt(offsets.Rows);
            level.ColumnNoiseDn = Math.Sqrt(offsets.Columns);
            if (level.Fit.ReadNoiseDn is not { } noise) continue;
            double larger = Math.Max(offsets.Rows, offsets.Columns);
            if (Math.Sqrt(larger) <= BandedShare * noise || larger <= StandardErrors * offsets.Error) continue;
            level.Note(LevelFlag.Banded);
            banded.Add((level, offsets.Rows >= offsets.Columns, Math.Sqrt(larger) / noise));
        }

        if (banded.Count > 0)
        {
            string lines = banded.All(b => b.Rows) ? "rows" : banded.Any(b => b.Rows) ? "rows or columns" : "columns";
            string share = Say.Number(banded.Max(b => b.Share), 2);
            yield return Findings.Of(FindingCode.Banded, banded.Select(b => b.Level), $"{Findings.Names(banded.Select(b => b.Level))}: {lines} stand out of the grain, up to {share} of the read noise. The eye forgives grain, not stripes, and stripes do not shrink with the print. Judge lifted shadows apart.");
        }

        LevelDraft[] hot = [.. levels.Where(l => IsHot(l.Shots))];
        foreach (LevelDraft level in hot) level.Note(LevelFlag.HotPixels);
        if (hot.Length > 0)
        {
            long most = hot.Max(l => l.Shots.Frames.Max(f => f.HotPixels));
            yield return Findings.Of(FindingCode.HotPixels, hot, $"{Findings.Names(hot)}: hot pixels, up to {Say.Number(most, 0)} a frame. They are counted, not averaged into the noise.");
        }
    }

    private static bool IsHot(LevelShots level)
    {
        long hot = level.Frames.Sum(f => f.HotPixels), searched = level.Frames.Sum(f => f.HotPixelsSearched);
        return hot >= LeastHot * level.Frames.Length && hot > HotShare * searched;
    }

    /// <summary>Mean squared offsets over planes, of the pairs that tell them most sharply: cap frames where there are any.</summary>
    private static (double Rows, double Columns, double Error)? Offsets(LevelShots level)
    {
        PairPlane[] planes = [.. level.CapPairs.SelectMany(p => p.Planes)];
        if (planes.Length == 0) planes = [.. Framing.GoodPairs(level).SelectMany(p => p.Planes)];
        if (planes.Length == 0) return null;
        // Planes share their rows, so their errors do not average out.
        double rows = PhotonTransfer.RowNoiseDn(planes);
        return (rows * rows, planes.Average(p => p.ColumnNoiseDn * p.ColumnNoiseDn), planes.Average(p => p.RowNoiseErrorDn2));
    }
}
