using System.Globalization;

namespace Leafstop.Core.Sensor;

/// <summary>The metered ladder to shoot, in words.</summary>
internal static class ShotList
{
    private static readonly double[] Standard = [100, 200, 400, 800, 1600, 3200, 6400, 12800, 25600];

    /// <summary>The fastest time: under a lamp on 50 or 60 Hz mains a faster one flickers.</summary>
    private const double FastestSeconds = 1.0 / 30;

    /// <summary>Marks of whole and third stops from 30 s to 1/30 s, as cameras engrave them.</summary>
    private static readonly double[] Marks =
    [
        30, 25, 20, 15, 13, 10, 8, 6, 5, 4, 3.2, 2.5, 2, 1.6, 1.3, 1, 0.8, 0.6, 0.5, 0.4, 0.3,
        1 / 4.0, 1 / 5.0, 1 / 6.0, 1 / 8.0, 1 / 10.0, 1 / 13.0, 1 / 15.0, 1 / 20.0, 1 / 25.0, 1 / 30.0,
    ];

    /// <summary>What to shoot for "how high can I go": one time for each ISO, falling as ISO rises.</summary>
    /// <param name="isos">Levels that were shot; with fewer than three the standard whole stops are listed.</param>
    public static string Metered(IEnumerable<double> isos)
    {
        double[] levels = [.. isos.Distinct().Order()];
        if (levels.Length < LadderReading.LeastLevels) levels = Standard;
        double top = levels[^1];
        var lines = levels.Select(iso => $"{Say.Shutter(Mark(Math.Min(30, FastestSeconds * top / iso)))} at {Say.Iso(iso)}");
        return string.Create(CultureInfo.InvariantCulture, $"The metered ladder: one aperture (f/8), the lamp as it is, two frames each of {Say.List(lines)}; dim the lamp or stop down until the whites just do not clip. Then two cap frames at each ISO.");
    }

    private static double Mark(double seconds) => Marks.MinBy(m => Math.Abs(Math.Log2(m / seconds)));
}
