using MathNet.Numerics.Distributions;

namespace Leafstop.Raw.Measurement;

/// <summary>Finds the tiles of one plane of a pair that changed far more than noise does.</summary>
/// <remarks>
/// A restless tile is one whose variance lies further above the line through the medians of all intervals than noise reaches once in
/// 50 million tiles: something moved there, or a pixel flickers.
/// </remarks>
internal static class RestlessTiles
{
    private const int LeastTilesForMedian = 5, EnoughForMedian = 512;

    /// <summary>One-sided Gaussian point of 2 · 10⁻⁸.</summary>
    private const double Sigma = 5.5;

    /// <summary>The restless ones among the tiles that take part.</summary>
    /// <param name="kept">By tile: whether it takes part.</param>
    /// <param name="means">By tile: its mean, DN.</param>
    /// <param name="intervalOf">By tile: the interval of its mean.</param>
    /// <param name="intervals">How many intervals there are.</param>
    /// <param name="variance">The variance of a tile.</param>
    /// <param name="freedom">Degrees of freedom of that variance.</param>
    /// <param name="blackDn">Black level.</param>
    public static List<int> Of(bool[] kept, double[] means, sbyte[] intervalOf, int intervals, TileVariance variance, int freedom, double blackDn)
    {
        // Tiles sorted by interval: how many there are in each, where each starts, then every tile to its place.
        var starts = new int[intervals + 1];
        for (int tile = 0; tile < kept.Length; tile++)
            if (kept[tile]) starts[intervalOf[tile] + 1]++;
        for (int i = 0; i < intervals; i++) starts[i + 1] += starts[i];
        int[] next = [.. starts];
        double[] signals = GC.AllocateUninitializedArray<double>(starts[intervals]), variances = GC.AllocateUninitializedArray<double>(starts[intervals]);
        double[] byTile = GC.AllocateUninitializedArray<double>(kept.Length);
        for (int tile = 0; tile < kept.Length; tile++)
        {
            if (!kept[tile]) continue;
            int at = next[intervalOf[tile]]++;
            signals[at] = means[tile] - blackDn;
            variances[at] = byTile[tile] = variance.Dn2(tile);
        }

        double medianShare = ChiSquared.InvCDF(freedom, 0.5) / freedom;
        List<double> middleSignals = [], middleVariances = [];
        // By interval: the first median that is not below it.
        var after = new int[intervals];
        for (int i = 0; i < intervals; i++)
        {
            after[i] = middleSignals.Count;
            if (starts[i + 1] - starts[i] < LeastTilesForMedian) continue;
            middleSignals.Add(OrderStatistic.Median(Thinned(signals.AsSpan(starts[i]..starts[i + 1]))));
            middleVariances.Add(Math.Max(OrderStatistic.Median(Thinned(variances.AsSpan(starts[i]..starts[i + 1]))) / medianShare, 1e-6));
        }

        if (middleSignals.Count == 0) return [];
        double[] x = [.. middleSignals], y = [.. middleVariances];
        double limit = UpperShare(freedom, Sigma);
        // What no tile of an interval can be expected below: nearly all tiles pass without a closer look.
        double[] least = [.. after.Select((first, i) => limit * y[Math.Max(0, first - 1)..(Math.Min(y.Length - 1, i + 1 < after.Length ? after[i + 1] : y.Length) + 1)].Min())];
        List<int> found = [];
        for (int tile = 0; tile < kept.Length; tile++)
        {
            if (!kept[tile]) continue;
            int interval = intervalOf[tile];
            double own = byTile[tile];
            if (own > least[interval] && own > limit * Expected(x, y, after[interval], means[tile] - blackDn)) found.Add(tile);
        }

        return found;
    }

    /// <summary>Every so many values of a crowd, moved to its front: a median of five hundred tiles is good to 1 %, an eighteenth of the scatter of one tile.</summary>
    private static Span<double> Thinned(Span<double> values)
    {
        int step = Math.Max(1, values.Length / EnoughForMedian), kept = (values.Length + step - 1) / step;
        for (int i = 0; i < kept; i++) values[i] = values[i * step];
        return values[..kept];
    }

    /// <summary>Interpolates the medians of the intervals; beyond the last one variance grows as light does.</summary>
    private static double Expected(double[] signals, double[] variances, int after, double signal)
    {
        while (after < signals.Length && signals[after] < signal) after++;
        if (after == signals.Length) return variances[^1] * Math.Max(1, signal / Math.Max(1e-9, signals[^1]));
        return after == 0 ? variances[0] : variances[after - 1] + PairNoise.Slope(signals, variances, after) * (signal - signals[after - 1]);
    }

    /// <summary>The point of a χ² with ν degrees of freedom, over ν, that lies z Gaussian sigmas up (Wilson and Hilferty 1931, from memory).</summary>
    private static double UpperShare(int freedom, double z)
    {
        double ninth = 2.0 / (9 * freedom), root = 1 - ninth + z * Math.Sqrt(ninth);
        return root * root * root;
    }
}
