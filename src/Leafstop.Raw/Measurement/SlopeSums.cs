using System.Numerics;

namespace Leafstop.Raw.Measurement;

/// <summary>Sums over the samples of two pictures a and b and the slopes x and y of a, in double precision, several samples at a time.</summary>
internal sealed class SlopeSums
{
    private Vector<double> _x, _y, _a, _b, _xx, _xy, _xa, _xb, _yy, _ya, _yb, _aa, _ab, _bb;

    public double Count { get; private set; }

    public double X => Vector.Sum(_x);

    public double Y => Vector.Sum(_y);

    public double A => Vector.Sum(_a);

    public double B => Vector.Sum(_b);

    public double XX => Vector.Sum(_xx);

    public double XY => Vector.Sum(_xy);

    public double XA => Vector.Sum(_xa);

    public double XB => Vector.Sum(_xb);

    public double YY => Vector.Sum(_yy);

    public double YA => Vector.Sum(_ya);

    public double YB => Vector.Sum(_yb);

    public double AA => Vector.Sum(_aa);

    public double AB => Vector.Sum(_ab);

    public double BB => Vector.Sum(_bb);

    /// <summary>Adds the columns from <paramref name="start"/> up to, but not with, <paramref name="end"/> of one row; the row has a column on either side of them.</summary>
    public void Add(ReadOnlySpan<float> above, ReadOnlySpan<float> row, ReadOnlySpan<float> below, ReadOnlySpan<float> other, int start, int end)
    {
        if (end <= start) return;
        Count += end - start;
        int x = start;
        for (; x + Vector<float>.Count <= end; x += Vector<float>.Count)
        {
            Add(
                (new Vector<float>(row[(x + 1)..]) - new Vector<float>(row[(x - 1)..])) * 0.5f,
                (new Vector<float>(below[x..]) - new Vector<float>(above[x..])) * 0.5f,
                new Vector<float>(row[x..]),
                new Vector<float>(other[x..]));
        }

        if (x == end) return;
        // What is left over fills a part of one vector; zeros add nothing.
        Span<float> slopeX = stackalloc float[Vector<float>.Count], slopeY = stackalloc float[Vector<float>.Count];
        Span<float> a = stackalloc float[Vector<float>.Count], b = stackalloc float[Vector<float>.Count];
        slopeX.Clear();
        slopeY.Clear();
        a.Clear();
        b.Clear();
        for (int i = 0; x < end; i++, x++)
            (slopeX[i], slopeY[i], a[i], b[i]) = ((row[x + 1] - row[x - 1]) * 0.5f, (below[x] - above[x]) * 0.5f, row[x], other[x]);
        Add(new Vector<float>(slopeX), new Vector<float>(slopeY), new Vector<float>(a), new Vector<float>(b));
    }

    private void Add(Vector<float> x, Vector<float> y, Vector<float> a, Vector<float> b)
    {
        Vector.Widen(x, out Vector<double> x0, out Vector<double> x1);
        Vector.Widen(y, out Vector<double> y0, out Vector<double> y1);
        Vector.Widen(a, out Vector<double> a0, out Vector<double> a1);
        Vector.Widen(b, out Vector<double> b0, out Vector<double> b1);
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
