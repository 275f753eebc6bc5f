using System.Collections.Immutable;

namespace Leafstop.Core.Sensor;

/// <summary>Whites and blacks: clipped, pulled, cut off, and whether the tag tells the truth.</summary>
internal static class ClipTest
{
    private const double LowerClipShare = 0.01;

    /// <summary>A clip lower by more than this (an eighth of a stop) is no quirk of the sensor's own full well.</summary>
    private const double PulledClipShare = 0.08;

    private const double PulledGainShare = 0.25;
    private const double ClippedShare = 0.01;
    private const double FloorShare = 0.001;
    private const double TagShare = 0.01;

    /// <summary>Fails pulled and black-clipped levels, notes clipped ones.</summary>
    public static IEnumerable<Finding> Apply(ImmutableArray<LevelDraft> levels)
    {
        foreach (Finding finding in Pulled(levels).Concat(Cut(levels)).Concat(Whites(levels)).Concat(Tags(levels))) yield return finding;
    }

    /// <summary>A pulled ISO clips lower than the others, or has fewer electrons behind each raw step than its label promises.</summary>
    private static IEnumerable<Finding> Pulled(ImmutableArray<LevelDraft> levels)
    {
        List<LevelDraft> pulled = [], lower = [];
        foreach (LevelDraft level in levels)
        {
            LevelDraft[] others = [.. levels.Where(l => l.Shots.Iso != level.Shots.Iso)];
            if (others.Length < 2) continue;
            if (ClipsLower(level, others, PulledClipShare) || IsOffItsLabel(level, others)) pulled.Add(level);
            else if (ClipsLower(level, others, LowerClipShare)) lower.Add(level);
        }

        foreach (LevelDraft level in pulled)
            level.Fail(LevelFlag.Pulled, $"{level.Name} is pulled: shot as a higher ISO and darkened in camera. It has no more range, and less room for highlights than its label says.");
        foreach (LevelDraft level in lower) level.Note(LevelFlag.Pulled);
        if (pulled.Count > 0)
        {
            string them = pulled.Count == 1 ? "is a pulled ISO" : "are pulled ISO settings";
            yield return Findings.Of(FindingCode.Pulled, pulled, $"{Findings.Names(pulled)} {them}: a higher one, given more light and darkened in camera. No more range, less room for highlights. Left off the curve; nothing to reshoot.");
        }

        if (lower.Count > 0)
            yield return Findings.Of(FindingCode.Pulled, lower, $"{Findings.Names(lower)}: whites clip a little lower than at the other levels. The clip level of each is used; it stays on the curve.");
    }

    private static bool ClipsLower(LevelDraft level, LevelDraft[] others, double share)
    {
        double[] seen = [.. others.Select(SignalAtClip).OfType<double>()];
        return seen.Length >= 2 && SignalAtClip(level) is { } own && own < (1 - share) * Median.Of(seen);
    }

    private static double? SignalAtClip(LevelDraft level) => AtClip(level, plane => Black.OfPlane(level.Shots, plane).Dn);

    private static double? CodeAtClip(LevelDraft level) => AtClip(level, _ => 0);

    private static double? AtClip(LevelDraft level, Func<int, double> zero)
    {
        int planes = level.Shots.Frames[0].Planes.Length;
        double[] clips = [.. Enumerable.Range(0, planes).Select(p => ClipLevel.Seen(level.Shots, p) - zero(p)).OfType<double>()];
        return clips.Length * 2 < planes || clips.Length == 0 ? null : Median.Of(clips);
    }

    private static bool IsOffItsLabel(LevelDraft level, LevelDraft[] others)
    {
        if (level.Fit.Gain is not { RelativeHalfWidth: < 0.1 } gain || !level.IsUsable) return false;
        double[] products = [.. others.Where(l => l.IsUsable && l.Fit.Gain is not null).Select(l => l.Fit.Gain!.Value.Value * l.Shots.Iso)];
        return products.Length >= 2
            && level.Shots.Iso < others.Min(l => l.Shots.Iso)
            && gain.Value * level.Shots.Iso < (1 - PulledGainShare) * Median.Of(products);
    }

    private static IEnumerable<Finding> Cut(ImmutableArray<LevelDraft> levels)
    {
        LevelDraft[] cut = [.. levels.Where(l => l.Shots.Frames.Concat(l.Shots.Caps).Any(f => f.Planes.Any(p => p.FloorSamples > FloorShare * p.Samples)))];
        foreach (LevelDraft level in cut)
            level.Fail(LevelFlag.BlackClipped, $"The blacks of {level.Name} are cut off: samples pile up at the lowest value, so the dark half of the noise is missing and its gain and read noise cannot be trusted.");
        if (cut.Length > 0)
            yield return Findings.Of(FindingCode.BlackClipped, cut, $"{Findings.Names(cut)}: the blacks are cut off in camera, so the dark half of the noise is missing and gain and read noise cannot be trusted. Left off the curve; nothing to reshoot.");
    }

    private static IEnumerable<Finding> Whites(ImmutableArray<LevelDraft> levels)
    {
        LevelDraft[] clipped = [.. levels.Where(l => l.ClippedShare > ClippedShare)];
        foreach (LevelDraft level in clipped) level.Note(LevelFlag.Clipped);
        LevelDraft[] metered = [.. clipped.Where(l => l.Ladder != LadderKind.SameLight)];
        if (metered.Length > 0)
        {
            string share = Say.Percent(metered.Max(l => l.ClippedShare));
            yield return Findings.Of(FindingCode.Clipped, metered, $"{Findings.Names(metered)}: whites are clipped over up to {share} of the frame. The noise is still right, clipped parts are left out. For judging, shoot again with a little less light.", true);
        }
    }

    private static IEnumerable<Finding> Tags(ImmutableArray<LevelDraft> levels)
    {
        LevelDraft? off = levels.FirstOrDefault(l => TagError(l) is { } e && Math.Abs(e) > TagShare);
        if (off is not null)
        {
            LevelDraft[] all = [.. levels.Where(l => TagError(l) is { } e && Math.Abs(e) > TagShare)];
            string who = all.Length == levels.Length ? "Whites" : $"{Findings.Names(all)}: whites";
            yield return Findings.Of(FindingCode.ClipNotAtTag, all, $"{who} clip at {Say.Number(CodeAtClip(off)!.Value, 0)}; the file's tag says {Say.Number(off.Shots.Frames[0].Header.WhiteTagDn!.Value, 0)}. What is seen is used.");
        }

        LevelDraft[] unseen = [.. levels.Where(l => l.Fit.Clips.Any(c => c.Origin != ClipOrigin.Samples) && l.IsUsable)];
        LevelDraft[] byTag = [.. unseen.Where(l => l.Fit.Clips.Any(c => c.Origin == ClipOrigin.Tag))];
        LevelDraft[] byOthers = [.. unseen.Except(byTag)];
        List<string> parts = [];
        if (byOthers.Length > 0) parts.Add($"{Findings.Names(byOthers)}: no whites clip, so the clip level is the one seen at the other levels.");
        if (byTag.Length > 0) parts.Add($"{Findings.Names(byTag)}: no whites clip, so the room for highlights rests on the file's tag. A small bare lamp in the scene would show it.");
        if (parts.Count > 0) yield return Findings.Of(FindingCode.ClipNotSeen, unseen, string.Join(" ", parts));
    }

    private static double? TagError(LevelDraft level) =>
        level.Shots.Frames[0].Header.WhiteTagDn is { } tag && CodeAtClip(level) is { } seen && !level.Has(LevelFlag.Pulled) ? seen / tag - 1 : null;
}
