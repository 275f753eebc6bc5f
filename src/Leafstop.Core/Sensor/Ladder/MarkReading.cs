namespace Leafstop.Core.Sensor;

/// <summary>How the numbers in the files are meant: as engraved marks, which stand for exact powers of two, or as written.</summary>
/// <param name="ShutterIsMark">1/60 means 1/64.</param>
/// <param name="ApertureIsMark">f/11 means f/11.31.</param>
/// <param name="IsoIsMark">500 means 503.97.</param>
internal sealed record MarkReading(bool ShutterIsMark, bool ApertureIsMark, bool IsoIsMark)
{
    /// <summary>Marks lie at most this far from the exact third of a stop (0.3 s against 0.315 s: 0.07).</summary>
    private const double MostMarkStops = 0.12;

    /// <summary>Every combination, marks first.</summary>
    public static IEnumerable<MarkReading> All =>
        Enumerable.Range(0, 8).Select(i => new MarkReading((i & 1) == 0, (i & 2) == 0, (i & 4) == 0));

    /// <summary>Stops of light that the settings give apart from ISO, up to a constant; null without a stated time.</summary>
    public double? Light(LevelShots level) => level.ShutterSeconds is { } t
        ? Read(Math.Log2(t), ShutterIsMark) - Read(2 * Math.Log2(level.FNumber ?? 1), ApertureIsMark)
        : null;

    /// <summary>ISO in stops above 100.</summary>
    public double Speed(LevelShots level) => Read(Math.Log2(level.Iso / 100), IsoIsMark);

    private static double Read(double stops, bool isMark)
    {
        double third = Math.Round(stops * 3) / 3;
        return isMark && Math.Abs(third - stops) <= MostMarkStops ? third : stops;
    }
}
