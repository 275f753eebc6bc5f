using System.Collections.Immutable;
using Leafstop.Core.Sensor;
using MathNet.Numerics.Distributions;

namespace Leafstop.Raw.Measurement;

/// <summary>Bins the tiles of one plane of a pair by their local mean and leaves out those that are clipped or restless.</summary>
/// <remarks>
/// The line of variance on mean is straight, so the mean variance of a bin belongs to the mean signal of the bin whatever
/// texture its tiles hold. Which bin a tile belongs to is told by the tiles above and below it, whose noise and row offsets it
/// does not share: sorted by its own mean, a dark tile that noise or banding made darker would be taken for a darker scene, and
/// the line would flatten at its lower end (errors in the variable; the tiles beside are the instrument). A restless tile is one whose variance lies further above the line through the medians of all bins
/// than noise reaches once in 50 million tiles: something moved there, or a pixel flickers.
/// </remarks>
internal sealed class PairNoise
{
    private const int LeastTilesPerBin = 16;
    private const double BinsPerStop = 3;

    /// <summary>The scatter of all tiles counts as much as that of this many tiles of the bin itself.</summary>
    private const double LeaningTiles = 100;

    /// <summary>One-sided Gaussian point of 2 · 10⁻⁸.</summary>
    private const double RestlessSigma = 5.5;

    private readonly TileSums _sums;
    private readonly int _plane;
    private readonly double _black, _range;
    private readonly double[] _offsets;
    private readonly bool[] _clipped;
    private readonly bool[] _kept;

    /// <param name="sums">Tile sums of the pair.</param>
    /// <param name="plane">Plane index.</param>
    /// <param name="blackDn">Black level.</param>
    /// <param name="clipDn">Tiles with a sample at or above this are left out.</param>
    /// <param name="floorDn">Tiles with a sample at or below this are left out; −1 for none.</param>
    /// <param name="first">Row offsets of the first frame; null for none.</param>
    /// <param name="second">Row offsets of the second frame; null for none.</param>
    public PairNoise(TileSums sums, int plane, double blackDn, int clipDn, int floorDn, BorderOffsets? first, BorderOffsets? second)
    {
        _sums = sums;
        _plane = plane;
        _black = blackDn;
        _range = Math.Max(1, clipDn - blackDn);
        TileLayout layout = sums.Layout;
        _offsets = [.. Enumerable.Range(0, layout.Rows).Select(r => ((first?.InTileRow(layout, plane, r) ?? 0) + (second?.InTileRow(layout, plane, r) ?? 0)) / 2)];
        int tiles = layout.Count;
        _clipped = new bool[tiles];
        _kept = new bool[tiles];
        for (int tile = 0; tile < tiles; tile++)
        {
            _clipped[tile] = sums.Largest[plane][tile] >= clipDn || sums.Smallest[plane][tile] <= floorDn;
            _kept[tile] = !_clipped[tile];
        }

        Imbalance = ImbalanceOfKept();
        LeaveOutRestless();
        Gather();
    }

    /// <summary>β = (A − B) / (A + B) of the brightness above black; 0 when there is no light to compare.</summary>
    public double Imbalance { get; private set; }

    public ImmutableArray<SignalBin> Bins { get; private set; } = [];

    public long ClippedTiles => _clipped.LongCount(c => c);

    /// <summary>Tiles that changed far more than noise does.</summary>
    public long RestlessTiles { get; private set; }

    /// <summary>Leaves out more tiles, which hold a pixel that is no fair sample.</summary>
    public void LeaveOut(IEnumerable<int> tiles)
    {
        foreach (int tile in tiles) _kept[tile] = false;
        Gather();
    }

    /// <summary>Mean of both frames in a tile, row offsets taken off, DN.</summary>
    public double MeanDn(int tile) => _sums.MeanDn(_plane, tile) - _offsets[tile / _sums.Layout.Columns];

    /// <summary>True when the tile takes part.</summary>
    public bool Keeps(int tile) => _kept[tile];

    /// <summary>Variance that the pair itself shows at a tile's brightness, DN²: interpolated between bins, never below a tenth of quantisation noise.</summary>
    public double VarianceAt(int tile)
    {
        double mean = MeanDn(tile);
        ImmutableArray<SignalBin> bins = Bins;
        if (bins.IsEmpty) return Math.Max(_sums.VarianceDn2(_plane, tile, Imbalance), 1.0 / 120);
        int after = 0;
        while (after < bins.Length && bins[after].MeanRawDn < mean) after++;
        double variance = after == 0 ? bins[0].VarianceDn2
            : after == bins.Length ? bins[^1].VarianceDn2
            : Between(bins[after - 1], bins[after], mean);
        return Math.Max(variance, 1.0 / 120);
    }

    private static double Between(SignalBin low, SignalBin high, double mean) =>
        low.VarianceDn2 + (high.VarianceDn2 - low.VarianceDn2) * (mean - low.MeanRawDn) / Math.Max(1e-9, high.MeanRawDn - low.MeanRawDn);

    private double ImbalanceOfKept()
    {
        long sum = 0, difference = 0, samples = 0;
        for (int tile = 0; tile < _kept.Length; tile++)
        {
            if (!_kept[tile]) continue;
            sum += _sums.Sum[_plane][tile];
            difference += _sums.Difference[_plane][tile];
            samples += _sums.Layout.PerTile[_plane];
        }

        double light = sum - 2 * samples * _black;
        // Without light the ratio of two noises would be a wild number; a frame needs a mean of one raw step to have a brightness.
        return light > 2.0 * samples ? difference / light : 0;
    }

    private int BinOf(double meanDn) => (int)(BinsPerStop * Math.Log2(1 + Math.Max(0, meanDn - _black) / (_range / 4096)));

    private double MeanBesideDn(int tile)
    {
        int columns = _sums.Layout.Columns, above = tile - columns, below = tile + columns;
        bool hasAbove = above >= 0, hasBelow = below < _sums.Layout.Count;
        return hasAbove && hasBelow ? (MeanDn(above) + MeanDn(below)) / 2
            : hasAbove ? MeanDn(above)
            : MeanDn(hasBelow ? below : tile);
    }

    private void LeaveOutRestless()
    {
        var byBin = new SortedDictionary<int, List<(double Mean, double Variance)>>();
        for (int tile = 0; tile < _kept.Length; tile++)
        {
            if (!_kept[tile]) continue;
            int bin = BinOf(MeanDn(tile));
            if (!byBin.TryGetValue(bin, out var list)) byBin[bin] = list = [];
            list.Add((MeanDn(tile) - _black, _sums.VarianceDn2(_plane, tile, Imbalance)));
        }

        int freedom = _sums.Layout.FreedomPerTile[_plane];
        double medianShare = ChiSquared.InvCDF(freedom, 0.5) / freedom;
        var medians = new List<(double Signal, double Variance, double Weight)>();
        foreach (List<(double Mean, double Variance)> bin in byBin.Values.Where(b => b.Count >= 5))
        {
            double variance = Median([.. bin.Select(t => t.Variance)]) / medianShare;
            medians.Add((Median([.. bin.Select(t => t.Mean)]), Math.Max(variance, 1e-6), bin.Count / (variance * variance + 1e-12)));
        }

        if (medians.Count == 0) return;
        double limit = UpperShare(freedom, RestlessSigma);
        for (int tile = 0; tile < _kept.Length; tile++)
        {
            if (!_kept[tile]) continue;
            double expected = Expected(medians, MeanDn(tile) - _black);
            if (_sums.VarianceDn2(_plane, tile, Imbalance) <= limit * expected) continue;
            _kept[tile] = false;
            RestlessTiles++;
        }
    }

    /// <summary>Interpolates the medians of the bins; beyond the last one variance grows as light does.</summary>
    private static double Expected(List<(double Signal, double Variance, double Weight)> medians, double signal)
    {
        int after = medians.FindIndex(m => m.Signal >= signal);
        if (after < 0) return medians[^1].Variance * Math.Max(1, signal / Math.Max(1e-9, medians[^1].Signal));
        if (after == 0) return medians[0].Variance;
        var (x0, y0, _) = medians[after - 1];
        var (x1, y1, _) = medians[after];
        return y0 + (y1 - y0) * (signal - x0) / Math.Max(1e-9, x1 - x0);
    }

    /// <summary>The point of a χ² with ν degrees of freedom, over ν, that lies z Gaussian sigmas up (Wilson and Hilferty 1931, from memory).</summary>
    private static double UpperShare(int freedom, double z)
    {
        double ninth = 2.0 / (9 * freedom), root = 1 - ninth + z * Math.Sqrt(ninth);
        return root * root * root;
    }

    private void Gather()
    {
        Imbalance = ImbalanceOfKept();
        var byInterval = new SortedDictionary<int, List<int>>();
        for (int tile = 0; tile < _kept.Length; tile++)
        {
            if (!_kept[tile]) continue;
            int interval = BinOf(MeanBesideDn(tile));
            if (!byInterval.TryGetValue(interval, out List<int>? tiles)) byInterval[interval] = tiles = [];
            tiles.Add(tile);
        }

        var merged = new List<List<int>>();
        foreach (List<int> tiles in byInterval.Values)
        {
            if (merged.Count > 0 && merged[^1].Count < LeastTilesPerBin) merged[^1].AddRange(tiles);
            else merged.Add(tiles);
        }

        if (merged.Count > 1 && merged[^1].Count < LeastTilesPerBin)
        {
            merged[^2].AddRange(merged[^1]);
            merged.RemoveAt(merged.Count - 1);
        }

        (List<int> Tiles, SignalBin Bin)[] bins = [.. merged.Select(t => (t, ToBin(t))).OrderBy(b => b.Item2.MeanRawDn)];
        Bins = [.. bins.Select(b => b.Bin)];
        Bins = WithSeenScatter([.. bins.Select(b => b.Tiles)]);
    }

    private SignalBin ToBin(List<int> tiles)
    {
        long dd = 0, sd = 0, ss = 0;
        double mean = 0;
        foreach (int tile in tiles)
        {
            mean += MeanDn(tile);
            dd += _sums.DD[_plane][tile];
            sd += _sums.SD[_plane][tile];
            ss += _sums.SS[_plane][tile];
        }

        long freedom = (long)tiles.Count * _sums.Layout.FreedomPerTile[_plane];
        return new SignalBin
        {
            Samples = (long)tiles.Count * _sums.Layout.PerTile[_plane],
            DegreesOfFreedom = freedom,
            MeanRawDn = mean / tiles.Count,
            VarianceDn2 = (dd - 2 * Imbalance * sd + Imbalance * Imbalance * ss) / (2.0 * _sums.Layout.RowScale[_plane] * freedom),
        };
    }

    /// <summary>The bins with as many degrees of freedom as the scatter of their tiles bears out.</summary>
    /// <remarks>
    /// Were all samples of a tile equally noisy, its variance would scatter by v√(2/ν). Texture makes them unequally noisy, and
    /// squares of unequal noises scatter more: Var(Σd²) = 2Σv². How much is seen in the tiles themselves, as (v_tile/v − 1)² ν/2,
    /// which is 1 on average for equal noises. A bin of few tiles leans on the average of all. Tiles of different brightness
    /// in one bin add their share in the same way.
    /// </remarks>
    private ImmutableArray<SignalBin> WithSeenScatter(List<int>[] tiles)
    {
        int freedom = _sums.Layout.FreedomPerTile[_plane];
        var scatter = new double[tiles.Length];
        var spread = new double[tiles.Length];
        for (int bin = 0; bin < tiles.Length; bin++)
        {
            foreach (int tile in tiles[bin])
            {
                double expected = VarianceAt(tile), relative = _sums.VarianceDn2(_plane, tile, Imbalance) / expected - 1;
                scatter[bin] += relative * relative * freedom / 2;
                spread[bin] += expected * expected;
            }
        }

        double all = Math.Max(1, scatter.Sum() / Math.Max(1, tiles.Sum(t => t.Count)));
        return
        [
            .. Bins.Select((b, i) =>
            {
                double seen = (scatter[i] + LeaningTiles * all) / (tiles[i].Count + LeaningTiles);
                double unequal = Math.Max(1, spread[i] / tiles[i].Count / (b.VarianceDn2 * b.VarianceDn2));
                return b with { DegreesOfFreedom = (long)(b.DegreesOfFreedom / (Math.Max(1, seen) * unequal)) };
            }),
        ];
    }

    private static double Median(double[] values)
    {
        Array.Sort(values);
        return values.Length % 2 == 1 ? values[values.Length / 2] : (values[values.Length / 2 - 1] + values[values.Length / 2]) / 2;
    }
}
