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
    private const int MostPixels = 4_000_000;

    /// <summary>Measures one plane.</summary>
    /// <remarks>
    /// Each difference is divided by the sd that the pair itself shows at that brightness, so that bright parts do not outvote
    /// dark ones; row and column means are taken off, so that banding does not pass for smoothing. White noise then correlates
    /// as −1/n ± 1/√n (SEN-45). On a 2×2 mosaic the neighbour of the same colour is two pixels away. On larger cells two
    /// neighbours are tested, the nearest of the same colour and the same site of the next cell, and the larger one is told.
    /// </remarks>
    public static Whiteness Of(MosaicFrame first, MosaicFrame second, TileSums sums, int plane, PairNoise noise, double blackDn)
    {
        TileLayout layout = sums.Layout;
        int width = layout.Columns * layout.Width;
        int[] tileRows = SelectTileRows(layout);
        int rows = tileRows.Length * layout.Height;
        var z = new float[rows * width];
        var weights = new float[rows * width];
        Array.Fill(z, float.NaN);

        for (int band = 0; band < tileRows.Length; band++)
            FillBand(first, second, layout, plane, noise, blackDn, tileRows[band], band, width, z, weights);

        var byRow = new Offsets(rows);
        var byColumn = new Offsets(width);
        for (int y = 0, i = 0; y < rows; y++)
        {
            for (int x = 0; x < width; x++, i++)
            {
                if (float.IsNaN(z[i])) continue;
                byRow.Add(y, z[i], weights[i]);
                byColumn.Add(x, z[i], weights[i]);
            }
        }

        Flatten(z, width, rows);
        double x1 = 0, y1 = 0;
        long least = long.MaxValue;
        foreach (var (dx, dy) in Steps(layout, plane))
        {
            var (r, n) = Correlate(z, width, rows, layout, plane, dx, dy);
            if (n == 0) continue;
            if (dy == 0) x1 = Larger(x1, r);
            else y1 = Larger(y1, r);
            least = Math.Min(least, n);
        }

        var (row, rowError) = byRow.Noise();
        return new Whiteness(x1, y1, least == long.MaxValue ? 0 : least, Math.Sqrt(row), rowError, Math.Sqrt(byColumn.Noise().Square));
    }

    private static double Larger(double a, double b) => Math.Abs(b) > Math.Abs(a) ? b : a;

    private static int[] SelectTileRows(TileLayout layout)
    {
        int perTileRow = layout.Columns * layout.Width * layout.Height;
        int wanted = Math.Clamp(MostPixels / Math.Max(1, perTileRow), 1, layout.Rows);
        return [.. Enumerable.Range(0, wanted).Select(i => (int)((long)i * layout.Rows / wanted))];
    }

    private static void FillBand(
        MosaicFrame first, MosaicFrame second, TileLayout layout, int plane, PairNoise noise, double blackDn, int tileRow, int band, int width, float[] z, float[] weights)
    {
        float beta = (float)noise.Imbalance, twoBlack = (float)(2 * blackDn);
        for (int column = 0; column < layout.Columns; column++)
        {
            int tile = tileRow * layout.Columns + column;
            if (!noise.Keeps(tile)) continue;
            float sd = (float)Math.Sqrt(2 * noise.VarianceAt(tile));
            for (int y = 0; y < layout.Height; y++)
            {
                int site = y % layout.CellRows * layout.CellColumns;
                ReadOnlySpan<ushort> a = first.Row(tileRow * layout.Height + y), b = second.Row(tileRow * layout.Height + y);
                int at = (band * layout.Height + y) * width;
                for (int x = column * layout.Width; x < (column + 1) * layout.Width; x++)
                {
                    if (layout.PlaneOfSite[site + x % layout.CellColumns] != plane) continue;
                    z[at + x] = (a[x] - b[x] - beta * (a[x] + b[x] - twoBlack)) / sd;
                    weights[at + x] = 1 / sd;
                }
            }
        }
    }

    /// <summary>Takes row means and then column means off.</summary>
    private static void Flatten(float[] z, int width, int rows)
    {
        var sum = new double[width];
        var count = new int[width];
        for (int y = 0; y < rows; y++)
        {
            Span<float> row = z.AsSpan(y * width, width);
            double rowSum = 0;
            int n = 0;
            foreach (float value in row)
            {
                if (float.IsNaN(value)) continue;
                rowSum += value;
                n++;
            }

            if (n == 0) continue;
            float mean = (float)(rowSum / n);
            for (int x = 0; x < width; x++)
            {
                row[x] -= mean;
                if (float.IsNaN(row[x])) continue;
                sum[x] += row[x];
                count[x]++;
            }
        }

        for (int y = 0; y < rows; y++)
            for (int x = 0; x < width; x++)
                if (count[x] > 0) z[y * width + x] -= (float)(sum[x] / count[x]);
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

    private static (double Correlation, long Samples) Correlate(float[] z, int width, int rows, TileLayout layout, int plane, int dx, int dy)
    {
        double product = 0, squares = 0;
        long n = 0, m = 0;
        for (int y = 0; y < rows; y++)
        {
            // Bands of tile rows need not touch: a neighbour below counts only inside its own band.
            bool inside = y % layout.Height + dy < layout.Height;
            for (int x = 0; x < width; x++)
            {
                float value = z[y * width + x];
                if (float.IsNaN(value)) continue;
                squares += value * value;
                m++;
                if (!inside || x + dx >= width) continue;
                float other = z[(y + dy) * width + x + dx];
                if (float.IsNaN(other)) continue;
                product += value * other;
                n++;
            }
        }

        return n == 0 || squares == 0 ? (0, 0) : (product / n / (squares / m), n);
    }

    /// <summary>Means of rows (or columns), weighted so that dark samples, which show offsets best, count most.</summary>
    private sealed class Offsets(int count)
    {
        private readonly double[] _weighted = new double[count], _weights = new double[count];

        // z = d / sd with weight 1 / sd: Σ d/sd² over Σ 1/sd² is the best mean of d, with variance 1 / Σ 1/sd².
        public void Add(int index, float z, float weight)
        {
            _weighted[index] += z * weight;
            _weights[index] += weight * (double)weight;
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
