using System.Collections.Immutable;
using System.Globalization;

namespace Leafstop.Core.Sensor;

/// <summary>Whether the camera clock makes sense over the ladder.</summary>
internal static class CameraClock
{
    private const int FirstPlausibleYear = 2000;
    private static readonly TimeSpan LongestPause = TimeSpan.FromHours(6);

    /// <summary>A finding for a clock at its factory date, or for a jump of more than six hours inside the ladder.</summary>
    public static IEnumerable<Finding> Check(ImmutableArray<LevelDraft> levels)
    {
        FrameSurvey[] timed = [.. levels.SelectMany(l => l.Shots.Frames).Where(f => f.Header.TakenAt is not null).OrderBy(f => f.Header.TakenAt)];
        FrameSurvey[] old = [.. timed.Where(f => f.Header.TakenAt!.Value.Year < FirstPlausibleYear)];
        if (old.Length > 0)
        {
            yield return new Finding(
                FindingCode.Clock,
                [.. old.Select(f => f.Header.File)],
                $"The camera clock stood at {old[0].Header.TakenAt!.Value.Year.ToString(CultureInfo.InvariantCulture)}. The measurement does not depend on it. Set the clock before the next shoot.");
        }

        FrameSurvey[] rest = [.. timed.Except(old)];
        for (int i = 1; i < rest.Length; i++)
        {
            TimeSpan pause = rest[i].Header.TakenAt!.Value - rest[i - 1].Header.TakenAt!.Value;
            if (pause <= LongestPause) continue;
            yield return new Finding(
                FindingCode.Clock,
                [rest[i - 1].Header.File, rest[i].Header.File],
                $"The camera clock jumps by {Say.Number(pause.TotalHours, 0)} hours between {Say.Iso(rest[i - 1].Header.Iso!.Value)} and {Say.Iso(rest[i].Header.Iso!.Value)}: the clock was reset, or these are two sessions. If two, lamp and framing may differ.");
            yield break;
        }
    }
}
