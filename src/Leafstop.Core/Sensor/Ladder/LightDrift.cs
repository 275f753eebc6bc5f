using System.Collections.Immutable;

namespace Leafstop.Core.Sensor;

/// <summary>Tells levels whose light differs from the rest, and what they would read at equal light.</summary>
internal static class LightDrift
{
    private const double ToldToneEv = -3;

    /// <summary>Flags levels that are off by more than 0.1 stop. They stay usable: gain and read noise do not depend on how much light there was.</summary>
    public static IEnumerable<Finding> Apply(ImmutableArray<LevelDraft> levels)
    {
        if (levels.Count(l => l.LightErrorStops is not null) < LadderReading.LeastLevels) yield break;
        foreach (LevelDraft level in levels)
        {
            string[] off = [.. level.Shots.Files.Where(f => level.FrameLightErrors.TryGetValue(f, out double e) && Math.Abs(e) > LightErrors.MostStops)];
            bool whole = level.LightErrorStops is { } error && Math.Abs(error) > LightErrors.MostStops;
            if (whole) level.Note(LevelFlag.LightDrift);
            if (!whole && (off.Length == 0 || IsOnePair(level, off))) continue;
            string[] frames = whole && off.Length == 0 ? [.. level.Shots.Files] : off;
            double stops = Median.Of(frames.Select(f => level.FrameLightErrors.GetValueOrDefault(f, level.LightErrorStops!.Value)));
            yield return new Finding(FindingCode.LightDrift, [.. frames], Text(level, frames.Length, stops), true);
        }
    }

    /// <summary>One frame of a pair that differs from its twin is told as flicker, not as drift.</summary>
    private static bool IsOnePair(LevelDraft level, string[] off) => off.Length == 1 && level.Shots.Files.Length <= 2;

    private static string Text(LevelDraft level, int count, double stops)
    {
        string more = stops > 0 ? "more" : "less";
        string times = count switch { 1 => "once", 2 => "twice", _ => $"{count} times" };
        string text = $"Shoot {level.Name} again, {times}. {Subject(level, count)} had {Say.Stops(stops)} {more} light than the rest.";
        if (level is { Ladder: LadderKind.Metered, IsUsable: true } && AtEqualLight(level, stops) is { } read)
            text += $" At equal light {(count == 1 ? "it reads" : "they read")} {Say.Number(read.Equal)} ± {Say.Percent(read.Share)} at \u22123 EV, not {Say.Number(read.Shot)}.";
        return text + " A lamp drifts while it warms: give it 15 minutes.";
    }

    private static string Subject(LevelDraft level, int count) => count == level.Shots.Files.Length ? Say.Frames(count) : count == 1 ? "One frame" : $"{count} of {level.Shots.Files.Length} frames";

    /// <summary>Signal-to-noise three stops below metered mid-grey: at equal light with its relative error (95 %), and as it was shot.</summary>
    private static (double Equal, double Share, double Shot)? AtEqualLight(LevelDraft level, double stops)
    {
        if (level.Fit is not { Gain: { } gain, ReadNoise: { } noise, SaturationElectrons: { } saturation }) return null;
        double equal = At(1, noise.Value, 0), shot = At(1, noise.Value, stops);
        double byGain = (At(gain.High / gain.Value, noise.Value, 0) - At(gain.Low / gain.Value, noise.Value, 0)) / 2;
        double byNoise = (At(1, noise.Low, 0) - At(1, noise.High, 0)) / 2;
        return (equal, Math.Max(0.01, Math.Sqrt(byGain * byGain + byNoise * byNoise) / equal), shot);

        double At(double scale, double read, double extra) =>
            MeteredTone.SignalToNoise(new NoiseModel(gain.Value, read, saturation * scale * Math.Pow(2, extra)), ToldToneEv);
    }
}
