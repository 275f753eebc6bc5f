using System.Collections.Immutable;

namespace Leafstop.Core.Sensor;

/// <summary>Whether the files kept what the sensor saw: lossy raws and damage.</summary>
internal static class RecordTest
{
    /// <summary>The level without its damaged frames, where the sound ones give a curve; else the level as it is, which fails.</summary>
    public static LevelShots WithoutDamage(LevelShots level)
    {
        if (level.Frames.All(f => f.DataErrors == 0)) return level;
        LevelShots sound = level.Only([.. level.Frames.Where(f => f.DataErrors == 0).Select(f => f.Header.File)]);
        return sound.TruePairs.Any() || sound.Frames.Any(f => f.SingleFrameCurves is not null) ? sound : level;
    }

    /// <summary>Tells the damaged frames that are set aside because the rest of their level is enough.</summary>
    public static IEnumerable<Finding> SetAside(ImmutableArray<LevelShots> levels)
    {
        var aside = levels.Select(l => (Level: l, Files: l.Files.Except(WithoutDamage(l).Files).ToArray())).Where(l => l.Files.Length > 0).ToArray();
        if (aside.Length == 0) yield break;
        string what = aside.Sum(a => a.Files.Length) == 1 ? "a file is damaged and" : "files are damaged and";
        string them = aside.Sum(a => a.Files.Length) == 1 ? "Copy it" : "Copy them";
        yield return new Finding(
            FindingCode.Damaged,
            [.. aside.SelectMany(a => a.Files)],
            $"{Say.Isos(aside.Select(a => a.Level.Iso))}: {what} set aside. What is left of the level is measured. {them} again from the card and measure again.");
    }

    /// <summary>Fails lossy and damaged levels.</summary>
    public static IEnumerable<Finding> Apply(ImmutableArray<LevelDraft> levels)
    {
        LevelDraft[] lossy = [.. levels.Where(l => l.Shots.Frames.Any(f => f.Header.IsLossy))];
        foreach (LevelDraft level in lossy)
            level.Fail(LevelFlag.Lossy, $"{level.Name} is a lossy raw: its compression throws noise away, so what is left is not the sensor's.");
        if (lossy.Length > 0)
        {
            yield return Findings.Of(
                FindingCode.Lossy,
                lossy,
                lossy.Length == levels.Length
                    ? "All frames are lossy raws: the compression throws noise away, so nothing can be measured from them. Set the camera to lossless or uncompressed raw and shoot again."
                    : $"{Findings.Names(lossy)}: lossy raws, not comparable with the others. Set the camera to lossless or uncompressed raw and shoot them again.",
                true);
        }

        LevelDraft[] damaged = [.. levels.Where(l => l.Shots.Frames.Any(f => f.DataErrors > 0))];
        foreach (LevelDraft level in damaged)
            level.Fail(LevelFlag.Damaged, $"A frame of {level.Name} is damaged: the decoder met errors in its data.");
        if (damaged.Length > 0)
        {
            yield return new Finding(
                FindingCode.Damaged,
                [.. damaged.SelectMany(l => l.Shots.Frames).Where(f => f.DataErrors > 0).Select(f => f.Header.File)],
                $"{Findings.Names(damaged)}: a file is damaged. The other levels are fine. Copy it again from the card, or shoot the level again.",
                true);
        }
    }
}
