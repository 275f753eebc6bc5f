using System.Runtime.InteropServices;

namespace Leafstop.Core.Quantities;

/// <summary>The marks that cameras and lenses carry, with the exact powers they stand for.</summary>
/// <remarks>Exact f-numbers 2^(k/6): source F3 (EXP-37). Exact times 2^(k/3) and speeds 100 · 2^(k/3): EXP-40, EXP-41. The engraved
/// roundings are common practice, no source (EXP-39 and EXP-40 are from memory, and so are the half-stop marks).</remarks>
public static class Marks
{
    private static readonly double[] FThirds =
    [
        1, 1.1, 1.2, 1.4, 1.6, 1.8, 2, 2.2, 2.5, 2.8, 3.2, 3.5, 4, 4.5, 5, 5.6, 6.3, 7.1, 8, 9, 10, 11, 13, 14, 16, 18, 20,
        22, 25, 29, 32, 36, 40, 45, 51, 57, 64,
    ];

    private static readonly double[] FHalves =
        [1, 1.2, 1.4, 1.7, 2, 2.4, 2.8, 3.3, 4, 4.8, 5.6, 6.7, 8, 9.5, 11, 13, 16, 19, 22, 27, 32, 38, 45, 54, 64];

    // Below zero: one over the number.
    private static readonly double[] TimeThirds =
    [
        -8000, -6400, -5000, -4000, -3200, -2500, -2000, -1600, -1250, -1000, -800, -640, -500, -400, -320, -250, -200, -160,
        -125, -100, -80, -60, -50, -40, -30, -25, -20, -15, -13, -10, -8, -6, -5, -4, 0.3, 0.4, 0.5, 0.6, 0.8, 1, 1.3, 1.6,
        2, 2.5, 3.2, 4, 5, 6, 8, 10, 13, 15, 20, 25, 30,
    ];

    private static readonly double[] TimeHalves =
    [
        -8000, -6000, -4000, -3000, -2000, -1500, -1000, -750, -500, -350, -250, -180, -125, -90, -60, -45, -30, -20, -15,
        -10, -8, -6, -4, 0.3, 0.5, 0.7, 1, 1.5, 2, 3, 4, 6, 8, 10, 15, 20, 30,
    ];

    private static readonly double[] IsoThirds =
    [
        0.8, 1, 1.2, 1.6, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 16, 20, 25, 32, 40, 50, 64, 80, 100, 125, 160, 200, 250, 320, 400, 500, 640, 800, 1000, 1250, 1600, 2000, 2500, 3200, 4000,
        5000, 6400, 8000, 10000, 12800, 16000, 20000, 25600, 32000, 40000, 51200, 64000, 80000, 102400, 128000, 160000,
        204800, 256000, 320000, 409600,
    ];

    private static readonly double[] IsoHalves =
    [
        0.8, 1.1, 1.6, 2.2, 3, 4.5, 6, 9, 12, 18, 25, 35, 50, 70, 100, 140, 200, 280, 400, 560, 800, 1100, 1600, 2200, 3200, 4500, 6400, 9000, 12800, 18000, 25600,
        36000, 51200, 72000, 102400, 144000, 204800, 288000, 409600,
    ];

    private static readonly MarkSeries[] FSeries = Three(FThirds, FHalves, 1, 2);
    private static readonly MarkSeries[] TimeSeries = Three(TimeThirds, TimeHalves, 1.0 / 8192, 1);
    private static readonly MarkSeries[] IsoSeries = Three(IsoThirds, IsoHalves, 25.0 / 32, 1);

    /// <summary>f-numbers from f/1 to f/64.</summary>
    public static MarkSeries FNumbers(DialStep step) => FSeries[(int)step];

    /// <summary>Exposure times from 1/8000 s to 30 s.</summary>
    public static MarkSeries Shutters(DialStep step) => TimeSeries[(int)step];

    /// <summary>ISO speeds from 0.8, far below any dial, to 409 600.</summary>
    public static MarkSeries Isos(DialStep step) => IsoSeries[(int)step];

    private static MarkSeries[] Three(double[] thirds, double[] halves, double first, double stopsPerDoubling) =>
    [
        Series(thirds, 3, first, stopsPerDoubling),
        Series(halves, 2, first, stopsPerDoubling),
        Series(thirds, 1, first, stopsPerDoubling, every: 3),
    ];

    // A loop into an array: a browser interprets what a query is made of line by line, at each start of the pocket page.
    private static MarkSeries Series(double[] labels, int marksPerStop, double first, double stopsPerDoubling, int every = 1)
    {
        Mark[] marks = new Mark[(labels.Length + every - 1) / every];
        for (int i = 0; i < marks.Length; i++)
        {
            double label = labels[i * every];
            marks[i] = new Mark(label < 0 ? -1 / label : label, first * Math.Pow(2, i / (marksPerStop * stopsPerDoubling)));
        }
        return new MarkSeries(ImmutableCollectionsMarshal.AsImmutableArray(marks), stopsPerDoubling);
    }
}
