using System.Collections.Immutable;
using System.Runtime.CompilerServices;
using Leafstop.Core.Sensor;

namespace Leafstop.Raw.Measurement;

/// <summary>Bins the tiles of one plane of a pair by their local mean and leaves out those that are clipped or restless.</summary>
/// <remarks>
/// The line of variance on mean is straight, so the mean variance of a bin belongs to the mean signal of the bin whatever
/// texture its tiles hold. Which bin a tile belongs to is told by the tiles above and below it, whose noise and row offsets it
/// does not share: sorted by its own mean, a dark tile that noise or banding made darker would be taken for a darker scene, and
/// the line would flatten at its lower end (errors in the variable; the tiles beside are the instrument).
/// Restless tiles are those of <see cref="Measurement.RestlessTiles"/>.
/// </remarks>
internal sealed class PairNoise
{
    private const int LeastTilesPerBin = 16;

    /// <summary>The scatter of all tiles counts as much as that of this many tiles of the bin itself.</summary>
    private const double LeaningTiles = 100;

    /// <summary>A tenth of the variance of rounding to whole numbers.</summary>
    private const double LeastVariance = 1.0 / 120;

    private readonly TileSums _sums;
    private readonly int _plane;
    private readonly double _black, _range;
    private readonly double[] _means;

    /// <summary>By tile: the interval of its own mean, and of the tiles above and below it.</summary>
    private readonly sbyte[] _intervalOf, _intervalBeside;
    private readonly bool[] _kept;
    private readonly int _intervals;

    /// <summary>By interval: the sums of the tiles that take part, gathered by the brightness beside them; and what they hold together.</summary>
    private readonly Total[] _totals;
    private long _sum, _difference, _tiles;

    /// <summary>Bins before their freedom is known, the bin of each interval, and the bins in the order of their means.</summary>
    private SignalBin[] _drafts = [];
    private int[] _binOf = [], _order = [];
    private double[] _binMeans = [], _binVariances = [];

    /// <summary>By bin: how steeply variance rises from the bin before.</summary>
    private double[] _binSlopes = [];

    /// <summary>By interval: the first bin whose mean is not below the interval.</summary>
    private int[] _after = [];
    private ImmutableArray<SignalBin>? _bins;

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
        (_kept, _means) = (new bool[tiles], GC.AllocateUninitializedArray<double>(tiles));
        (_intervalOf, _intervalBeside) = (GC.AllocateUninitializedArray<sbyte>(tiles), GC.AllocateUninitializedArray<sbyte>(tiles));
        for (int row = 0; row < layout.Rows; row++)
        {
            double offset = ((first?.InTileRow(layout, plane, row) ?? 0) + (second?.InTileRow(layout, plane, row) ?? 0)) / 2;
            TakeRow(row * layout.Columns, layout.Columns, clipDn, floorDn, offset);
        }

        ClippedTiles = tiles - _tiles;
        for (int row = 0; row < layout.Rows; row++) PlaceRow(row, layout);
        _intervals = 1;
        foreach (sbyte interval in _intervalOf) _intervals = Math.Max(_intervals, interval + 1);
        foreach (sbyte interval in _intervalBeside) _intervals = Math.Max(_intervals, interval + 1);
        _totals = new Total[_intervals];
        Imbalance = ImbalanceOfKept();
        foreach (int tile in Measurement.RestlessTiles.Of(_kept, _means, _intervalOf, _intervals, new TileVariance(_sums, _plane, Imbalance), layout.FreedomPerTile[_plane], _black))
        {
            Drop(tile);
            RestlessTiles++;
        }

        Gather();
        ToBins();
    }

    /// <summary>β = (A − B) / (A + B) of the brightness above black; 0 when there is no light to compare.</summary>
    public double Imbalance { get; private set; }

    /// <summary>The bins by rising mean.</summary>
    public ImmutableArray<SignalBin> Bins => _bins ??= WithFreedom();

    public long ClippedTiles { get; }

    /// <summary>Tiles that changed far more than noise does.</summary>
    public long RestlessTiles { get; private set; }

    /// <summary>Leaves out more tiles, which hold a pixel that is no fair sample.</summary>
    public void LeaveOut(IEnumerable<int> tiles)
    {
        bool any = false;
        foreach (int tile in tiles)
        {
            if (!_kept[tile]) continue;
            any = true;
            Drop(tile);
            _totals[_intervalBeside[tile]].Remove(_means[tile], _sums.DD[_plane][tile], _sums.SD[_plane][tile], _sums.SS[_plane][tile]);
        }

        if (any) ToBins();
    }

    /// <summary>Mean of both frames in a tile, row offsets taken off, DN.</summary>
    public double MeanDn(int tile) => _means[tile];

    /// <summary>As <see cref="MeanDn"/>, of all tiles of a row.</summary>
    public ReadOnlySpan<double> RowMeans(int row) => _means.AsSpan(row * _sums.Layout.Columns, _sums.Layout.Columns);

    /// <summary>True when the tile takes part.</summary>
    public bool Keeps(int tile) => _kept[tile];

    /// <summary>Variance that the pair itself shows at a tile's brightness, DN²: interpolated between bins, never below a tenth of quantisation noise.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public double VarianceAt(int tile)
    {
        if (_binMeans.Length == 0) return Math.Max(new TileVariance(_sums, _plane, Imbalance).Dn2(tile), LeastVariance);
        double mean = _means[tile];
        int after = _after[_intervalOf[tile]];
        while (after < _binMeans.Length && _binMeans[after] < mean) after++;
        double variance = after == 0 ? _binVariances[0]
            : after == _binMeans.Length ? _binVariances[^1]
            : _binVariances[after - 1] + _binSlopes[after] * (mean - _binMeans[after - 1]);
        return Math.Max(variance, LeastVariance);
    }

    /// <summary>No <see cref="VarianceAt"/> of a tile is below this, DN².</summary>
    public double VarianceAtLeast => _binMeans.Length == 0 ? LeastVariance : Math.Max(_binVariances.Min(), LeastVariance);

    /// <summary>How steep the line through the points before and at an index is.</summary>
    internal static double Slope(double[] means, double[] variances, int after) =>
        (variances[after] - variances[after - 1]) / Math.Max(1e-9, means[after] - means[after - 1]);

    /// <summary>Which tiles of a row take part, and the mean of each.</summary>
    private void TakeRow(int from, int count, int clipDn, int floorDn, double offset)
    {
        ReadOnlySpan<ushort> largest = _sums.Largest[_plane].AsSpan(from, count), smallest = _sums.Smallest[_plane].AsSpan(from, count);
        ReadOnlySpan<int> sum = _sums.Sum[_plane].AsSpan(from, count), difference = _sums.Difference[_plane].AsSpan(from, count);
        Span<bool> kept = _kept.AsSpan(from, count);
        Span<double> means = _means.AsSpan(from, count);
        double samples = 2.0 * _sums.Layout.PerTile[_plane];
        long sumOfKept = 0, differenceOfKept = 0, tiles = 0;
        for (int i = 0; i < kept.Length; i++)
        {
            means[i] = sum[i] / samples - offset;
            if (largest[i] >= clipDn || smallest[i] <= floorDn) continue;
            kept[i] = true;
            sumOfKept += sum[i];
            differenceOfKept += difference[i];
            tiles++;
        }

        (_sum, _difference, _tiles) = (_sum + sumOfKept, _difference + differenceOfKept, _tiles + tiles);
    }

    /// <summary>The interval of every tile of a row, and of the tiles above and below it.</summary>
    private void PlaceRow(int row, TileLayout layout)
    {
        int columns = layout.Columns, above = row > 0 ? row - 1 : Math.Min(1, layout.Rows - 1), below = row + 1 < layout.Rows ? row + 1 : Math.Max(0, layout.Rows - 2);
        ReadOnlySpan<double> own = RowMeans(row), over = RowMeans(above), under = RowMeans(below);
        Span<sbyte> of = _intervalOf.AsSpan(row * columns, columns), beside = _intervalBeside.AsSpan(row * columns, columns);
        double black = _black, unit = 4096 / _range;
        for (int i = 0; i < own.Length; i++)
        {
            double mine = own[i] - black, theirs = (over[i] + under[i]) / 2 - black;
            of[i] = (sbyte)SignalIntervals.Of(mine > 0 ? mine * unit : 0);
            beside[i] = (sbyte)SignalIntervals.Of(theirs > 0 ? theirs * unit : 0);
        }
    }

    private void Drop(int tile)
    {
        _kept[tile] = false;
        _sum -= _sums.Sum[_plane][tile];
        _difference -= _sums.Difference[_plane][tile];
        _tiles--;
    }

    private double ImbalanceOfKept()
    {
        long samples = _tiles * _sums.Layout.PerTile[_plane];
        double light = _sum - 2 * samples * _black;
        // Without light the ratio of two noises would be a wild number; a frame needs a mean of one raw step to have a brightness.
        return light > 2.0 * samples ? _difference / light : 0;
    }

    /// <summary>Signal above black in steps of the range over 4096.</summary>
    private double Units(double meanDn) => Math.Max(0, meanDn - _black) * (4096 / _range);

    private void Gather()
    {
        long[] dd = _sums.DD[_plane], sd = _sums.SD[_plane], ss = _sums.SS[_plane];
        for (int tile = 0; tile < _kept.Length; tile++)
            if (_kept[tile]) _totals[_intervalBeside[tile]].Add(_means[tile], dd[tile], sd[tile], ss[tile]);
    }

    private void ToBins()
    {
        Imbalance = ImbalanceOfKept();
        // Thin intervals join the one above; what is left at the top joins the last bin.
        var bins = new List<Total>();
        _binOf = new int[_intervals];
        Total open = default;
        for (int i = 0; i < _intervals; i++)
        {
            _binOf[i] = bins.Count;
            open.Add(_totals[i]);
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

        for (int i = 0; i < _binOf.Length; i++) _binOf[i] = Math.Min(_binOf[i], bins.Count - 1);
        _drafts = [.. bins.Select(ToBin)];
        _order = [.. Enumerable.Range(0, _drafts.Length).OrderBy(i => _drafts[i].MeanRawDn)];
        _binMeans = [.. _order.Select(i => _drafts[i].MeanRawDn)];
        _binVariances = [.. _order.Select(i => _drafts[i].VarianceDn2)];
        _binSlopes = [.. Enumerable.Range(0, _order.Length).Select(i => i == 0 ? 0 : Slope(_binMeans, _binVariances, i))];
        _after = new int[_intervals];
        for (int i = 1; i < _intervals; i++)
        {
            _after[i] = _after[i - 1];
            while (_after[i] < _binMeans.Length && Units(_binMeans[_after[i]]) < SignalIntervals.Start(i)) _after[i]++;
        }

        _bins = null;
    }

    private ImmutableArray<SignalBin> WithFreedom()
    {
        double[] cost = CostOfScatter();
        return [.. _order.Select(i => _drafts[i] with { DegreesOfFreedom = (long)(_drafts[i].DegreesOfFreedom / cost[i]) })];
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
    private double[] CostOfScatter()
    {
        int freedom = _sums.Layout.FreedomPerTile[_plane];
        double[] scatter = new double[_drafts.Length], spread = new double[_drafts.Length], count = new double[_drafts.Length];
        var variance = new TileVariance(_sums, _plane, Imbalance);
        for (int tile = 0; tile < _kept.Length; tile++)
        {
            if (!_kept[tile]) continue;
            int bin = _binOf[_intervalBeside[tile]];
            double expected = VarianceAt(tile), relative = variance.Dn2(tile) / expected - 1;
            scatter[bin] += relative * relative * freedom / 2;
            spread[bin] += expected * expected;
            count[bin]++;
        }

        double all = Math.Max(1, scatter.Sum() / Math.Max(1, count.Sum()));
        return
        [
            .. _drafts.Select((b, i) =>
                Math.Max(1, (scatter[i] + LeaningTiles * all) / (count[i] + LeaningTiles)) * Math.Max(1, spread[i] / count[i] / (b.VarianceDn2 * b.VarianceDn2))),
        ];
    }

    private record struct Total(long Tiles, double Means, long DD, long SD, long SS)
    {
        public void Add(double mean, long dd, long sd, long ss)
        {
            Tiles++;
            Means += mean;
            DD += dd;
            SD += sd;
            SS += ss;
        }

        public void Remove(double mean, long dd, long sd, long ss)
        {
            Tiles--;
            Means -= mean;
            DD -= dd;
            SD -= sd;
            SS -= ss;
        }

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
