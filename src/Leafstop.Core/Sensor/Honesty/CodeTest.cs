using System.Collections.Immutable;

namespace Leafstop.Core.Sensor;

/// <summary>What the raw codes in use tell: arithmetic on another ISO, fewer bits, a tone curve.</summary>
/// <remarks>Digital gain leaves codes empty in a comb (SEN-49: at twice the gain every second code). The same thinning at all levels is the camera's
/// way of storing, not arithmetic. Codes that are all multiples of 2, 4, … at some levels only are either a lower bit depth or a digital push;
/// a push doubles the spacing with each stop above the last full level and runs to the top of the ladder, a bit depth does neither.</remarks>
internal static class CodeTest
{
    private const double GappedShare = 0.03;
    private const long LeastGaps = 20;

    /// <summary>Fails arithmetic levels and levels of fewer bits.</summary>
    public static IEnumerable<Finding> Apply(ImmutableArray<LevelDraft> levels)
    {
        int usualStep = levels.IsEmpty ? 1 : levels.Min(l => Step(l.Shots));
        LevelDraft[] coarse = [.. levels.Where(l => Step(l.Shots) > usualStep)];
        LevelDraft[] pushed = [.. coarse.Where(l => IsPush(l, levels, usualStep))];
        LevelDraft[] fewer = [.. coarse.Except(pushed)];
        LevelDraft[] gapped = [.. levels.Except(coarse).Where(l => IsGapped(l.Shots))];
        bool throughout = gapped.Length * 2 > levels.Length && levels.Length > 1;

        foreach (LevelDraft level in fewer)
            level.Fail(LevelFlag.BitDepth, $"{level.Name} uses only every {Ordinal(Step(level.Shots) / usualStep)} raw value that the other levels use: a shutter or burst mode with fewer bits. A test of its own.");
        if (fewer.Length > 0)
            yield return Findings.Of(FindingCode.BitDepth, fewer, $"{Findings.Names(fewer)}: fewer bits than the other levels. Silent shutter and bursts often drop some. It is a test of its own: left off the curve.", true);

        if (throughout)
            yield return new Finding(FindingCode.GapsThroughout, [], "Raw values are missing at most levels: the camera stores them with a tone curve or stretched from fewer bits. It is alike at all ISO settings, so none is called arithmetic.");

        LevelDraft[] arithmetic = throughout ? pushed : [.. pushed, .. gapped];
        foreach (LevelDraft level in arithmetic)
            level.Fail(LevelFlag.Arithmetic, $"{level.Name} is arithmetic on another ISO: raw values are missing in a comb. It is no sensor level of its own.");
        if (arithmetic.Length > 0)
        {
            string them = arithmetic.Length == 1 ? "is" : "are";
            yield return Findings.Of(FindingCode.Arithmetic, arithmetic, $"{Findings.Names(arithmetic)} {them} arithmetic on another ISO: raw values are missing in a comb. The noise is that of the setting below, lifted in camera, with less room for highlights. Left off the curve; nothing to reshoot.");
        }
    }

    private static int Step(LevelShots level) => level.Frames.Max(f => f.Planes.Min(p => p.CodeStep));

    private static bool IsGapped(LevelShots level)
    {
        long candidates = level.Frames.Sum(f => f.Planes.Sum(p => p.GapCandidates)), gaps = level.Frames.Sum(f => f.Planes.Sum(p => p.Gaps));
        return gaps >= LeastGaps && gaps > GappedShare * candidates;
    }

    private static bool IsPush(LevelDraft level, ImmutableArray<LevelDraft> levels, int usualStep)
    {
        double[] full = [.. levels.Where(l => Step(l.Shots) == usualStep).Select(l => l.Shots.Iso)];
        if (full.Length == 0 || level.Shots.Iso < full.Max()) return false;
        double stopsAbove = Math.Log2(level.Shots.Iso / full.Max());
        return Math.Abs(stopsAbove - Math.Log2((double)Step(level.Shots) / usualStep)) < 0.4;
    }

    private static string Ordinal(int step) => step switch { 2 => "second", 4 => "fourth", 8 => "eighth", 16 => "sixteenth", _ => $"{step}th" };
}
