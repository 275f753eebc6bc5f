using System.Collections.Immutable;

namespace Leafstop.Core.Sensor;

/// <summary>Whether the tripod stayed, the focus stayed and the scene stayed.</summary>
internal static class Framing
{
    /// <summary>More than this is a moved tripod, sensor pixels.</summary>
    public const double MostShiftPx = 0.3;

    private const double StandardErrors = 4;
    private const double LeastDetailShare = 0.7;
    private const double MostRestlessShare = 0.05;
    private const double MostClippedShare = 0.02;

    /// <summary>The pairs of a level from which noise may be taken: same framing, not shifted.</summary>
    public static PairSurvey[] GoodPairs(LevelShots level) => [.. level.TruePairs.Where(p => !IsShifted(p))];

    /// <summary>Fails levels whose pairs moved and tells what else changed inside a pair.</summary>
    public static IEnumerable<Finding> WithinPairs(ImmutableArray<LevelDraft> levels)
    {
        foreach (LevelDraft level in levels)
        {
            PairSurvey[] moved = [.. level.Shots.TruePairs.Where(IsShifted)], good = GoodPairs(level.Shots);
            foreach (PairSurvey pair in moved)
            {
                string shift = Say.Number(Length(pair));
                if (good.Length == 0) level.Fail(LevelFlag.Moved, $"The two frames of {level.Name} are shifted by {shift} px: texture would be taken for noise.");
                yield return new Finding(FindingCode.Moved, Files(pair), $"The tripod moved between the two frames of {level.Name}: they are shifted by {shift} px. Shoot them again, with a two-second delay.", true);
            }

            foreach (PairSurvey pair in level.Shots.Pairs.Where(p => p.IsFalsePair))
                yield return new Finding(FindingCode.FalsePair, Files(pair), $"Two frames of {level.Name} have the same settings but show different pictures. No noise is taken from them. Shoot two frames of one scene from a tripod.", true);

            foreach (PairSurvey pair in good.Where(p => LightJump(p) > LightErrors.MostStops))
                yield return new Finding(FindingCode.Flicker, Files(pair), $"The two frames of {level.Name} differ by {Say.Stops(LightJump(pair))} of light. The noise is matched for it and holds. If the lamp flickers, use times of 1/30 s and longer; shoot the level again for judging.", true);

            foreach (PairSurvey pair in good.Where(p => RestlessShare(p) > MostRestlessShare))
                yield return new Finding(FindingCode.SceneMoved, Files(pair), $"Something moved in the scene between the two frames of {level.Name}: {Say.Percent(RestlessShare(pair))} of the frame is left out of the measurement.");
        }
    }

    /// <summary>Tells where the tripod moved between levels, in the order they were shot, and notes how far each level lies from the first.</summary>
    public static IEnumerable<Finding> BetweenLevels(ImmutableArray<LevelDraft> levels)
    {
        LevelDraft[] order = [.. InOrder(levels)];
        var (x, y) = (0.0, 0.0);
        for (int i = 1; i < order.Length; i++)
        {
            LevelShots before = order[i - 1].Shots, after = order[i].Shots;
            FrameSurvey last = before.Frames[^1], first = after.Frames[0];
            // A tripod that moves inside a pair stays where it went.
            if (before.TruePairs.FirstOrDefault(p => IsShifted(p) && p.Second == last.Header.File) is { ShiftXPx: { } pairX, ShiftYPx: { } pairY })
                (x, y) = (x + pairX, y + pairY);
            MapShift? shift = MapShift.Of(last.Map, Black.OfMap(last, before.Caps), first.Map, Black.OfMap(first, after.Caps));
            bool isMoved = shift is not null && shift.LengthPx > MostShiftPx && shift.LengthPx > StandardErrors * shift.ErrorPx;
            if (isMoved) (x, y) = (x + shift!.XPx, y + shift.YPx);
            order[i].Shift = (x, y);
            if (!isMoved) continue;
            LevelDraft[] early = order[..i], late = order[i..];
            LevelDraft[] fewer = late.Length <= early.Length ? late : early;
            string side = late.Length <= early.Length ? "after" : "before";
            yield return Findings.Of(
                FindingCode.Moved,
                fewer,
                $"The tripod moved between {order[i - 1].Name} and {order[i].Name}, by about {Say.Number(shift!.LengthPx)} px. Each level's noise is still right. To judge crops side by side, shoot what lies {side} it again: {Findings.Names(fewer)}.",
                true);
        }
    }

    /// <summary>Tells levels whose fine detail fell: the focus changed.</summary>
    public static IEnumerable<Finding> Focus(ImmutableArray<LevelDraft> levels)
    {
        var known = levels
            // In one light the whites clip away as ISO rises, and fine detail with them.
            .Where(l => l.Ladder != LadderKind.SameLight && !l.Has(LevelFlag.Smoothed) && !l.Has(LevelFlag.Moved) && l.ClippedShare < MostClippedShare)
            .Select(l => (Level: l, Detail: GoodPairs(l.Shots).Select(p => p.Detail).OfType<double>().DefaultIfEmpty(double.NaN).Average()))
            .Where(l => l.Detail > 0)
            .ToArray();
        // Hot pixels pass for fine detail that both frames share, the more the dimmer the level: then detail says nothing of focus.
        if (known.Length < LadderReading.LeastLevels || levels.Any(l => l.Has(LevelFlag.HotPixels))) yield break;
        double middle = Median.Of(known.Select(k => k.Detail));
        LevelDraft[] soft = [.. known.Where(k => k.Detail < LeastDetailShare * middle).Select(k => k.Level)];
        if (soft.Length > 0)
            yield return Findings.Of(FindingCode.FocusChanged, soft, $"{Findings.Names(soft)}: the focus changed, fine detail is weaker than at the other levels. The noise is still right. For judging, set manual focus and shoot again.", true);
    }

    private static IEnumerable<LevelDraft> InOrder(ImmutableArray<LevelDraft> levels) => levels.All(l => l.Shots.TakenAt is not null)
        ? levels.OrderBy(l => l.Shots.TakenAt).ThenBy(l => l.Shots.Iso)
        : levels.OrderBy(l => l.Ladder).ThenBy(l => l.Shots.Iso);

    private static bool IsShifted(PairSurvey pair) => Length(pair) > MostShiftPx && Length(pair) > StandardErrors * (pair.ShiftErrorPx ?? 0);

    private static double Length(PairSurvey pair) => pair is { ShiftXPx: { } x, ShiftYPx: { } y } ? Math.Sqrt(x * x + y * y) : 0;

    private static double LightJump(PairSurvey pair) => pair.Planes.IsEmpty ? 0 : Math.Abs(Math.Log2(Median.Of(pair.Planes.Select(p => p.BrightnessRatio))));

    private static double RestlessShare(PairSurvey pair)
    {
        double tiles = pair.Planes.Sum(p => (double)p.Tiles);
        return tiles > 0 ? pair.Planes.Sum(p => (double)p.RestlessTiles) / tiles : 0;
    }

    private static ImmutableArray<string> Files(PairSurvey pair) => [pair.First, pair.Second];
}
