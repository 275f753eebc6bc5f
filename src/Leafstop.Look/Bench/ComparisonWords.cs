using System.Globalization;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;

namespace Leafstop.Look.Bench;

/// <summary>Two tests of one body, in words.</summary>
/// <param name="Sentence">What differs.</param>
/// <param name="HowSure">How a difference was told from chance.</param>
/// <param name="Rows">Level by level; none where both tests are of the same frames.</param>
public sealed record ComparisonWords(string Sentence, string HowSure, IReadOnlyList<ComparisonRow> Rows)
{
    /// <summary>Puts a comparison into words.</summary>
    /// <param name="comparison">The comparison.</param>
    /// <param name="earlier">When the earlier test was, as it is told.</param>
    public static ComparisonWords Of(BenchComparison comparison, string earlier)
    {
        ArgumentNullException.ThrowIfNull(comparison);
        bool twoLadders = comparison.Levels.Select(l => l.Ladder).Distinct().Count() > 1;
        return new ComparisonWords(Told(comparison, earlier), Sure(comparison), comparison.IsOfSameFrames ? [] : [.. comparison.Levels.Select(l => RowOf(l, twoLadders))]);
    }

    private static string Told(BenchComparison comparison, string earlier)
    {
        if (comparison.Numbers == 0)
            return $"Nothing can be compared: no level holds in both this test and that of {earlier}.";
        if (comparison.IsOfSameFrames)
            return $"These are the frames of {earlier}, measured again: every number is the same to its last digit.";
        Iso[] noise = Where(comparison, l => l.ReadNoise), gain = Where(comparison, l => l.Gain), clip = Where(comparison, l => l.Saturation);
        List<string> parts = [];
        if (noise.Length > 0)
            parts.Add($"read noise at {Figures.Names(noise)}");
        if (gain.Length > 0)
            parts.Add($"the gain at {Figures.Names(gain)}");
        if (clip.Length > 0)
            parts.Add($"the clip at {Figures.Names(clip)}");
        return parts.Count == 0
            ? $"As on {earlier}: no number differs by more than its interval."
            : $"Since {earlier} there is a difference in {Figures.List(parts)}.";
    }

    private static string Sure(BenchComparison comparison) => comparison.Numbers == 0 || comparison.IsOfSameFrames ? ""
        : $"{BenchVerdict.Capital(Figures.Count(comparison.Numbers))} {(comparison.Numbers == 1 ? "number was" : "numbers were")} compared, each with its 95{Figures.NoBreak}% interval; a difference is called one only where all of them together would show such a one by chance in less than one comparison of twenty. "
        + "Where a range stands alone, no difference is seen. "
        + "Read noise also rises with a warmer sensor and a longer exposure: compare tests that were shot alike.";

    private static Iso[] Where(BenchComparison comparison, Func<LevelChange, Change?> number) =>
        [.. comparison.Levels.Where(l => number(l) is { IsDifferent: true }).Select(l => l.Iso).Distinct()];

    private static ComparisonRow RowOf(LevelChange level, bool namesLadder) => new(
        Figures.Speed(level.Iso) + (namesLadder ? $", {LevelWords.Ladder(level.Ladder).ToLower(CultureInfo.InvariantCulture)}" : ""),
        Said(level.Gain), Said(level.ReadNoise), Said(level.Saturation),
        level switch
        {
            { Before: false, Now: false } => "holds in neither test",
            { Before: false } => "did not hold or was not shot then",
            { Now: false } => "does not hold or was not shot now",
            _ => "",
        });

    /// <summary>"higher by 12 % (8 to 16 %)", "3 % lower to 2 % higher" where no difference is seen; empty for nothing to compare.</summary>
    private static string Said(Change? change)
    {
        if (change is not { } c)
            return "";
        (double low, double high) = (c.Ratio.Low - 1, c.Ratio.High - 1);
        if (!c.IsDifferent)
            return $"{Sided(low)} to {Sided(high)}";
        bool up = c.Ratio.Value > 1;
        return $"{(up ? "higher" : "lower")} by {Figures.Percent(Math.Abs(c.Ratio.Value - 1))}, {Figures.Percent(Math.Abs(up ? low : high))} to {Figures.Percent(Math.Abs(up ? high : low))}";
    }

    private static string Sided(double share) => $"{Figures.Percent(Math.Abs(share))} {(share < 0 ? "lower" : "higher")}";
}

/// <summary>One level of a comparison, in words. What cannot be compared is empty.</summary>
/// <param name="Iso">The level.</param>
/// <param name="Gain">Change of the gain.</param>
/// <param name="ReadNoise">Change of the read noise.</param>
/// <param name="ClipsAt">Change of the electrons at the clip.</param>
/// <param name="Remark">Why nothing is compared.</param>
public sealed record ComparisonRow(string Iso, string Gain, string ReadNoise, string ClipsAt, string Remark);
