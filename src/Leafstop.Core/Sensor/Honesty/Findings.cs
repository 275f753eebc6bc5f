namespace Leafstop.Core.Sensor;

/// <summary>Findings about levels, and the order in which they are told.</summary>
internal static class Findings
{
    /// <summary>Most urgent first: what spoils the answer, what must be reshot, what takes a level off, then remarks.</summary>
    private static readonly FindingCode[] Order =
    [
        FindingCode.FolderGone, FindingCode.JpegOnly, FindingCode.NoLadder, FindingCode.SameLightOnly, FindingCode.TwoBodies, FindingCode.TwoSizes, FindingCode.Lossy,
        FindingCode.LightDrift, FindingCode.Flicker, FindingCode.Moved, FindingCode.FalsePair, FindingCode.FocusChanged, FindingCode.Clipped,
        FindingCode.Unreadable, FindingCode.Damaged, FindingCode.Smoothed, FindingCode.Arithmetic, FindingCode.Pulled, FindingCode.BlackClipped,
        FindingCode.BitDepth, FindingCode.SceneMoved, FindingCode.NotLinear, FindingCode.SingleFrame, FindingCode.MissingLevel, FindingCode.NoDeepTone,
        FindingCode.Banded, FindingCode.HotPixels, FindingCode.MixedLadders, FindingCode.GapsThroughout, FindingCode.SlightlySmoothed,
        FindingCode.ClipNotAtTag, FindingCode.ClipNotSeen, FindingCode.BlackUncertain, FindingCode.Clock, FindingCode.Duplicate, FindingCode.NotRaw,
    ];

    /// <summary>A finding about whole levels: all their frames with light.</summary>
    public static Finding Of(FindingCode code, IEnumerable<LevelDraft> levels, string text, bool reshoot = false) =>
        new(code, [.. levels.SelectMany(l => l.Shots.Files)], text, reshoot);

    /// <summary>"ISO 400", "ISO 400 and 800".</summary>
    public static string Names(IEnumerable<LevelDraft> levels) => Say.Isos(levels.Select(l => l.Shots.Iso));

    /// <summary>Sorts; findings of the reading that say the same of the same frames are not told twice.</summary>
    public static IEnumerable<Finding> Sorted(IEnumerable<Finding> earlier, IEnumerable<Finding> own)
    {
        Finding[] first = [.. earlier];
        return first
            .Concat(own.Where(f => !first.Any(e => e.Code == f.Code && f.Frames.Length > 0 && f.Frames.All(e.Frames.Contains))))
            .Select((f, i) => (Finding: f, Place: i))
            .OrderBy(f => Array.IndexOf(Order, f.Finding.Code) is var at && at < 0 ? Order.Length : at)
            .ThenBy(f => f.Place)
            .Select(f => f.Finding);
    }
}
