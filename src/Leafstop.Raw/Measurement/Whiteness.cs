using System.Buffers;
using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using Leafstop.Raw.Frames;

namespace Leafstop.Raw.Measurement;

/// <summary>Whether the noise of one plane of a pair is white: neighbour correlation, and row and column offsets apart from it.</summary>
/// <param name="CorrelationX">Along a row.</param>
/// <param name="CorrelationY">Along a column.</param>
/// <param name="CorrelationSamples">Neighbour pairs behind the scarcer of the two.</param>
/// <param name="RowNoiseDn">Sd of the row offsets of one frame, DN.</param>
/// <param name="RowNoiseErrorDn2">Standard error of its square.</param>
/// <param name="ColumnNoiseDn">The same for columns.</param>
internal readonly record struct Whiteness(
    double CorrelationX, double CorrelationY, long CorrelationSamples, double RowNoiseDn, double RowNoiseErrorDn2, double ColumnNoiseDn)
{
    /// <summary>Rows beyond this many samples of a frame add nothing that matters to a correlation.</summary>
    private const int MostPixels = 1_200_000;

    /// <summary>So many cells away no filter over neighbours reaches; what still agrees there are bands that do not run the whole frame.</summary>
    private const int FarCells = 8, NearestFarCells = 3;

    /// <summary>An agreement far away counts when it is this many standard errors from zero (SEN-45).</summary>
    private const double StandardErrors = 4;

    /// <summary>Measures one plane.</summary>
    /// <remarks>
    /// Each difference is divided by the sd that the pair itself shows at that brightness, so that bright parts do not outvote
    /// dark ones; row and column offsets are taken off, so that banding does not pass for smoothing. White noise then correlates
    /// as −1/n ± 1/√n (SEN-45). On a 2×2 mosaic the neighbour of the same colour is two pixels away. On larger cells two
    /// neighbours are tested, the nearest of the same colour and the same site of the next cell, and the larger one is told.
    /// Bands that break off inside the frame leave something when the mean of their row is taken off, near and far alike: what samples far apart
    /// still agree is taken off the agreement of neighbours, so that what is left is a filter's.
    /// </remarks>
    public static Whiteness Of(MosaicFrame first, MosaicFrame second, TileSums sums, int plane, PairNoise noise, double blackDn)
    {
        TileLayout layout = sums.Layout;
        int[] tileRows = SelectTileRows(layout);
        var lattice = new Lattice(layout, plane);
        int width = layout.Columns * lattice.TileColumns, rows = tileRows.Length * lattice.TileRows;
        float[] z = ArrayPool<float>.Shared.Rent(rows * width), weights = ArrayPool<float>.Shared.Rent(rows * width);
        try
        {
            Array.Clear(z, 0, rows * width);
            Array.Clear(weights, 0, rows * width);
            for (int band = 0; band < tileRows.Length; band++)
                FillBand(first, second, layout, lattice, noise, blackDn, tileRows[band], band * lattice.TileRows * width, width, z, weights);
            return OfDifferences(z.AsSpan(0, rows * width), weights.AsSpan(0, rows * width), width, rows, layout, plane, lattice);
        }
        finally
        {
            ArrayPool<float>.Shared.Return(z);
            ArrayPool<float>.Shared.Return(weights);
        }
    }

    private static Whiteness OfDifferences(Span<float> z, Span<float> weights, int width, int rows, TileLayout layout, int plane, Lattice lattice)
    {
        Offsets byRow = new(rows), byColumn = new(width), flattened = new(width);
        for (int y = 0; y < rows; y++)
        {
            Span<float> line = z.Slice(y * width, width), weight = weights.Slice(y * width, width);
            byColumn.AddEach(line, weight);
            byRow.AddAll(y, line, weight);
            // The offset of a row is one number in DN, so it weighs less where the noise is larger: z loses offset / sd.
            byRow.TakeFromAll(y, line, weight);
            flattened.AddEach(line, weight);
        }

        float[] columns = flattened.Means();
        for (int y = 0; y < rows; y++) TakeEach(columns, z.Slice(y * width, width), weights.Slice(y * width, width));

        double x1 = 0, y1 = 0;
        long least = long.MaxValue;
        foreach (var (dx, dy) in Steps(layout, plane))
        {
            var (r, n) = Correlate(z, weights, width, rows, lattice.TileRows, dx / lattice.StepX, dy / lattice.StepY);
            if (n == 0) continue;
            if (dy == 0) x1 = Larger(x1, r);
            else y1 = Larger(y1, r);
            least = Math.Min(least, n);
        }

        x1 -= Far(z, weights, width, rows, lattice, FarCells * layout.CellColumns / lattice.StepX, 0);
        int cellRows = layout.CellRows / lattice.StepY, cellsDown = Math.Min(FarCells, (lattice.TileRows - 1) / cellRows);
        if (cellsDown >= NearestFarCells) y1 -= Far(z, weights, width, rows, lattice, 0, cellsDown * cellRows);

        var (row, rowError) = byRow.Noise();
        return new Whiteness(x1, y1, least == long.MaxValue ? 0 : least, Math.Sqrt(row), rowError, Math.Sqrt(byColumn.Noise().Square));
    }

    private static double Far(ReadOnlySpan<float> z, ReadOnlySpan<float> weights, int width, int rows, Lattice lattice, int dx, int dy)
    {
        var (r, n) = Correlate(z, weights, width, rows, lattice.TileRows, dx, dy);
        return r * Math.Sqrt(n) > StandardErrors ? r : 0;
    }

    private static double Larger(double a, double b) => Math.Abs(b) > Math.Abs(a) ? b : a;

    private static int[] SelectTileRows(TileLayout layout)
    {
        int perTileRow = layout.Columns * layout.Width * layout.Height;
        int wanted = Math.Clamp(MostPixels / Math.Max(1, perTileRow), 1, layout.Rows);
        return [.. Enumerable.Range(0, wanted).Select(i => (int)((long)i * layout.Rows / wanted))];
    }

    /// <summary>Where the samples of a plane lie: on every step of a lattice when the cell holds one of them, else somewhere on the lattice of all pixels.</summary>
    /// <param name="StepX">Columns from one place to the next.</param>
    /// <param name="StepY">Rows from one place to the next.</param>
    /// <param name="FromX">First column in a tile.</param>
    /// <param name="FromY">First row in a tile.</param>
    /// <param name="TileColumns">Places across a tile.</param>
    /// <param name="TileRows">Places down a tile.</param>
    /// <param name="Holds">By place of the cell, row by row: whether the plane has a sample there.</param>
    private readonly record struct Lattice(int StepX, int StepY, int FromX, int FromY, int TileColumns, int TileRows, bool[] Holds)
    {
        public Lattice(TileLayout layout, int plane)
            : this(1, 1, 0, 0, layout.Width, layout.Height, [.. layout.PlaneOfSite.Select(p => p == plane)])
        {
            if (Holds.Count(h => h) != 1) return;
            int site = Array.IndexOf(Holds, true);
            (StepX, StepY, FromX, FromY) = (layout.CellColumns, layout.CellRows, site % layout.CellColumns, site / layout.CellColumns);
            (TileColumns, TileRows) = (layout.Width / StepX, layout.Height / StepY);
        }
    }

    /// <summary>Fills places that take part; where none does, both the difference and its weight stay 0 and add nothing to any sum.</summary>
    private static void FillBand(
        MosaicFrame first, MosaicFrame second, TileLayout layout, Lattice lattice, PairNoise noise, double blackDn, int tileRow, int at, int width, float[] z, float[] weights)
    {
        float beta = (float)noise.Imbalance, twoBlack = (float)(2 * blackDn);
        var weightOf = new float[layout.Columns];
        for (int column = 0; column < weightOf.Length; column++)
        {
            int tile = tileRow * layout.Columns + column;
            weightOf[column] = noise.Keeps(tile) ? (float)(1 / Math.Sqrt(2 * noise.VarianceAt(tile))) : 0;
        }

        for (int y = lattice.FromY; y < layout.Height; y += lattice.StepY, at += width)
        {
            ReadOnlySpan<ushort> a = first.Row(tileRow * layout.Height + y), b = second.Row(tileRow * layout.Height + y)[..a.Length];
            ReadOnlySpan<bool> holds = lattice.Holds.AsSpan(y % layout.CellRows * layout.CellColumns, layout.CellColumns);
            bool all = lattice.StepX == layout.CellColumns;
            for (int column = 0; column < weightOf.Length; column++)
            {
                float weight = weightOf[column];
                if (weight == 0) continue;
                int x = column * layout.Width + lattice.FromX, site = lattice.FromX;
                Span<float> to = z.AsSpan(at + column * lattice.TileColumns, lattice.TileColumns);
                Span<float> weightTo = weights.AsSpan(at + column * lattice.TileColumns, lattice.TileColumns);
                for (int i = 0; i < to.Length; i++, x += lattice.StepX)
                {
                    if (!all)
                    {
                        bool held = holds[site];
                        if (++site == holds.Length) site = 0;
                        if (!held) continue;
                    }

                    int va = a[x], vb = b[x];
                    to[i] = (va - vb - beta * (va + vb - twoBlack)) * weight;
                    weightTo[i] = weight;
                }
            }
        }
    }

    /// <summary>Which neighbours to test: the same site of the next cell and, where a closer sample has the same colour, that one too.</summary>
    private static IEnumerable<(int Dx, int Dy)> Steps(TileLayout layout, int plane)
    {
        yield return (layout.CellColumns, 0);
        yield return (0, layout.CellRows);
        for (int d = 1; d < layout.CellColumns; d++)
        {
            if (!SharesPlane(layout, plane, d, 0)) continue;
            yield return (d, 0);
            break;
        }

        for (int d = 1; d < layout.CellRows; d++)
        {
            if (!SharesPlane(layout, plane, 0, d)) continue;
            yield return (0, d);
            break;
        }
    }

    private static bool SharesPlane(TileLayout layout, int plane, int dx, int dy)
    {
        for (int y = 0; y < layout.CellRows; y++)
            for (int x = 0; x < layout.CellColumns; x++)
                if (PlaneAt(layout, x, y) == plane && PlaneAt(layout, x + dx, y + dy) == plane) return true;
        return false;
    }

    private static int PlaneAt(TileLayout layout, int x, int y) =>
        layout.PlaneOfSite[y % layout.CellRows * layout.CellColumns + x % layout.CellColumns];

    private static (double Correlation, long Samples) Correlate(ReadOnlySpan<float> z, ReadOnlySpan<float> weights, int width, int rows, int tileRows, int dx, int dy)
    {
        double product = 0, squares = 0;
        long n = 0, m = 0;
        for (int y = 0; y < rows; y++)
        {
            ReadOnlySpan<float> row = z.Slice(y * width, width), weight = weights.Slice(y * width, width);
            squares += Product(row, row);
            m += Both(weight, weight);
            // Bands of tile rows need not touch: a neighbour below counts only inside its own band.
            if (y % tileRows + dy >= tileRows || dx >= width) continue;
            product += Product(row[..(width - dx)], z.Slice((y + dy) * width + dx, width - dx));
            n += Both(weight[..(width - dx)], weights.Slice((y + dy) * width + dx, width - dx));
        }

        return n == 0 || squares == 0 ? (0, 0) : (product / n / (squares / m), n);
    }

    /// <summary>Σxy in double precision.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static double Product(ReadOnlySpan<float> x, ReadOnlySpan<float> y)
    {
        Vector256<double> sum = default;
        int i = 0;
        for (; i + Vector256<float>.Count <= x.Length; i += Vector256<float>.Count)
        {
            Vector256<float> vx = Vector256.Create(x[i..]), vy = Vector256.Create(y[i..]);
            sum += Vector256.WidenLower(vx) * Vector256.WidenLower(vy) + Vector256.WidenUpper(vx) * Vector256.WidenUpper(vy);
        }

        double total = Vector256.Sum(sum);
        for (; i < x.Length; i++) total += (double)x[i] * y[i];
        return total;
    }

    /// <summary>At how many places both weights are above 0.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static long Both(ReadOnlySpan<float> x, ReadOnlySpan<float> y)
    {
        Vector256<int> negative = default;
        int i = 0, n = 0;
        for (; i + Vector256<float>.Count <= x.Length; i += Vector256<float>.Count)
        {
            negative += (Vector256.GreaterThan(Vector256.Create(x[i..]), Vector256<float>.Zero)
                & Vector256.GreaterThan(Vector256.Create(y[i..]), Vector256<float>.Zero)).AsInt32();
        }

        for (; i < x.Length; i++) n += x[i] > 0 && y[i] > 0 ? 1 : 0;
        return n - Vector256.Sum(negative);
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void TakeEach(ReadOnlySpan<float> offsets, Span<float> z, ReadOnlySpan<float> weights)
    {
        int i = 0;
        for (; i + Vector256<float>.Count <= z.Length; i += Vector256<float>.Count)
            (Vector256.Create<float>(z[i..]) - Vector256.Create(offsets[i..]) * Vector256.Create(weights[i..])).CopyTo(z[i..]);
        for (; i < z.Length; i++) z[i] -= offsets[i] * weights[i];
    }

    /// <summary>Means of rows (or columns), weighted so that dark samples, which show offsets best, count most.</summary>
    private sealed class Offsets(int count)
    {
        private readonly double[] _weighted = new double[count], _weights = new double[count];

        // z = d / sd with weight 1 / sd: Σ d/sd² over Σ 1/sd² is the best mean of d, with variance 1 / Σ 1/sd².

        /// <summary>Adds a line of samples to one offset.</summary>
        public void AddAll(int index, ReadOnlySpan<float> z, ReadOnlySpan<float> weights)
        {
            _weighted[index] += Product(z, weights);
            _weights[index] += Product(weights, weights);
        }

        /// <summary>Adds a line of samples, each to the offset of its own place.</summary>
        [MethodImpl(MethodImplOptions.AggressiveOptimization)]
        public void AddEach(ReadOnlySpan<float> z, ReadOnlySpan<float> weights)
        {
            int i = 0;
            for (; i + Vector256<float>.Count <= z.Length; i += Vector256<float>.Count)
            {
                Vector256<float> v = Vector256.Create(z[i..]), w = Vector256.Create(weights[i..]);
                Vector256<double> lower = Vector256.WidenLower(w), upper = Vector256.WidenUpper(w);
                Add(_weighted, i, Vector256.WidenLower(v) * lower);
                Add(_weighted, i + Vector256<double>.Count, Vector256.WidenUpper(v) * upper);
                Add(_weights, i, lower * lower);
                Add(_weights, i + Vector256<double>.Count, upper * upper);
            }

            for (; i < z.Length; i++)
            {
                _weighted[i] += (double)z[i] * weights[i];
                _weights[i] += weights[i] * (double)weights[i];
            }

            static void Add(double[] to, int at, Vector256<double> v) => (Vector256.Create(to, at) + v).CopyTo(to, at);
        }

        /// <summary>Takes one offset off a line of samples.</summary>
        [MethodImpl(MethodImplOptions.AggressiveOptimization)]
        public void TakeFromAll(int index, Span<float> z, ReadOnlySpan<float> weights)
        {
            if (_weights[index] <= 0) return;
            float offset = (float)(_weighted[index] / _weights[index]);
            int i = 0;
            for (; i + Vector256<float>.Count <= z.Length; i += Vector256<float>.Count)
                (Vector256.Create<float>(z[i..]) - offset * Vector256.Create(weights[i..])).CopyTo(z[i..]);
            for (; i < z.Length; i++) z[i] -= offset * weights[i];
        }

        /// <summary>All offsets, DN; 0 where nothing was added.</summary>
        public float[] Means()
        {
            var means = new float[_weights.Length];
            for (int i = 0; i < means.Length; i++)
                if (_weights[i] > 0) means[i] = (float)(_weighted[i] / _weights[i]);
            return means;
        }

        /// <summary>Variance of the offsets of one frame beyond what white noise gives, DN², and its standard error.</summary>
        public (double Square, double Error) Noise()
        {
            // Slow changes of light over the frame are no banding: each offset is compared with the mean of the two beside it.
            double estimate = 0, total = 0, variance = 0;
            double guess = 0;
            for (int round = 0; round < 3; round++)
            {
                estimate = total = variance = 0;
                int previous = -1, before = -1;
                for (int i = 0; i < _weights.Length; i++)
                {
                    if (_weights[i] <= 0) continue;
                    if (before >= 0)
                    {
                        double residual = _weighted[previous] / _weights[previous]
                            - (_weighted[before] / _weights[before] + _weighted[i] / _weights[i]) / 2;
                        double white = 1 / _weights[previous] + (1 / _weights[before] + 1 / _weights[i]) / 4;
                        double spread = white + 1.5 * guess;
                        double w = 1 / (spread * spread);
                        estimate += w * (residual * residual - white) / 1.5;
                        total += w;
                        variance += w * w * 2 * spread * spread / (1.5 * 1.5);
                    }

                    before = previous;
                    previous = i;
                }

                if (total == 0) return (0, double.PositiveInfinity);
                guess = Math.Max(0, estimate / total);
            }

            // Neighbouring residuals share rows: their squares are correlated (lags −2/3 and 1/6, squared), which leaves the share below.
            const double shared = 1 + 2 * (4.0 / 9 + 1.0 / 36);
            return (Math.Max(0, estimate / total) / 2, Math.Sqrt(variance * shared) / total / 2);
        }
    }
}
