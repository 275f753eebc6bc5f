using System.Globalization;

namespace Leafstop.Core.Sensor;

/// <summary>Numbers as findings write them.</summary>
internal static class Say
{
    /// <summary>Thin space, which parts thousands from 10 000 on.</summary>
    private const string Thin = "\u2009";

    /// <summary>"ISO 800", "ISO 12 800".</summary>
    public static string Iso(double iso) => $"ISO\u00a0{Number(Math.Round(iso, iso < 100 ? 1 : 0))}";

    /// <summary>"0.4 stop", "1.2 stops"; size only, no sign.</summary>
    public static string Stops(double stops)
    {
        double size = Math.Abs(stops);
        string text = size.ToString("0.0", CultureInfo.InvariantCulture);
        return size < 1.05 ? $"{text} stop" : $"{text} stops";
    }

    /// <summary>A number with at most that many decimals; thousands parted from 10 000 on.</summary>
    public static string Number(double value, int decimals = 1)
    {
        string format = "0." + new string('#', decimals);
        if (Math.Abs(value) < 10000) return value.ToString(format, CultureInfo.InvariantCulture).Replace("-", "\u2212", StringComparison.Ordinal);
        return value.ToString("#,0", CultureInfo.InvariantCulture).Replace(",", Thin, StringComparison.Ordinal);
    }

    /// <summary>A share as "3 %".</summary>
    public static string Percent(double share) =>
        (share * 100).ToString(Math.Abs(share) < 0.0995 ? "0.#" : "0", CultureInfo.InvariantCulture) + " %";

    /// <summary>"1/30 s at f/8", "1/30 s", or "no stated time".</summary>
    public static string Exposure(LevelShots level) =>
        level.ShutterSeconds is not { } t ? "no stated time"
        : level.FNumber is { } n ? $"{Shutter(t)} f/{Number(n)}"
        : Shutter(t);

    /// <summary>A time as the camera shows it: "8 s", "0.5 s", "1/30 s".</summary>
    public static string Shutter(double seconds) => seconds > 0.29
        ? $"{Number(seconds)} s"
        : $"1/{Math.Round(1 / seconds).ToString("0", CultureInfo.InvariantCulture)} s";

    /// <summary>"a, b and c".</summary>
    public static string List(IEnumerable<string> items)
    {
        string[] all = [.. items];
        return all.Length < 2 ? string.Concat(all) : string.Join(", ", all[..^1]) + " and " + all[^1];
    }

    /// <summary>"ISO 100", "ISO 100 and 200", "ISO 100, 200 and 400".</summary>
    public static string Isos(IEnumerable<double> isos)
    {
        double[] all = [.. isos.Distinct().Order()];
        return all.Length == 0 ? "" : "ISO\u00a0" + List(all.Select(i => Number(Math.Round(i, i < 100 ? 1 : 0))));
    }

    /// <summary>"Both frames", "This frame", "All 4 frames", as the subject of a sentence in the past tense.</summary>
    public static string Frames(int count) => count switch { 1 => "This frame", 2 => "Both frames", _ => $"All {count} frames" };
}
