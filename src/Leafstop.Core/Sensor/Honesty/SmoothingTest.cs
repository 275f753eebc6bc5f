using System.Collections.Immutable;

namespace Leafstop.Core.Sensor;

/// <summary>Whether neighbouring pixels agree more than honest noise does.</summary>
/// <remarks>White noise has no correlation at any lag, with a standard error of 1/√n (SEN-45); a smoothing filter leaves one (SEN-39, SEN-40).
/// The number is the larger of the x and y lag at the same colour, median over planes, measured on normalised pair differences
/// from which row and column offsets are taken off: bands do not show in it, and a filter that runs along the rows alone does.</remarks>
internal static class SmoothingTest
{
    /// <summary>From here on a level is smoothed; so is one whose correlation cannot be told from this.</summary>
    public const double Smoothed = 0.05;

    /// <summary>A correlation so many standard errors short of it may well be that: a small frame shows 0.06 as 0.05 now and then, and the numbers of a smoothed level are wrong: gain too high, read noise in raw steps too low.</summary>
    private const double Doubt = 2;

    /// <summary>From here on it is worth a remark.</summary>
    public const double Trace = 0.02;

    /// <summary>A correlation counts when it is this many standard errors from zero (SEN-45).</summary>
    private const double StandardErrors = 4;

    /// <summary>Sets the correlation and fails smoothed levels.</summary>
    public static IEnumerable<Finding> Apply(ImmutableArray<LevelDraft> levels)
    {
        List<LevelDraft> smoothed = [], traces = [];
        foreach (LevelDraft level in levels)
        {
            if (Correlation(level) is not { } c) continue;
            level.NeighbourCorrelation = c.Value;
            double error = 1 / Math.Sqrt(c.Samples);
            if (c.Value < Trace || c.Value < StandardErrors * error) continue;
            if (c.Value >= Smoothed - Doubt * error)
            {
                level.Fail(LevelFlag.Smoothed, $"{level.Name} is smoothed in camera: neighbouring pixels agree ({Say.Number(c.Value, 2)}), so its gain and read noise cannot be trusted.");
                smoothed.Add(level);
            }
            else
            {
                traces.Add(level);
            }
        }

        if (smoothed.Count > 0)
        {
            string them = smoothed.Count == 1 ? "is" : "are";
            yield return Findings.Of(FindingCode.Smoothed, smoothed, $"{Findings.Names(smoothed)} {them} smoothed in camera. Neighbouring pixels agree ({Values(smoothed)}; honest noise is near 0), so gain and read noise cannot be trusted. Not comparable: left off the curve; nothing to reshoot.");
        }

        if (traces.Count > 0)
            yield return Findings.Of(FindingCode.SlightlySmoothed, traces, $"{Findings.Names(traces)}: neighbouring pixels agree a little ({Values(traces)}). That is below {Say.Number(Smoothed, 2)} beyond doubt, so it stays on the curve; its gain and read noise may be a little off.");
    }

    private static string Values(IEnumerable<LevelDraft> levels) => Say.List(levels.Select(l => Say.Number(l.NeighbourCorrelation!.Value, 2)));

    private static (double Value, double Samples)? Correlation(LevelDraft level)
    {
        PairSurvey[] pairs = [.. Framing.GoodPairs(level.Shots).Where(p => p.Planes.Any(q => q.CorrelationSamples > 0))];
        if (pairs.Length == 0) pairs = [.. level.Shots.CapPairs.Where(p => p.Planes.Any(q => q.CorrelationSamples > 0))];
        var planes = pairs
            .SelectMany(p => p.Planes)
            .Where(p => p.CorrelationSamples > 0)
            .GroupBy(p => p.Plane)
            .Select(g => (Value: g.Sum(p => p.CorrelationSamples * Math.Max(p.CorrelationX, p.CorrelationY)) / g.Sum(p => p.CorrelationSamples), Samples: g.Sum(p => (double)p.CorrelationSamples)))
            .ToArray();
        return planes.Length == 0 ? null : (Median.Of(planes.Select(p => p.Value)), planes.Min(p => p.Samples));
    }
}
