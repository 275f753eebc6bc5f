using System.Collections.Immutable;

namespace Leafstop.Core.Sensor;

/// <summary>What the kind of ladder means for the person.</summary>
internal static class LadderFindings
{
    /// <summary>No ladder, same light only, mixed, and levels that belong to no ladder.</summary>
    public static IEnumerable<Finding> Of(LadderReading reading, bool anyFrames)
    {
        if (!anyFrames) yield break;
        double[] isos = [.. reading.Levels.Select(l => l.Shots.Iso)];
        if (reading.WhyNone is { } why)
        {
            yield return new Finding(FindingCode.NoLadder, [], $"{why} To shoot: {LadderToShoot.Metered(isos)}");
            yield break;
        }

        if (reading.Kind == LadderKind.SameLight)
        {
            yield return new Finding(
                FindingCode.SameLightOnly,
                [],
                $"Same light in all: this answers \"dial or lift\", not \"how high can I go\". A higher ISO looks cleaner here only because it got more light than it would in use. For how high, shoot this. {LadderToShoot.Metered(isos)}");
        }

        if (reading.Kind == LadderKind.Mixed)
        {
            int metered = Count(reading, LadderKind.Metered), same = Count(reading, LadderKind.SameLight);
            yield return new Finding(FindingCode.MixedLadders, [], $"Two ladders in one folder, told apart: {metered} frames metered (how high can I go), {same} in the same light (dial or lift).");
        }

        LevelShots[] off = [.. reading.Levels.Where(l => l.Ladder == LadderKind.None).Select(l => l.Shots)];
        if (off.Length > 0)
        {
            yield return new Finding(
                FindingCode.NoLadder,
                [.. off.SelectMany(l => l.Files)],
                $"On no ladder: {Say.List(off.Select(l => $"{Say.Iso(l.Iso)} at {Say.Exposure(l)}"))}. Light neither falls with the others nor stays the same. The noise is still measured.");
        }
    }

    /// <summary>Levels whose black rests on a whole number.</summary>
    public static IEnumerable<Finding> Blacks(ImmutableArray<LevelDraft> levels)
    {
        LevelDraft[] rough = [.. levels.Where(l => l.IsUsable && l.Fit.Planes.Any(p => p.BlackSource == BlackSource.LibraryInteger))];
        if (rough.Length > 0)
            yield return Findings.Of(FindingCode.BlackUncertain, rough, $"{Findings.Names(rough)}: black is known only to a whole raw step. Two cap frames at each ISO tell it exactly.");
    }

    private static int Count(LadderReading reading, LadderKind kind) => reading.Levels.Where(l => l.Ladder == kind).Sum(l => l.Shots.Frames.Length);
}
