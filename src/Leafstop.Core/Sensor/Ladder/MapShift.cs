namespace Leafstop.Core.Sensor;

/// <summary>How far one frame's picture is shifted against another's, from their coarse maps.</summary>
/// <param name="XPx">Shift of the second to the right, sensor pixels.</param>
/// <param name="YPx">Shift of the second downwards, sensor pixels.</param>
/// <param name="ErrorPx">Standard error of either.</param>
/// <remarks>
/// Both maps are smoothed, made logarithmic (so that a difference of light is an offset) and compared by least squares: second − first = offset − gradient · shift,
/// with the mean gradient of both and blocks that fit badly counted less (Huber). The error is the larger of the residual's and of the scatter of
/// four quarters of the frame, so that a change of light across the scene is not taken for a shift. Our own method. Range: shifts below a third of a block.
/// </remarks>
internal sealed record MapShift(double XPx, double YPx, double ErrorPx)
{
    private const double LeastSignalDn = 16;
    private const int LeastBlocks = 48;
    private const int Rounds = 5;
    private const int MostForScale = 2000;
    private const double Huber = 1.5;

    /// <summary>Length of the shift, sensor pixels.</summary>
    public double LengthPx => Math.Sqrt(XPx * XPx + YPx * YPx);

    /// <summary>Compares two maps; null when too few blocks can be compared or the scene has no detail.</summary>
    public static MapShift? Of(LevelMap first, double firstBlack, LevelMap second, double secondBlack)
    {
        if (first.Columns != second.Columns || first.Rows != second.Rows) return null;
        double[] a = Smoothed(first, firstBlack), b = Smoothed(second, secondBlack);
        List<Row> rows = [];
        int w = first.Columns, h = first.Rows;
        for (int y = 1; y < h - 1; y++)
        {
            for (int x = 1; x < w - 1; x++)
            {
                int i = y * w + x;
                double gx = (a[i + 1] - a[i - 1] + b[i + 1] - b[i - 1]) / (4 * first.BlockWidth);
                double gy = (a[i + w] - a[i - w] + b[i + w] - b[i - w]) / (4 * first.BlockHeight);
                double d = b[i] - a[i];
                if (double.IsNaN(gx) || double.IsNaN(gy) || double.IsNaN(d)) continue;
                rows.Add(new Row(-gx, -gy, d, (y * 2 / h) * 2 + x * 2 / w));
            }
        }

        if (Solve(rows) is not { } whole) return null;
        MapShift[] quarters = [.. Enumerable.Range(0, 4).Select(q => Solve(rows.FindAll(r => r.Quarter == q))).OfType<MapShift>()];
        double scatter = quarters.Length < 3
            ? 0
            : Math.Sqrt(quarters.Average(q => (Square(q.XPx - whole.XPx) + Square(q.YPx - whole.YPx)) / 2) / (quarters.Length - 1));
        return whole with { ErrorPx = Math.Max(whole.ErrorPx, scatter) };
    }

    /// <summary>log2 of the signal after a 3×3 binomial; NaN where a block is clipped, dark or at the edge.</summary>
    private static double[] Smoothed(LevelMap map, double black)
    {
        int w = map.Columns, h = map.Rows;
        double[] logs = new double[w * h];
        Array.Fill(logs, double.NaN);
        for (int y = 1; y < h - 1; y++)
        {
            for (int x = 1; x < w - 1; x++)
            {
                double sum = 0;
                for (int dy = -1; dy <= 1; dy++)
                {
                    for (int dx = -1; dx <= 1; dx++)
                    {
                        float value = map.MeanRawDn[(y + dy) * w + x + dx];
                        sum += (2 - Math.Abs(dx)) * (2 - Math.Abs(dy)) * (value < 0 ? double.NaN : value - black);
                    }
                }

                if (sum / 16 >= LeastSignalDn) logs[y * w + x] = Math.Log2(sum / 16);
            }
        }

        return logs;
    }

    private static MapShift? Solve(List<Row> rows)
    {
        if (rows.Count < LeastBlocks / 4) return null;
        int stride = rows.Count / MostForScale + 1;
        double[] weights = new double[rows.Count];
        Array.Fill(weights, 1);
        double offset = 0, sx = 0, sy = 0, error = 0;
        for (int round = 0; round < Rounds; round++)
        {
            double n = 0, x = 0, y = 0, d = 0;
            for (int i = 0; i < rows.Count; i++)
            {
                n += weights[i];
                x += weights[i] * rows[i].X;
                y += weights[i] * rows[i].Y;
                d += weights[i] * rows[i].Difference;
            }

            double xx = 0, xy = 0, yy = 0, xd = 0, yd = 0;
            for (int i = 0; i < rows.Count; i++)
            {
                double dx = rows[i].X - x / n, dy = rows[i].Y - y / n, dd = rows[i].Difference - d / n;
                xx += weights[i] * dx * dx;
                xy += weights[i] * dx * dy;
                yy += weights[i] * dy * dy;
                xd += weights[i] * dx * dd;
                yd += weights[i] * dy * dd;
            }

            double determinant = xx * yy - xy * xy;
            if (!(determinant > 1e-12 * xx * yy) || xx <= 0) return null;
            (sx, sy) = ((yy * xd - xy * yd) / determinant, (xx * yd - xy * xd) / determinant);
            offset = (d - x * sx - y * sy) / n;
            double scale = MedianDeviation.Sigma(Enumerable.Range(0, (rows.Count + stride - 1) / stride).Select(i => Residual(rows[i * stride]))) + 1e-9;
            double squares = 0;
            for (int i = 0; i < rows.Count; i++)
            {
                double size = Math.Abs(Residual(rows[i]));
                weights[i] = Math.Min(1, Huber * scale / Math.Max(size, 1e-12));
                squares += weights[i] * size * size;
            }

            // Smoothing makes neighbours alike: about a third of the blocks are independent along each axis' worth of a 3×3 binomial.
            double variance = squares / Math.Max(1, n - 3) * 3;
            error = Math.Sqrt(variance * Math.Max(xx, yy) / determinant);
        }

        return new MapShift(sx, sy, error);

        double Residual(Row r) => r.Difference - offset - r.X * sx - r.Y * sy;
    }

    private static double Square(double v) => v * v;

    private readonly record struct Row(double X, double Y, double Difference, int Quarter);
}
