using System.Collections.Immutable;

namespace Leafstop.Core.Sensor;

/// <summary>Groups frames into levels.</summary>
internal static class LevelGrouping
{
    /// <summary>Times and f-numbers that differ by less than this many stops are one setting: files round them.</summary>
    private const double SameSettingStops = 0.04;

    /// <summary>Frames without a stated time are parted where their light jumps by more than this many stops.</summary>
    private const double LightJumpStops = 0.5;

    /// <summary>Levels by ISO, then by exposure time, longest last. Frames that state no ISO are left out.</summary>
    public static ImmutableArray<LevelShots> Of(IReadOnlyList<FrameSurvey> frames, IReadOnlyList<PairSurvey> pairs)
    {
        ILookup<double, FrameSurvey> caps = frames.Where(f => f.IsCap && f.Header.Iso > 0).ToLookup(f => f.Header.Iso!.Value);
        var levels = ImmutableArray.CreateBuilder<LevelShots>();
        foreach (var sameIso in frames.Where(f => !f.IsCap && f.Header.Iso > 0).GroupBy(f => f.Header.Iso!.Value).OrderBy(g => g.Key))
        {
            FrameSurvey[] capFrames = [.. caps[sameIso.Key]];
            HashSet<string> capFiles = [.. capFrames.Select(f => f.Header.File)];
            foreach (FrameSurvey[] group in BySettings(sameIso).SelectMany(ByLight))
            {
                HashSet<string> files = [.. group.Select(f => f.Header.File)];
                levels.Add(new LevelShots
                {
                    Iso = sameIso.Key,
                    ShutterSeconds = group[0].Header.ShutterSeconds,
                    FNumber = group[0].Header.FNumber,
                    Frames = [.. group.OrderBy(f => f.Header.TakenAt).ThenBy(f => f.Header.File, StringComparer.Ordinal)],
                    Pairs = [.. pairs.Where(p => !p.IsCap && files.Contains(p.First) && files.Contains(p.Second))],
                    Caps = [.. capFrames.OrderBy(f => f.Header.File, StringComparer.Ordinal)],
                    CapPairs = [.. pairs.Where(p => p.IsCap && capFiles.Contains(p.First) && capFiles.Contains(p.Second))],
                });
            }
        }

        return levels.ToImmutable();
    }

    private static IEnumerable<FrameSurvey[]> BySettings(IEnumerable<FrameSurvey> frames)
    {
        List<List<FrameSurvey>> groups = [];
        foreach (FrameSurvey frame in frames.OrderBy(f => f.Header.ShutterSeconds ?? 0).ThenBy(f => f.Header.FNumber ?? 0).ThenBy(f => f.Header.File, StringComparer.Ordinal))
        {
            var home = groups.Find(g => IsSame(g[0].Header.ShutterSeconds, frame.Header.ShutterSeconds, 1) && IsSame(g[0].Header.FNumber, frame.Header.FNumber, 2));
            if (home is null) groups.Add([frame]);
            else home.Add(frame);
        }

        return groups.Select(g => g.ToArray());
    }

    private static bool IsSame(double? a, double? b, double stopsPerDoubling) =>
        a is null ? b is null : b is not null && Math.Abs(Math.Log2(a.Value / b.Value)) * stopsPerDoubling < SameSettingStops;

    /// <summary>Parts frames that state no time (or no aperture) where their brightness jumps: the light alone tells them apart.</summary>
    private static IEnumerable<FrameSurvey[]> ByLight(FrameSurvey[] frames)
    {
        if (frames is [{ Header: { ShutterSeconds: not null, FNumber: not null } }, ..])
        {
            yield return frames;
            yield break;
        }

        var measured = frames
            .Select(f => (Frame: f, Light: LightRatio.Of(frames[0].Map, Black.OfMap(frames[0], []), f.Map, Black.OfMap(f, []))?.Stops ?? 0))
            .OrderBy(f => f.Light)
            .ToArray();
        int start = 0;
        for (int i = 1; i <= measured.Length; i++)
        {
            if (i < measured.Length && measured[i].Light - measured[i - 1].Light < LightJumpStops) continue;
            yield return [.. measured[start..i].Select(m => m.Frame)];
            start = i;
        }
    }
}
