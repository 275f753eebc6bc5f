using System.Collections.Immutable;

namespace Leafstop.Core.Sensor;

/// <summary>How bright each level came out in raw numbers, relative to one of them.</summary>
internal sealed class MeasuredLight
{
    private readonly Dictionary<string, double> _ofFrame = [];

    private MeasuredLight()
    {
    }

    /// <summary>log2 of the frame's raw signal relative to the first level; null when it could not be compared.</summary>
    public double? OfFrame(string file) => _ofFrame.TryGetValue(file, out double stops) ? stops : null;

    /// <summary>Median over the frames of a level; null when none could be compared.</summary>
    public double? Of(LevelShots level)
    {
        double[] known = [.. level.Files.Select(OfFrame).OfType<double>()];
        return known.Length == 0 ? null : Median.Of(known);
    }

    /// <summary>Compares level with level, always the two that share most blocks next, and inside a level each frame with its first.</summary>
    public static MeasuredLight Of(ImmutableArray<LevelShots> levels)
    {
        var light = new MeasuredLight();
        if (levels.IsEmpty) return light;
        LevelShots start = levels.MaxBy(l => l.Frames[0].Map.MeanRawDn.Count(b => b >= 0))!;
        light._ofFrame[start.Files[0]] = 0;
        List<(LevelShots From, LevelShots To, double Stops, int Blocks)> open = [];
        HashSet<LevelShots> waiting = new(levels, ReferenceEqualityComparer.Instance);
        for (LevelShots? last = start; last is not null;)
        {
            waiting.Remove(last);
            open.RemoveAll(o => !waiting.Contains(o.To));
            foreach (LevelShots to in waiting)
            {
                if (Ratio(last.Frames[0], last, to.Frames[0], to) is { } ratio) open.Add((last, to, ratio.Stops, ratio.Blocks));
            }

            last = null;
            if (open.Count > 0)
            {
                var next = open.MaxBy(o => o.Blocks);
                light._ofFrame[next.To.Files[0]] = light._ofFrame[next.From.Files[0]] + next.Stops;
                last = next.To;
            }
        }

        foreach (LevelShots level in levels)
        {
            if (light.OfFrame(level.Files[0]) is not { } first) continue;
            foreach (FrameSurvey frame in level.Frames.Skip(1))
            {
                if (Ratio(level.Frames[0], level, frame, level) is { } ratio) light._ofFrame[frame.Header.File] = first + ratio.Stops;
            }
        }

        return light;
    }

    private static (double Stops, int Blocks)? Ratio(FrameSurvey a, LevelShots ofA, FrameSurvey b, LevelShots ofB) =>
        LightRatio.Of(a.Map, Black.OfMap(a, ofA.Caps), b.Map, Black.OfMap(b, ofB.Caps));
}
