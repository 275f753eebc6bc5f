using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace Leafstop.Raw.Measurement;

/// <summary>Sums over the samples of two pictures a and b and the slopes x and y of a, in double precision, several samples at a time.</summary>
internal sealed class SlopeSums
{
    private Vector256<double> _x, _y, _a, _b, _xx, _xy, _xa, _xb, _yy, _ya, _yb, _aa, _ab, _bb;

    public double Count { get; private set; }

    public double X => Vector256.Sum(_x);

    public double Y => Vector256.Sum(_y);

    public double A => Vector256.Sum(_a);

    public double B => Vector256.Sum(_b);

    public double XX => Vector256.Sum(_xx);

    public double XY => Vector256.Sum(_xy);

    public double XA => Vector256.Sum(_xa);

    public double XB => Vector256.Sum(_xb);

    public double YY => Vector256.Sum(_yy);

    public double YA => Vector256.Sum(_ya);

    public double YB => Vector256.Sum(_yb);

    public double AA => Vector256.Sum(_aa);

    public double AB => Vector256.Sum(_ab);

    public double BB => Vector256.Sum(_bb);

    /// <summary>Adds the columns from <paramref name="start"/> up to, but not with, <paramref name="end"/> of one row; the row has a column on either side of them.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public void Add(ReadOnlySpan<float> above, ReadOnlySpan<float> row, ReadOnlySpan<float> below, ReadOnlySpan<float> other, int start, int end)
    {
        if (end <= start) return;
        Count += end - start;
        int x = start;
        for (; x + Vector256<float>.Count <= end; x += Vector256<float>.Count)
        {
            Add(
                (Vector256.Create(row[(x + 1)..]) - Vector256.Create(row[(x - 1)..])) * 0.5f,
                (Vector256.Create(below[x..]) - Vector256.Create(above[x..])) * 0.5f,
                Vector256.Create(row[x..]),
                Vector256.Create(other[x..]));
        }

        if (x == end) return;
        // What is left over fills a part of one vector; zeros add nothing.
        Span<float> slopeX = stackalloc float[Vector256<float>.Count], slopeY = stackalloc float[Vector256<float>.Count];
        Span<float> a = stackalloc float[Vector256<float>.Count], b = stackalloc float[Vector256<float>.Count];
        slopeX.Clear();
        slopeY.Clear();
        a.Clear();
        b.Clear();
        for (int i = 0; x < end; i++, x++)
            (slopeX[i], slopeY[i], a[i], b[i]) = ((row[x + 1] - row[x - 1]) * 0.5f, (below[x] - above[x]) * 0.5f, row[x], other[x]);
        Add(Vector256.Create<float>(slopeX), Vector256.Create<float>(slopeY), Vector256.Create<float>(a), Vector256.Create<float>(b));
    }

    private void Add(Vector256<float> x, Vector256<float> y, Vector256<float> a, Vector256<float> b)
    {
        Vector256<double> x0 = Vector256.WidenLower(x), x1 = Vector256.WidenUpper(x);
        Vector256<double> y0 = Vector256.WidenLower(y), y1 = Vector256.WidenUpper(y);
        Vector256<double> a0 = Vector256.WidenLower(a), a1 = Vector256.WidenUpper(a);
        Vector256<double> b0 = Vector256.WidenLower(b), b1 = Vector256.WidenUpper(b);
        _x += x0 + x1;
        _y += y0 + y1;
        _a += a0 + a1;
        _b += b0 + b1;
        _xx += x0 * x0 + x1 * x1;
        _xy += x0 * y0 + x1 * y1;
        _xa += x0 * a0 + x1 * a1;
        _xb += x0 * b0 + x1 * b1;
        _yy += y0 * y0 + y1 * y1;
        _ya += y0 * a0 + y1 * a1;
        _yb += y0 * b0 + y1 * b1;
        _aa += a0 * a0 + a1 * a1;
        _ab += a0 * b0 + a1 * b1;
        _bb += b0 * b0 + b1 * b1;
    }
}
