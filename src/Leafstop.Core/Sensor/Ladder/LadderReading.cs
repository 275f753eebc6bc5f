using System.Collections.Immutable;

namespace Leafstop.Core.Sensor;

/// <summary>Which ladder the levels form.</summary>
/// <param name="Kind">Metered, same light, mixed or none.</param>
/// <param name="Levels">Levels with their ladder, metered first, then same light, then those on neither; each by ISO.</param>
/// <param name="FromSettings">True when shutter and aperture as stated told the ladder; false when the measured light had to.</param>
/// <param name="WhyNone">Why there is no ladder; null when there is one.</param>
internal sealed record LadderReading(
    LadderKind Kind,
    ImmutableArray<(LevelShots Shots, LadderKind Ladder)> Levels,
    bool FromSettings,
    string? WhyNone)
{
    /// <summary>Levels that make a ladder.</summary>
    public const int LeastLevels = 3;

    private const double SettingsToleranceStops = 0.25;
    private const double MeasuredToleranceStops = 0.4;
    private const double MostDisagreementStops = 0.6;

    /// <summary>Reads the ladder from ISO, shutter, aperture and measured light.</summary>
    /// <remarks>In a metered ladder ISO and light add up to one sum; in a same-light ladder the light is one. Where the settings and the measured light
    /// tell different stories (an aperture ring that reports nothing, a lamp that was turned for each frame), the measured light decides. A lamp that was turned between two ladders is no such story:
    /// within each of them settings and light agree.</remarks>
    public static LadderReading Of(ImmutableArray<LevelShots> levels, MeasuredLight measured)
    {
        if (levels.IsEmpty) return new(LadderKind.None, [], true, "Lens-cap frames alone show only the dark, and gain is read from how noise grows with light. Copy the frames of the bench scene to them.");
        Candidate[] bySettings = [.. levels.Where(l => l.SettingsLight is not null).Select(l => new Candidate(l, Math.Log2(l.Iso), l.SettingsLight!.Value))];
        Candidate[] byLight = [.. levels.Where(l => measured.Of(l) is not null).Select(l => new Candidate(l, Math.Log2(l.Iso), measured.Of(l)!.Value - Math.Log2(l.Iso)))];
        var (metered, same) = Lines(bySettings, SettingsToleranceStops);
        bool fromSettings = bySettings.Length == levels.Length && !Contradicted(bySettings, measured, metered, same);
        if (!fromSettings && byLight.Length >= 2) (metered, same) = Lines(byLight, MeasuredToleranceStops);
        int meteredLevels = Isos(metered), sameLevels = Isos(same);
        if (AreTwo(metered, same))
            return new(LadderKind.Mixed, Ordered(Split(levels, metered, same)), fromSettings, null);
        if (Math.Max(meteredLevels, sameLevels) < LeastLevels)
            return new(LadderKind.None, Ordered(levels.Select(l => (l, LadderKind.None))), fromSettings, WhyNot(levels, meteredLevels, sameLevels));
        LadderKind kind = meteredLevels >= sameLevels ? LadderKind.Metered : LadderKind.SameLight;
        HashSet<LevelShots> on = kind == LadderKind.Metered ? metered : same;
        return new(kind, Ordered(levels.Select(l => (l, on.Contains(l) ? kind : LadderKind.None))), fromSettings, null);
    }

    private static (HashSet<LevelShots> Metered, HashSet<LevelShots> Same) Lines(Candidate[] candidates, double tolerance) =>
        (Best(candidates, c => c.Speed + c.Light, tolerance), Best(candidates, c => c.Light, tolerance));

    /// <summary>More than a third of the levels are off: not a lamp that drifted once, but settings that do not tell the light. Where the settings tell two ladders each has its own lamp.</summary>
    private static bool Contradicted(Candidate[] bySettings, MeasuredLight measured, HashSet<LevelShots> metered, HashSet<LevelShots> same)
    {
        var differences = bySettings.Where(c => measured.Of(c.Level) is not null).Select(c => (c.Level, Stops: measured.Of(c.Level)!.Value - c.Speed - c.Light)).ToArray();
        if (differences.Length < LeastLevels) return false;
        int off = AreTwo(metered, same)
            ? differences.GroupBy(d => same.Contains(d.Level) && !metered.Contains(d.Level)).Sum(ladder => Off([.. ladder.Select(d => d.Stops)]))
            : Off([.. differences.Select(d => d.Stops)]);
        return off * 3 > differences.Length;

        static int Off(double[] stops)
        {
            double middle = Median.Of(stops);
            return stops.Count(d => Math.Abs(d - middle) > MostDisagreementStops);
        }
    }

    private static HashSet<LevelShots> Best(Candidate[] candidates, Func<Candidate, double> sum, double tolerance) => candidates
        .Select(centre => candidates.Where(c => Math.Abs(sum(c) - sum(centre)) <= tolerance).ToArray())
        .OrderByDescending(on => on.Select(c => c.Level.Iso).Distinct().Count())
        .ThenBy(on => on.Sum(c => Math.Abs(sum(c) - on.Average(sum))))
        .Select(on => on.Select(c => c.Level).ToHashSet<LevelShots>(ReferenceEqualityComparer.Instance))
        .FirstOrDefault() ?? [];

    /// <summary>Each line is a ladder, and each has levels that the other has not.</summary>
    private static bool AreTwo(HashSet<LevelShots> metered, HashSet<LevelShots> same) =>
        Isos(metered) >= LeastLevels && Isos(same) >= LeastLevels && metered.Count(l => !same.Contains(l)) >= 2 && same.Count(l => !metered.Contains(l)) >= 2;

    private static int Isos(HashSet<LevelShots> levels) => levels.Select(l => l.Iso).Distinct().Count();

    private static ImmutableArray<(LevelShots, LadderKind)> Ordered(IEnumerable<(LevelShots Shots, LadderKind Ladder)> levels) =>
        [.. levels.OrderBy(l => l.Ladder == LadderKind.None ? 9 : (int)l.Ladder).ThenBy(l => l.Shots.Iso).ThenByDescending(l => l.Shots.ShutterSeconds ?? 0)];

    private static IEnumerable<(LevelShots, LadderKind)> Split(ImmutableArray<LevelShots> levels, HashSet<LevelShots> metered, HashSet<LevelShots> same)
    {
        LevelShots[] meteredOnly = [.. metered.Where(l => !same.Contains(l))], sameOnly = [.. same.Where(l => !metered.Contains(l))];
        var order = new ShotOrder(levels.SelectMany(l => l.Frames));
        foreach (LevelShots level in levels)
        {
            bool onMetered = metered.Contains(level), onSame = same.Contains(level);
            if (!(onMetered && onSame))
            {
                yield return (level, onMetered ? LadderKind.Metered : onSame ? LadderKind.SameLight : LadderKind.None);
                continue;
            }

            // Where the two lines of measured light cross, the settings tell which of them it is.
            if (BySettings(level, meteredOnly, sameOnly) is { } told)
            {
                yield return (level, told);
                continue;
            }

            // The level where the two lines cross in the settings too: shot once, or once in each run.
            foreach (var run in order.Runs(level).Select(r => level.Only(r)).GroupBy(l => order.Distance(l, meteredOnly) <= order.Distance(l, sameOnly)))
                yield return (level.Only([.. run.SelectMany(l => l.Files)]), run.Key ? LadderKind.Metered : LadderKind.SameLight);
        }
    }

    /// <summary>The ladder whose settings a level follows; null where they do not tell.</summary>
    private static LadderKind? BySettings(LevelShots level, LevelShots[] metered, LevelShots[] same)
    {
        double[] sums = [.. metered.Where(l => l.SettingsLight is not null).Select(l => l.SettingsLight!.Value + Math.Log2(l.Iso))], lights = [.. same.Where(l => l.SettingsLight is not null).Select(l => l.SettingsLight!.Value)];
        if (level.SettingsLight is not { } own || sums.Length == 0 || lights.Length == 0) return null;
        double fromMetered = Math.Abs(own + Math.Log2(level.Iso) - Median.Of(sums)), fromSame = Math.Abs(own - Median.Of(lights));
        if (Math.Min(fromMetered, fromSame) > SettingsToleranceStops || Math.Max(fromMetered, fromSame) <= MostDisagreementStops) return null;
        return fromMetered < fromSame ? LadderKind.Metered : LadderKind.SameLight;
    }

    private static string WhyNot(ImmutableArray<LevelShots> levels, int metered, int same)
    {
        double[] isos = [.. levels.Select(l => l.Iso).Distinct().Order()];
        if (isos.Length == 1) return $"All frames are at {Say.Iso(isos[0])}. A ladder has at least three ISO settings.";
        if (isos.Length == 2)
        {
            string kind = same == 2 ? " in the same light" : metered == 2 ? ", each metered" : "";
            return $"Only two levels, {Say.Iso(isos[0])} and {Say.Iso(isos[1])}{kind}. A ladder has at least three.";
        }

        string settings = Say.List(levels.Select(l => $"{Say.Iso(l.Iso)} at {Say.Exposure(l)}").Take(6));
        return $"The settings follow no rule: light neither falls as ISO rises nor stays the same ({settings}).";
    }

    private sealed record Candidate(LevelShots Level, double Speed, double Light);
}
