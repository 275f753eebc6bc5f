using Leafstop.Core.Sensor;
using Leafstop.Raw.Frames;

namespace Leafstop.Raw.Measurement;

/// <summary>Measures two frames with the same settings.</summary>
internal static class PairMeasurement
{
    /// <summary>Below this likeness after alignment, two frames do not show the same framing.</summary>
    private const double LeastLikeness = 0.9;

    /// <summary>... provided that they differ by more than this share of the mean brightness: an evenly lit wall is like itself only in that.</summary>
    private const double LeastDifference = 0.05;

    /// <summary>Two frames of the same settings whose light differs by more than half a stop are not two tries of one thing.</summary>
    private const double MostRatio = 1.4142135623730951;

    /// <summary>The pair, its hot pixels and its tile sums; no sums for two frames that are no pair.</summary>
    public static (PairSurvey Pair, HotPixels Hot, TileSums? Sums) Survey(FrameInHand first, FrameInHand second)
    {
        MosaicFrame a = first.Frame, b = second.Frame;
        bool isCap = first.IsCap;
        if (!isCap && LightRatio(first, second) is > MostRatio or < 1 / MostRatio) return (FalsePair(first, second), default, null);
        Alignment? alignment = isCap ? null : Alignment.Of(a, b);
        if (alignment is { Likeness: < LeastLikeness } && alignment.Value.DifferenceDn > LeastDifference * first.MeanSignalDn) return (FalsePair(first, second), default, null);

        TileSums sums = TileSummation.Of(a, b, Math.Max(first.Largest, second.Largest));
        TileLayout layout = sums.Layout;
        double[] black = [.. first.BlackDn.Zip(second.BlackDn, (x, y) => (x + y) / 2)];
        int[] clip = [.. first.ClipDn.Zip(second.ClipDn, Math.Min)], floor = [.. first.FloorDn.Zip(second.FloorDn, Math.Max)];
        var noise = new PairNoise[layout.Planes];
        Parallel.For(0, noise.Length, p => noise[p] = new PairNoise(sums, p, black[p], clip[p], floor[p], first.Offsets, second.Offsets));
        HotPixels hot = HotPixels.In(a, b, sums, noise, black, clip.Max(), isCap);
        var planes = new PairPlane[noise.Length];
        Parallel.For(0, noise.Length, p =>
        {
            noise[p].LeaveOut(hot.TilesOfPlane![p]);
            planes[p] = PlaneOf(a, b, sums, p, noise[p], black[p]);
        });
        var pair = new PairSurvey
        {
            First = a.Header.File,
            Second = b.Header.File,
            IsCap = isCap,
            ShiftXPx = Known(alignment?.ShiftXPx),
            ShiftYPx = Known(alignment?.ShiftYPx),
            ShiftErrorPx = Known(alignment?.ErrorPx),
            Detail = isCap ? null : SharedDetail.Of(a, b, layout, black[layout.BrightPlane], clip[layout.BrightPlane]),
            Planes = [.. planes],
        };
        return (pair, hot, sums);
    }

    private static double? Known(double? value) => value is { } v && double.IsFinite(v) ? v : null;

    /// <summary>Brightness of the first frame over the second, all planes together: enough to tell two tries of one thing from two things.</summary>
    private static double LightRatio(FrameInHand first, FrameInHand second)
    {
        PairSums[] sites = PairSums.OfSites(first.Frame, second.Frame);
        long samples = sites.Sum(s => s.Samples);
        double a = (double)sites.Sum(s => s.SumFirst) / samples - first.BlackDn.Average(), b = (double)sites.Sum(s => s.SumSecond) / samples - second.BlackDn.Average();
        // A mean within a raw step of black has no brightness to compare.
        return a < 1 || b < 1 ? 1 : a / b;
    }

    private static double Ratio(PairNoise noise) => (1 + noise.Imbalance) / (1 - noise.Imbalance);

    private static PairSurvey FalsePair(FrameInHand first, FrameInHand second) => new()
    {
        First = first.Frame.Header.File,
        Second = second.Frame.Header.File,
        IsCap = first.IsCap,
        IsFalsePair = true,
        Planes = [],
    };

    private static PairPlane PlaneOf(MosaicFrame a, MosaicFrame b, TileSums sums, int plane, PairNoise noise, double blackDn)
    {
        Whiteness white = noise.Bins.IsEmpty ? default : Whiteness.Of(a, b, sums, plane, noise, blackDn);
        return new PairPlane
        {
            Plane = sums.Layout.PlaneNames[plane],
            Bins = noise.Bins,
            Tiles = sums.Layout.Count,
            ClippedTiles = noise.ClippedTiles,
            RestlessTiles = noise.RestlessTiles,
            BrightnessRatio = Ratio(noise),
            RowNoiseDn = white.RowNoiseDn,
            RowNoiseErrorDn2 = double.IsFinite(white.RowNoiseErrorDn2) ? white.RowNoiseErrorDn2 : 0,
            ColumnNoiseDn = white.ColumnNoiseDn,
            CorrelationX = white.CorrelationX,
            CorrelationY = white.CorrelationY,
            CorrelationSamples = white.CorrelationSamples,
        };
    }
}
