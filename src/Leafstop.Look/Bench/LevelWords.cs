using System.Globalization;
using Leafstop.Core.Sensor;

namespace Leafstop.Look.Bench;

/// <summary>What is said of a level in the last column of the table.</summary>
public static class LevelWords
{
    /// <summary>The remark: the step, then every flag; "left off" at the end when the level is not usable.</summary>
    public static string Remark(Level level, bool isAboveStep)
    {
        List<string> parts = isAboveStep && level.Usable ? ["step"] : [];
        parts.AddRange(level.Flags.Select(f => Flag(f, level)));
        string said = string.Join("; ", parts);
        if (level.Usable)
            return said;
        return said.Length == 0 ? "left off" : $"{said}: left off";
    }

    /// <summary>Why a level is not among those that are judged.</summary>
    /// <param name="level">The level.</param>
    /// <param name="why">The reason in a sentence; null where the level itself says it.</param>
    public static string NotShown(Level level, string? why) =>
        $"{Figures.Name(level.Iso)} is not shown: {(why is null ? null : Figures.Uncapital(why)) ?? $"it is left off the curve ({Remark(level, isAboveStep: false)})."}";

    /// <summary>Words for the kind of ladder, as a heading.</summary>
    public static string Ladder(LadderKind kind) => kind switch
    {
        LadderKind.Metered => "Metered ladder",
        LadderKind.SameLight => "Same-light ladder",
        LadderKind.Mixed => "Two ladders",
        _ => "No ladder",
    };

    /// <summary>"0.4 stop more light", "0.2 stop less light".</summary>
    public static string Light(double stops) =>
        $"{Figures.Fixed(Math.Abs(stops), Math.Abs(stops) < 0.095 ? 2 : 1)}{Figures.NoBreak}stop {(stops > 0 ? "more" : "less")} light";

    private static string Flag(LevelFlag flag, Level level) => flag switch
    {
        LevelFlag.Smoothed => "smoothed in camera",
        LevelFlag.Arithmetic => "arithmetic on another ISO",
        LevelFlag.Pulled => "pulled, clips lower",
        LevelFlag.Clipped => "whites clipped",
        LevelFlag.BlackClipped => "blacks cut off",
        LevelFlag.Moved => "tripod moved",
        LevelFlag.LightDrift => level.LightErrorStops is { } stops && double.IsFinite(stops) ? $"{Light(stops)}; S/N at equal light" : "light differs",
        LevelFlag.Banded => "rows or columns stand out",
        LevelFlag.HotPixels => $"{Figures.Fixed(level.HotPixels, 0)} hot pixels, counted apart",
        LevelFlag.Lossy => "lossy raw",
        LevelFlag.SingleFrame => "no pair, wider interval",
        LevelFlag.BitDepth => "fewer bits",
        LevelFlag.NotLinear => "not a straight line, wider interval",
        LevelFlag.Damaged => "a file is damaged",
        LevelFlag.NotFitted => "no noise curve",
        _ => CamelCase(flag),
    };

    /// <summary>The name of an enum member as the JSON contract writes it.</summary>
    public static string CamelCase<T>(T value) where T : struct, Enum
    {
        string name = value.ToString();
        return char.ToLower(name[0], CultureInfo.InvariantCulture) + name[1..];
    }
}
