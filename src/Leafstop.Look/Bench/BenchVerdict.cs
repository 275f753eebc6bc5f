using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;

namespace Leafstop.Look.Bench;

/// <summary>The answer of a bench test in three sentences: the verdict, what follows, and how sure that is. Every surface prints these words.</summary>
/// <param name="Sentence">The verdict, with its full stop.</param>
/// <param name="Second">What follows from it.</param>
/// <param name="HowSure">How sure the numbers are; null when there are none.</param>
public sealed record BenchVerdict(string Sentence, Statement Second, Statement? HowSure)
{
    /// <summary>Finds the words.</summary>
    public static BenchVerdict Of(BenchAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        if (!answer.HasAnswer)
            return new BenchVerdict($"I cannot measure this camera: {WhyNot(answer)}", new Statement(InsteadOfAnAnswer(answer)), null);
        return new BenchVerdict(Ladder(answer) + (Unread(answer) ?? Again(answer)), Consequence(answer), Sureness(answer));
    }

    /// <summary>Files that were not read, or not whole: to be mended before anything is shot again, for that may be all that is amiss. Null when there are none.</summary>
    private static string? Unread(BenchAnswer answer)
    {
        string[] Files(params FindingCode[] codes) => [.. answer.Findings.Where(f => codes.Contains(f.Code)).SelectMany(f => f.Frames).Distinct(StringComparer.Ordinal)];
        string[] gone = Files(FindingCode.FolderGone), unread = Files(FindingCode.Unreadable, FindingCode.Damaged, FindingCode.FolderGone);
        if (unread.Length == 0)
            return null;
        int all = answer.Levels.SelectMany(l => l.Frames.Concat(l.CapFrames)).Concat(unread).Distinct(StringComparer.Ordinal).Count();
        string share = $"{Figures.Fixed(unread.Length, 0)} of {Figures.Fixed(all, 0)} files";
        return gone.Length > 0
            ? $" The folder went away while it was read: {share} are not measured. Put it back and measure again."
            : $" {share} could not be read whole: see to {(unread.Length == 1 ? "it" : "them")} and measure again before you shoot anything again.";
    }

    /// <summary>ISO levels of which a finding asks for new frames, by ISO.</summary>
    public static IReadOnlyList<Iso> Reshoot(BenchAnswer answer)
    {
        var asked = answer.Findings.Where(f => f.Reshoot).SelectMany(f => f.Frames).ToHashSet(StringComparer.Ordinal);
        return [.. answer.Levels.Where(l => l.Frames.Concat(l.CapFrames).Any(asked.Contains)).Select(l => l.Iso).Distinct().Order()];
    }

    private static string Ladder(BenchAnswer answer) => answer.Ladder switch
    {
        LadderKind.Metered => Metered(answer),
        LadderKind.SameLight => "The same light in all: this answers dial or lift, not how high you can go.",
        LadderKind.Mixed => "Two ladders in one folder: one metered, one in the same light.",
        _ => NoLadder([.. answer.Levels.Where(l => l.Usable).Select(l => l.Iso).Distinct()]),
    };

    private static string NoLadder(Iso[] isos) => isos.Length == 1
        ? $"I measured {Figures.Name(isos[0])} alone, and one level makes no ladder."
        : $"I measured {Figures.Names(isos)}, but they make no ladder.";

    private static string Metered(BenchAnswer answer)
    {
        if (Unread(answer) is not null || answer.Findings.Any(f => f.Reshoot))
            return "A metered ladder.";
        Level[] off = [.. answer.Levels.Where(l => !l.Usable)];
        if (off.Length == 0)
            return "A sound metered ladder.";
        Iso top = answer.Levels.Where(l => l.Usable).Max(l => l.Iso)!;
        return off.All(l => l.Iso > top)
            ? $"A metered ladder, sound up to {Figures.Name(top)}."
            : $"A metered ladder. {Capital(Figures.Count(off.Length))} {(off.Length == 1 ? "level is" : "levels are")} left off.";
    }

    private static string Again(BenchAnswer answer)
    {
        IReadOnlyList<Iso> again = Reshoot(answer);
        return again.Count switch
        {
            0 when answer.Findings.Any(f => f is { Reshoot: true, Code: FindingCode.MissingLevel }) => $" {(answer.Ladder == LadderKind.Mixed ? "The metered one" : "It")} is not complete: shoot what is missing.",
            0 => answer.Findings.Any(f => f.Reshoot) ? " Something is to be shot again." : "",
            <= 3 => $" Shoot {Figures.Names(again)} again.",
            _ => $" Shoot {Figures.Count(again.Count)} levels again.",
        };
    }

    private static Statement Consequence(BenchAnswer answer)
    {
        if (answer.Ladder == LadderKind.SameLight)
        {
            return answer.StopAt is { } stop
                ? new Statement($"Stop at {Figures.Name(stop)} and lift the rest.", HowKnown.WorkedOut)
                : new Statement("For how high you can go, shoot the metered ladder: at each ISO the shutter that meters right.");
        }

        Level[] usable = [.. answer.Levels.Where(l => l is { Usable: true, ReadNoiseElectrons: not null }).OrderBy(l => l.Iso)];
        if (answer.GainSteps.Length > 0)
        {
            GainStep step = answer.GainSteps[^1];
            string between = $"between ISO{Figures.NoBreak}{Figures.Speed(step.Below)} and {Figures.Speed(step.Above)}: that is the step of this camera.";
            return Noise(usable, step.Below) is { } before && Noise(usable, step.Above) is { } after
                ? new Statement($"Read noise drops from {Figures.Fixed(before, 1)} to {Figures.Fixed(after, 1)} electrons {between}", HowKnown.Measured)
                : new Statement($"Read noise drops {between}", HowKnown.Measured);
        }

        return usable.Length switch
        {
            0 => new Statement("No read noise could be measured."),
            1 when usable[0].ReadNoiseElectrons!.Value is { RelativeHalfWidth: > 0.5 } wide => new Statement(
                $"Read noise lies between {Figures.Fixed(Math.Max(0, wide.Low), 1)} and {Figures.Fixed(wide.High, 1)} electrons at {Figures.Name(usable[0].Iso)}.", HowKnown.Measured),
            1 => new Statement($"Read noise is {Figures.Fixed(usable[0].ReadNoiseElectrons!.Value.Value, 1)} electrons at {Figures.Name(usable[0].Iso)}.", HowKnown.Measured),
            _ => new Statement(
                $"Read noise goes from {Figures.Fixed(usable[0].ReadNoiseElectrons!.Value.Value, 1)} electrons at {Figures.Name(usable[0].Iso)} to {Figures.Fixed(usable[^1].ReadNoiseElectrons!.Value.Value, 1)} at {Figures.Name(usable[^1].Iso)}; no step is seen.",
                HowKnown.Measured),
        };
    }

    private static Statement? Sureness(BenchAnswer answer)
    {
        Level[] usable = [.. answer.Levels.Where(l => l.Usable)];
        List<string> parts = [];
        // A lone frame among pairs says so at its own line; it must not speak for the others.
        Level[] paired = [.. usable.Where(l => !l.Flags.Contains(LevelFlag.SingleFrame))], speaking = paired.Length > 0 ? paired : [.. usable];
        if (Worst(speaking.Select(l => l.ReadNoiseElectrons)) is { } noise)
            parts.Add($"read noise to ±{Figures.NoBreak}{Figures.Percent(noise)}");
        if (Worst(speaking.Select(l => l.GainElectronsPerDn)) is { } gain)
            parts.Add($"gain to ±{Figures.NoBreak}{Figures.Percent(gain)}");
        if (parts.Count == 0)
            return null;
        int pairs = paired.Sum(l => l.Frames.Length / 2);
        string from = pairs switch
        {
            0 => "single frames",
            1 => "one pair of frames",
            _ => $"{Figures.Count(pairs)} pairs of frames",
        };
        return new Statement($"{Capital(string.Join(", ", parts))} or better, 95{Figures.NoBreak}% intervals, on this body from {from}.", HowKnown.Measured);
    }

    private static double? Worst(IEnumerable<Estimate?> estimates)
    {
        double[] widths = [.. estimates.OfType<Estimate>().Select(e => e.RelativeHalfWidth).Where(double.IsFinite)];
        return widths.Length == 0 ? null : widths.Max();
    }

    private static double? Noise(Level[] levels, Iso iso) => levels.FirstOrDefault(l => l.Iso == iso)?.ReadNoiseElectrons?.Value;

    private static string WhyNot(BenchAnswer answer)
    {
        bool Has(FindingCode code) => answer.Findings.Any(f => f.Code == code);
        if (Has(FindingCode.FolderGone))
            return "the folder went away while it was read.";
        if (Has(FindingCode.JpegOnly))
            return "there are only JPEGs, and no limit can be set from them.";
        if (answer.Levels.Length == 0)
        {
            return Has(FindingCode.TwoBodies) ? "the frames come from more than one body."
                : Has(FindingCode.TwoSizes) ? "the frames have more than one size."
                : answer.Camera is not null ? "there are only lens-cap frames."
                : Has(FindingCode.Unreadable) ? "no raw file here could be read."
                : answer.Findings.Any(f => f is { Code: FindingCode.NoLadder, Frames.Length: > 0 }) ? "no frame states its ISO."
                : "no raw frames were found.";
        }

        return answer.Levels.Length switch
        {
            1 => $"its only level, {Figures.Name(answer.Levels[0].Iso)}, is left off.",
            2 => "both levels are left off.",
            _ => $"all {Figures.Count(answer.Levels.Length)} levels are left off.",
        };
    }

    private static string InsteadOfAnAnswer(BenchAnswer answer)
    {
        if (answer.Findings.Any(f => f.Code == FindingCode.FolderGone))
            return "Put it back, or the card or disk that it lies on, and measure again.";
        string[] reasons = [.. answer.Levels.Select(l => l.Reason).OfType<string>().Distinct(StringComparer.Ordinal)];
        if (reasons.Length == 1)
            return reasons[0];
        return reasons.Length > 1
            ? "Each level says below why it is left off."
            : "Two raw frames at each ISO, tripod still, one lamp: that is all it needs.";
    }

    /// <summary>A text as the begin of a sentence.</summary>
    public static string Capital(string text) => text.Length == 0 ? text : char.ToUpperInvariant(text[0]) + text[1..];
}
