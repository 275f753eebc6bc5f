using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;

namespace Leafstop.Look.Bench;

/// <summary>How each number of a bench test is known, one sentence a number.</summary>
public static class Sources
{
    /// <summary>The sentences, in the order of the table's columns.</summary>
    public static IEnumerable<Statement> Of(BenchAnswer answer)
    {
        Level[] fitted = [.. answer.Levels.Where(l => l.GainElectronsPerDn is not null)];
        if (fitted.Length == 0)
            yield break;
        foreach (Statement s in Gain(fitted).Concat(ReadNoise(fitted)).Concat(Black(fitted)).Concat(Clip(fitted)))
            yield return s;
        yield return new Statement("Range is clip over read noise, in stops.", HowKnown.WorkedOut);
        yield return new Statement(
            $"Signal-to-noise at −3{Figures.NoBreak}EV is for one pixel, correctly metered, with mid-grey at {Figures.Fixed(LevelRow.MidGreyShare * 100, 1)}{Figures.NoBreak}% of clip as the ISO standard places it.",
            HowKnown.WorkedOut);
        if (answer.LiftOrDial.Length > 0 || answer.StopAt is not null)
            yield return new Statement("Lift or dial compares the gain, read noise and clip of two levels in one light.", HowKnown.WorkedOut);
        if (answer.PredictedLimits.Length > 0)
        {
            yield return new Statement("Clean and published acceptable come from the print criterion of ISO 12232, signal-to-noise 40 and 10.", HowKnown.WorkedOut);
            yield return new Statement("Stretch is signal-to-noise 20, between the two.", HowKnown.RuleOfThumb);
        }
    }

    private static IEnumerable<Statement> Gain(Level[] levels)
    {
        foreach ((Iso[] isos, bool all, bool single) in By(levels, l => (bool?)l.Flags.Contains(LevelFlag.SingleFrame)))
        {
            yield return new Statement(
                single
                    ? $"Gain{At(isos, all)} is the slope of noise against light, and noise is what differs between neighbouring points of one frame, where the scene is smooth. Some of the scene stays in it."
                    : $"Gain{At(isos, all)} is the slope of noise against light: two frames of one scene differ only by noise.",
                HowKnown.Measured);
        }
    }

    private static IEnumerable<Statement> ReadNoise(Level[] levels)
    {
        foreach ((Iso[] isos, bool all, ReadNoiseSource source) in By(levels, l => l.ReadNoiseSource))
        {
            yield return new Statement(
                source == ReadNoiseSource.CapFrames
                    ? $"Read noise{At(isos, all)} is the noise of the cap frames."
                    : $"Read noise{At(isos, all)} is the foot of the noise curve, extended to no light; cap frames would tell it better.",
                HowKnown.Measured);
        }
    }

    private static IEnumerable<Statement> Black(Level[] levels)
    {
        // The least certain plane speaks for its level.
        foreach ((Iso[] isos, bool all, BlackSource source) in By(levels, l => l.Planes.IsEmpty ? (BlackSource?)null : l.Planes.Max(p => p.BlackSource)))
        {
            yield return source switch
            {
                BlackSource.CapFrames => new Statement($"Black{At(isos, all)} is the mean of the cap frames.", HowKnown.Measured),
                BlackSource.MaskedPixels => new Statement($"Black{At(isos, all)} is the mean of the frame's masked border.", HowKnown.Measured),
                BlackSource.ExactTag => new Statement($"Black{At(isos, all)} is the value that the file states, fractions kept; it was not measured."),
                _ => new Statement($"Black{At(isos, all)} is the whole number that the raw library gives, which may be off by up to one raw unit; it was not measured."),
            };
        }
    }

    private static IEnumerable<Statement> Clip(Level[] levels)
    {
        foreach ((Iso[] isos, bool all, bool seen) in By(levels, l => l.SaturationElectrons is null ? (bool?)null : l.ClipSeen))
        {
            yield return seen
                ? new Statement($"The clip{At(isos, all)} was seen in the samples.", HowKnown.Measured)
                : new Statement($"No clip was seen{At(isos, all)}: it rests on the file's tag, times the gain.", HowKnown.WorkedOut);
        }
    }

    private static IEnumerable<(Iso[] Isos, bool All, T Key)> By<T>(Level[] levels, Func<Level, T?> key) where T : struct
    {
        var known = levels.Where(l => key(l) is not null).GroupBy(l => key(l)!.Value).OrderBy(g => g.Key).ToList();
        foreach (IGrouping<T, Level> group in known)
            yield return ([.. group.Select(l => l.Iso).Distinct().Order()], known.Count == 1 && group.Count() == levels.Length, group.Key);
    }

    private static string At(Iso[] isos, bool all) => all ? "" : $" at {Figures.Names(isos)}";
}
