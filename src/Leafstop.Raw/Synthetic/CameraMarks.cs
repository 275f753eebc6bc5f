namespace Leafstop.Raw.Synthetic;

/// <summary>Shutter marks as cameras write them for exact powers of two in thirds of a stop.</summary>
/// <remarks>Common practice, no source: 1/32 s is written 1/30, 2^(2/3) s is written 1.6.</remarks>
internal static class CameraMarks
{
    private static readonly double[] Slow =
        [1, 1.3, 1.6, 2, 2.5, 3.2, 4, 5, 6, 8, 10, 13, 15, 20, 25, 30];

    private static readonly double[] FastDenominators =
        [1, 1.25, 1 / 0.6, 2, 2.5, 1 / 0.3, 4, 5, 6, 8, 10, 13, 15, 20, 25, 30, 40, 50, 60, 80, 100, 125, 160, 200, 250,
         320, 400, 500, 640, 800, 1000, 1250, 1600, 2000, 2500, 3200, 4000, 5000, 6400, 8000];

    /// <summary>The mark at the nearest third of a stop; outside 1/8000 to 30 s the time itself.</summary>
    public static double Shutter(double seconds)
    {
        int thirds = (int)Math.Round(3 * Math.Log2(seconds));
        return thirds >= 0
            ? thirds < Slow.Length ? Slow[thirds] : seconds
            : -thirds < FastDenominators.Length ? 1 / FastDenominators[-thirds] : seconds;
    }
}
