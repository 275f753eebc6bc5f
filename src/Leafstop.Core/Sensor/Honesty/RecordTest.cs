using System.Collections.Immutable;

namespace Leafstop.Core.Sensor;

/// <summary>Whether the files kept what the sensor saw: lossy raws and damage.</summary>
internal static class RecordTest
{
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
