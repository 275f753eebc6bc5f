using Leafstop.Raw.Measurement;

namespace Leafstop.Benchmarks;

/// <summary>The full binned statistics of a pair as its measurement makes them: tile sums, noise by brightness, hot pixels left out.</summary>
internal static class RobustStatistics
{
    public static (TileSums Sums, PairNoise[] Noise, HotPixels Hot) Of(BenchPair pair)
    {
        TileSums sums = TileSummation.Of(pair.First, pair.Second, pair.Largest);
        double[] black = pair.BlackDn;
        int[] clip = pair.ClipDn, floor = pair.FloorDn;
        var noise = new PairNoise[sums.Layout.Planes];
        Parallel.For(0, noise.Length, p => noise[p] = new PairNoise(sums, p, black[p], clip[p], floor[p], null, null));
        HotPixels hot = HotPixels.In(pair.First, pair.Second, sums, noise, black, clip.Max(), isCap: false);
        Parallel.For(0, noise.Length, p =>
        {
            noise[p].LeaveOut(hot.TilesOfPlane![p]);
            _ = noise[p].Bins;
        });
        return (sums, noise, hot);
    }
}
