using System.Collections.Immutable;
using Leafstop.Core.Quantities;
using MathNet.Numerics.Distributions;

namespace Leafstop.Core.Sensor;

/// <summary>What a test says of one level, for setting it beside another test of the same body.</summary>
/// <param name="Iso">ISO as the camera labels it.</param>
/// <param name="Ladder">The ladder that the level belongs to.</param>
/// <param name="GainElectronsPerDn">Gain, e⁻/DN, with its 95 % interval; null when unknown.</param>
/// <param name="ReadNoiseElectrons">Read noise, e⁻, with its 95 % interval; null when unknown.</param>
/// <param name="SaturationElectrons">Electrons at the clip that was seen; null when none was seen, for a clip by the file's tag is no measurement.</param>
/// <param name="Usable">False when the level was left off.</param>
public sealed record ComparedLevel(Iso Iso, LadderKind Ladder, Estimate? GainElectronsPerDn, Estimate? ReadNoiseElectrons, double? SaturationElectrons, bool Usable);

/// <summary>How a number changed from one test to the next.</summary>
/// <param name="Ratio">Now over before, with its 95 % interval.</param>
/// <param name="IsDifferent">True when a difference is seen though many numbers were compared at once.</param>
public readonly record struct Change(Estimate Ratio, bool IsDifferent);

/// <summary>How one level changed. A number that either test lacks is null.</summary>
/// <param name="Iso">ISO as the camera labels it.</param>
/// <param name="Ladder">The ladder of the level.</param>
/// <param name="Gain">Change of the gain.</param>
/// <param name="ReadNoise">Change of the read noise.</param>
/// <param name="Saturation">Change of the electrons at the clip.</param>
/// <param name="Before">False when the earlier test lacks the level or left it off.</param>
/// <param name="Now">False when the new test lacks it or left it off.</param>
public sealed record LevelChange(Iso Iso, LadderKind Ladder, Change? Gain, Change? ReadNoise, Change? Saturation, bool Before, bool Now);

/// <summary>Two tests of one body, level by level.</summary>
/// <remarks>
/// The ratio of two independent measurements has the relative variances of both added (JCGM 100:2008, 5.1.6, formula (12)); taken on logarithms, so that an interval never reaches below zero.
/// The electrons at a seen clip are gain times a raw value that is known to a step, so that their interval is that of the gain.
/// With dozens of numbers one in twenty would fall outside its 95 % interval by chance: a difference is called seen only where the interval for one in twenty over <em>all</em> numbers
/// (Bonferroni: 0.05 shared out over them) leaves out 1. Range: intervals that are finite and above zero; others are not compared. The intervals hold what the frames tell: a warmer sensor
/// or another exposure time is a real difference of read noise and is seen as one.
/// </remarks>
public sealed record BenchComparison
{
    /// <summary>Every level of either test, by ladder, then by ISO.</summary>
    public required ImmutableArray<LevelChange> Levels { get; init; }

    /// <summary>How many numbers were compared.</summary>
    public required int Numbers { get; init; }

    /// <summary>True when all numbers, more than one, are alike to the last digit: noise never falls twice alike, so both tests are of the same frames, and their intervals say nothing of a change.</summary>
    public bool IsOfSameFrames => Numbers > 1 && Levels.SelectMany(l => (Change?[])[l.Gain, l.ReadNoise, l.Saturation]).All(c => c is not { } change || Math.Abs(change.Ratio.Value - 1) < 1e-12);

    /// <summary>Compares two tests. Levels are matched by ISO and ladder.</summary>
    /// <param name="before">The earlier test.</param>
    /// <param name="now">The later test.</param>
    public static BenchComparison Of(IEnumerable<ComparedLevel> before, IEnumerable<ComparedLevel> now)
    {
        Dictionary<(double, LadderKind), ComparedLevel> earlier = ByLevel(before), later = ByLevel(now);
        (LevelChange Bare, ComparedLevel? Before, ComparedLevel? Now)[] matched =
        [
            .. earlier.Keys.Union(later.Keys).OrderBy(k => k.Item2).ThenBy(k => k.Item1).Select(key =>
            {
                ComparedLevel? one = earlier.GetValueOrDefault(key), other = later.GetValueOrDefault(key);
                return (new LevelChange(Iso.FromSpeed(key.Item1), key.Item2, null, null, null, one is { Usable: true }, other is { Usable: true }), one, other);
            }),
        ];
        int numbers = matched.Sum(m => m.Bare is { Before: true, Now: true } ? Ratios(m.Before!, m.Now!).Count(r => r is not null) : 0);
        double widening = numbers < 2 ? 1 : Normal.InvCDF(0, 1, 1 - (0.025 / numbers)) / Estimate.Normal95;
        return new BenchComparison
        {
            Numbers = numbers,
            Levels =
            [
                .. matched.Select(m =>
                {
                    if (m.Bare is not { Before: true, Now: true })
                        return m.Bare;
                    Change?[] changes = [.. Ratios(m.Before!, m.Now!).Select(r => r is { } ratio ? new Change(ratio, IsDifferent(ratio, widening)) : (Change?)null)];
                    return m.Bare with { Gain = changes[0], ReadNoise = changes[1], Saturation = changes[2] };
                }),
            ],
        };
    }

    private static Dictionary<(double, LadderKind), ComparedLevel> ByLevel(IEnumerable<ComparedLevel> levels) =>
        levels.GroupBy(l => (l.Iso.Speed, l.Ladder)).ToDictionary(g => g.Key, g => g.FirstOrDefault(l => l.Usable) ?? g.First());

    private static Estimate?[] Ratios(ComparedLevel before, ComparedLevel now)
    {
        Estimate? gain = Ratio(before.GainElectronsPerDn, now.GainElectronsPerDn);
        return [gain, Ratio(before.ReadNoiseElectrons, now.ReadNoiseElectrons), gain is null ? null : Ratio(Clip(before), Clip(now))];
    }

    private static Estimate? Clip(ComparedLevel level) => level is { SaturationElectrons: { } clip, GainElectronsPerDn: { } gain } && clip > 0
        ? new Estimate(clip, clip * gain.Low / gain.Value, clip * gain.High / gain.Value)
        : null;

    /// <summary>Ratio of two independent estimates; null unless both lie, with their intervals, above zero.</summary>
    private static Estimate? Ratio(Estimate? before, Estimate? now)
    {
        if (before is not { Low: > 0 } b || now is not { Low: > 0 } n || !double.IsFinite(b.High) || !double.IsFinite(n.High))
            return null;
        double one = HalfWidth(b), other = HalfWidth(n), half = Math.Sqrt((one * one) + (other * other)), ratio = n.Value / b.Value;
        return new Estimate(ratio, ratio * Math.Exp(-half), ratio * Math.Exp(half));
    }

    private static double HalfWidth(Estimate of) => Math.Log(of.High / of.Low) / 2;

    private static bool IsDifferent(Estimate ratio, double widening) => Math.Abs(Math.Log(ratio.Value)) > widening * HalfWidth(ratio);
}
