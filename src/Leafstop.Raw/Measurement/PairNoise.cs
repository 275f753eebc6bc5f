using System.Collections.Immutable;
using Leafstop.Core.Sensor;
using MathNet.Numerics.Distributions;

namespace Leafstop.Raw.Measurement;

/// <summary>Bins the tiles of one plane of a pair by their local mean and leaves out those that are clipped or restless.</summary>
/// <remarks>
/// The line of variance on mean is straight, so the mean variance of a bin belongs to the mean signal of the bin whatever
/// texture its tiles hold. Which bin a tile belongs to is told by the tiles above and below it, whose noise and row offsets it
/// does not share: sorted by its own mean, a dark tile that noise or banding made darker would be taken for a darker scene, and
/// the line would flatten at its lower end (errors in the variable; the tiles beside are the instrument).
/// A restless tile is one whose variance lies further above the line through the medians of all bins than noise reaches once in
/// 50 million tiles: something moved there, or a pixel flickers.
/// </remarks>
internal sealed class PairNoise
{
    private const int LeastTilesPerBin = 16;
    private const double BinsPerStop = 3;

    /// <summary>The scatter of all tiles counts as much as that of this many tiles of the bin itself.</summary>
    private const double LeaningTiles = 100;

    /// <summary>A tenth of the variance of rounding to whole numbers.</summary>
    private const double LeastVariance = 1.0 / 120;

    /// <summary>One-sided Gaussian point of 2 · 10⁻⁸.</summary>
    private const double RestlessSigma = 5.5;

    private static readonly double[] Edges = [.. Enumerable.Range(0, 100).Select(bin => Math.Pow(2, bin / BinsPerStop) - 1)];

    private readonly TileSums _sums;
    private readonly int _plane;
    private readonly double _black, _range;
    private readonly double[] _means;
    private readonly int[] _binBeside;
    private double[] _binMeans = [], _binVariances = [];
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
        int tiles = layout.Count;
        _clipped = new bool[tiles];
        _kept = new bool[tiles];
        for (int tile = 0; tile < tiles; tile++)
        {
            _clipped[tile] = sums.Largest[plane][tile] >= clipDn || sums.Smallest[plane][tile] <= floorDn;
            _kept[tile] = !_clipped[tile];
        }

        _means = new double[tiles];
        for (int row = 0, tile = 0; row < layout.Rows; row++)
        {
            double offset = ((first?.InTileRow(layout, plane, row) ?? 0) + (second?.InTileRow(layout, plane, row) ?? 0)) / 2;
            for (int column = 0; column < layout.Columns; column++, tile++) _means[tile] = sums.MeanDn(plane, tile) - offset;
        }

        _binBeside = new int[tiles];
        for (int tile = 0; tile < tiles; tile++) _binBeside[tile] = BinOf(MeanBesideDn(tile));

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
        bool any = false;
        foreach (int tile in tiles)
        {
            any |= _kept[tile];
            _kept[tile] = false;
        }

        if (any) Gather();
    }

    /// <summary>Mean of both frames in a tile, row offsets taken off, DN.</summary>
    public double MeanDn(int tile) => _means[tile];

    /// <summary>True when the tile takes part.</summary>
    public bool Keeps(int tile) => _kept[tile];

    /// <summary>Variance that the pair itself shows at a tile's brightness, DN²: interpolated between bins, never below a tenth of quantisation noise.</summary>
    public double VarianceAt(int tile)
    {
        if (_binMeans.Length == 0) return Math.Max(_sums.VarianceDn2(_plane, tile, Imbalance), LeastVariance);
        double mean = _means[tile];
        int after = FirstFrom(_binMeans, mean);
        double variance = after == 0 ? _binVariances[0]
            : after == _binMeans.Length ? _binVariances[^1]
            : Between(_binMeans, _binVariances, after, mean);
        return Math.Max(variance, LeastVariance);
    }

    /// <summary>No <see cref="VarianceAt"/> of a tile is below this, DN².</summary>
    public double VarianceAtLeast => _binMeans.Length == 0 ? LeastVariance : Math.Max(_binVariances.Min(), LeastVariance);

    /// <summary>A line through the points before and at an index.</summary>
    private static double Between(double[] means, double[] variances, int after, double mean) =>
        variances[after - 1] + (variances[after] - variances[after - 1]) * (mean - means[after - 1]) / Math.Max(1e-9, means[after] - means[after - 1]);

    /// <summary>Index of the first of ascending values that is not below another; their number when all are.</summary>
    private static int FirstFrom(double[] ascending, double value)
    {
        int low = 0, high = ascending.Length;
        while (low < high)
        {
            int middle = (low + high) / 2;
            if (ascending[middle] < value) low = middle + 1;
            else high = middle;
        }

        return low;
    }

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

    /// <summary>⌊3 · log₂(1 + signal / u)⌋ with u the range over 4096, found between the edges of the bins, which is quicker than the logarithm.</summary>
    private int BinOf(double meanDn)
    {
        double units = Math.Max(0, meanDn - _black) / (_range / 4096);
        int after = FirstFrom(Edges, units);
        return after < Edges.Length && Edges[after] == units ? after : after - 1;
    }

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
        // Tiles sorted by bin: how many there are in each, where each bin starts, then every tile to its place.
        int tiles = _kept.Length;
        var binOf = new int[tiles];
        int bins = 0;
        for (int tile = 0; tile < tiles; tile++)
        {
            binOf[tile] = _kept[tile] ? BinOf(_means[tile]) : -1;
            bins = Math.Max(bins, binOf[tile] + 1);
        }

        var starts = new int[bins + 1];
        for (int tile = 0; tile < tiles; tile++)
            if (binOf[tile] >= 0) starts[binOf[tile] + 1]++;
        for (int bin = 0; bin < bins; bin++) starts[bin + 1] += starts[bin];
        int[] next = [.. starts];
        double[] signals = new double[starts[bins]], variances = new double[starts[bins]], varianceOf = new double[tiles];
        for (int tile = 0; tile < tiles; tile++)
        {
            if (binOf[tile] < 0) continue;
            int at = next[binOf[tile]]++;
            signals[at] = _means[tile] - _black;
            variances[at] = varianceOf[tile] = _sums.VarianceDn2(_plane, tile, Imbalance);
        }

        int freedom = _sums.Layout.FreedomPerTile[_plane];
        double medianShare = ChiSquared.InvCDF(freedom, 0.5) / freedom;
        List<double> middleSignals = [], middleVariances = [];
        for (int bin = 0; bin < bins; bin++)
        {
            var range = starts[bin]..starts[bin + 1];
            if (starts[bin + 1] - starts[bin] < 5) continue;
            middleSignals.Add(OrderStatistic.Median(signals.AsSpan(range)));
            middleVariances.Add(Math.Max(OrderStatistic.Median(variances.AsSpan(range)) / medianShare, 1e-6));
        }

        if (middleSignals.Count == 0) return;
        double[] x = [.. middleSignals], y = [.. middleVariances];
        double limit = UpperShare(freedom, RestlessSigma);
        for (int tile = 0; tile < tiles; tile++)
        {
            if (binOf[tile] < 0 || varianceOf[tile] <= limit * Expected(x, y, _means[tile] - _black)) continue;
            _kept[tile] = false;
            RestlessTiles++;
        }
    }

    /// <summary>Interpolates the medians of the bins; beyond the last one variance grows as light does.</summary>
    private static double Expected(double[] signals, double[] variances, double signal)
    {
        int after = FirstFrom(signals, signal);
        if (after == signals.Length) return variances[^1] * Math.Max(1, signal / Math.Max(1e-9, signals[^1]));
        return after == 0 ? variances[0] : Between(signals, variances, after, signal);
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
        var intervals = new Total[_binBeside.Length == 0 ? 0 : _binBeside.Max() + 1];
        long[] dd = _sums.DD[_plane], sd = _sums.SD[_plane], ss = _sums.SS[_plane];
        for (int tile = 0; tile < _kept.Length; tile++)
            if (_kept[tile]) intervals[_binBeside[tile]].Add(_means[tile], dd[tile], sd[tile], ss[tile]);

        // Thin intervals join the one above; what is left at the top joins the last bin.
        var bins = new List<Total>();
        var binOf = new int[intervals.Length];
        Total open = default;
        for (int i = 0; i < intervals.Length; i++)
        {
            binOf[i] = bins.Count;
            open.Add(intervals[i]);
            if (open.Tiles < LeastTilesPerBin) continue;
            bins.Add(open);
            open = default;
        }

        if (open.Tiles > 0)
        {
            if (bins.Count == 0) bins.Add(default);
            Total last = bins[^1];
            last.Add(open);
            bins[^1] = last;
        }

        for (int i = 0; i < binOf.Length; i++) binOf[i] = Math.Min(binOf[i], bins.Count - 1);
        SignalBin[] unsorted = [.. bins.Select(ToBin)];
        int[] order = [.. Enumerable.Range(0, unsorted.Length).OrderBy(i => unsorted[i].MeanRawDn)];
        _binMeans = [.. order.Select(i => unsorted[i].MeanRawDn)];
        _binVariances = [.. order.Select(i => unsorted[i].VarianceDn2)];
        double[] cost = CostOfScatter(unsorted, binOf);
        Bins = [.. order.Select(i => unsorted[i] with { DegreesOfFreedom = (long)(unsorted[i].DegreesOfFreedom / cost[i]) })];
    }

    private SignalBin ToBin(Total t)
    {
        long freedom = t.Tiles * _sums.Layout.FreedomPerTile[_plane];
        return new SignalBin
        {
            Samples = t.Tiles * _sums.Layout.PerTile[_plane],
            DegreesOfFreedom = freedom,
            MeanRawDn = t.Means / t.Tiles,
            VarianceDn2 = (t.DD - 2 * Imbalance * t.SD + Imbalance * Imbalance * t.SS) / (2.0 * _sums.Layout.RowScale[_plane] * freedom),
        };
    }

    /// <summary>By how much each bin has fewer degrees of freedom than samples suggest: 1 or more.</summary>
    /// <remarks>
    /// Were all samples of a tile equally noisy, its variance would scatter by v√(2/ν). Texture makes them unequally noisy, and
    /// squares of unequal noises scatter more: Var(Σd²) = 2Σv². How much is seen in the tiles themselves, as (v_tile/v − 1)² ν/2,
    /// which is 1 on average for equal noises. A bin of few tiles leans on the average of all. Tiles of different brightness
    /// in one bin add their share in the same way.
    /// </remarks>
    private double[] CostOfScatter(SignalBin[] bins, int[] binOf)
    {
        int freedom = _sums.Layout.FreedomPerTile[_plane];
        double[] scatter = new double[bins.Length], spread = new double[bins.Length], count = new double[bins.Length];
        for (int tile = 0; tile < _kept.Length; tile++)
        {
            if (!_kept[tile]) continue;
            int bin = binOf[_binBeside[tile]];
            double expected = VarianceAt(tile), relative = _sums.VarianceDn2(_plane, tile, Imbalance) / expected - 1;
            scatter[bin] += relative * relative * freedom / 2;
            spread[bin] += expected * expected;
            count[bin]++;
        }

        double all = Math.Max(1, scatter.Sum() / Math.Max(1, count.Sum()));
        return
        [
            .. bins.Select((b, i) =>
                Math.Max(1, (scatter[i] + LeaningTiles * all) / (count[i] + LeaningTiles)) * Math.Max(1, spread[i] / count[i] / (b.VarianceDn2 * b.VarianceDn2))),
        ];
    }

    private record struct Total(long Tiles, double Means, long DD, long SD, long SS)
    {
        public void Add(double mean, long dd, long sd, long ss) => Add(new Total(1, mean, dd, sd, ss));

        public void Add(Total other)
        {
            Tiles += other.Tiles;
            Means += other.Means;
            DD += other.DD;
            SD += other.SD;
            SS += other.SS;
        }
    }
}
