using System.Collections.Immutable;

namespace Leafstop.Core.Sensor;

/// <summary>What the ladder lacks: levels, second frames, deep tones, a curve.</summary>
internal static class Coverage
{
    private const double MostGapStops = 1.1;
    private const double DeepToneHalfWidth = 0.10;

    /// <summary>Fails levels without a fit and tells what is thin.</summary>
    public static IEnumerable<Finding> Check(ImmutableArray<LevelDraft> levels)
    {
        foreach (LevelDraft level in levels.Where(l => l.Fit.Gain is null && l.IsUsable))
            level.Fail(LevelFlag.NotFitted, $"{level.Name} could not be measured. {level.Fit.Refusal}");

        LevelDraft[] singles = [.. levels.Where(l => l.Shots.Frames.Length == 1 || (l.Fit.FromSingleFrames && l.Fit.Gain is not null))];
        foreach (LevelDraft level in singles) level.Note(LevelFlag.SingleFrame);
        if (singles.Length > 0)
            yield return Findings.Of(FindingCode.SingleFrame, singles, $"{Findings.Names(singles)}: no pair. One frame cannot tell texture from noise, so the interval is at least twice as wide. Shoot a second frame of each.", true);

        LevelDraft[] bent = [.. levels.Where(l => l.Fit is { IsNotLinear: true, FromSingleFrames: false })];
        foreach (LevelDraft level in bent) level.Note(LevelFlag.NotLinear);
        if (bent.Length > 0)
            yield return Findings.Of(FindingCode.NotLinear, bent, $"{Findings.Names(bent)}: noise against light is not a straight line. The intervals are widened for it. Something changes the raw values in camera, or the scene moved.");

        LevelDraft[] shallow = [.. levels.Where(l => l.Shots.CapPairs.Length == 0 && l is { IsUsable: true, Fit: { FromSingleFrames: false, Source: ReadNoiseSource.Fit, ReadNoise.RelativeHalfWidth: > DeepToneHalfWidth } })];
        if (shallow.Length > 0)
        {
            string width = Say.Percent(shallow.Max(l => l.Fit.ReadNoise!.Value.RelativeHalfWidth));
            yield return Findings.Of(FindingCode.NoDeepTone, shallow, $"{Findings.Names(shallow)}: the scene has too little deep dark, so read noise is known only to ± {width}. Two cap frames at each ISO settle it; nothing else need be shot again.");
        }
    }

    /// <summary>Tells levels that the ladder lacks; one that is there and left off is not missing.</summary>
    public static IEnumerable<Finding> Gaps(ImmutableArray<LevelDraft> levels)
    {
        foreach (var ladder in levels.Where(l => l.Ladder == LadderKind.Metered).GroupBy(l => l.Ladder))
        {
            if (Missing([.. ladder.Select(l => l.Shots.Iso).Distinct().Order()]) is [_, ..] missing)
                yield return new Finding(FindingCode.MissingLevel, [], $"Missing in the ladder: {Say.Isos(missing)}. Between levels that far apart the numbers are only carried over. Shoot two frames of each.", true);
        }
    }

    private static double[] Missing(double[] isos)
    {
        List<double> missing = [];
        for (int i = 1; i < isos.Length; i++)
        {
            int between = (int)Math.Ceiling(Math.Log2(isos[i] / isos[i - 1]) - MostGapStops);
            for (int k = 1; k <= between; k++) missing.Add(Math.Round(isos[i - 1] * Math.Pow(2, k)));
        }

        return [.. missing];
    }
}
