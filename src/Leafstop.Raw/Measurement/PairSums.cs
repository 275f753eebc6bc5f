using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;
using Leafstop.Raw.Frames;

namespace Leafstop.Raw.Measurement;

/// <summary>The plainest statistics of a pair, in whole numbers, for one site of the mosaic cell: no tiles, nothing left out.</summary>
/// <param name="Samples">Samples of one frame.</param>
/// <param name="SumFirst">Σa.</param>
/// <param name="SumSecond">Σb.</param>
/// <param name="SquaredDifference">Σ(a − b)².</param>
/// <remarks>The published sums of EMVA 1288 data are these: Σ(a + b) and 2Σ(a − b)².</remarks>
public readonly record struct PairSums(long Samples, long SumFirst, long SumSecond, long SquaredDifference)
{
    /// <summary>Variance of one frame, half the variance of the difference about its mean, DN² (SEN-26).</summary>
    public double VarianceDn2
    {
        get
        {
            double mean = (double)(SumFirst - SumSecond) / Samples;
            return ((double)SquaredDifference / Samples - mean * mean) / 2;
        }
    }

    /// <summary>Sums over the active area, one entry a site of the mosaic cell, row by row.</summary>
    public static PairSums[] OfSites(MosaicFrame first, MosaicFrame second)
    {
        RequireSameGeometry(first, second);
        int cellRows = first.Header.Mosaic.Rows, cellColumns = first.Header.Mosaic.Columns;
        var sites = new PairSums[cellRows * cellColumns];
        for (int y = 0; y < first.Height; y++)
        {
            ReadOnlySpan<ushort> a = first.Row(y), b = second.Row(y);
            Span<PairSums> row = sites.AsSpan(y % cellRows * cellColumns, cellColumns);
            // Two alternating columns are by far the most common; every other cell takes the plain way.
            if (cellColumns == 2) AddAlternating(a, b, ref row[0], ref row[1]);
            else AddScalar(a, b, row, 0);
        }

        return sites;
    }

    /// <summary>The definition: every sample in turn.</summary>
    internal static PairSums[] Scalar(MosaicFrame first, MosaicFrame second)
    {
        RequireSameGeometry(first, second);
        int cellRows = first.Header.Mosaic.Rows, cellColumns = first.Header.Mosaic.Columns;
        var sites = new PairSums[cellRows * cellColumns];
        for (int y = 0; y < first.Height; y++)
            AddScalar(first.Row(y), second.Row(y), sites.AsSpan(y % cellRows * cellColumns, cellColumns), 0);
        return sites;
    }

    private static void AddScalar(ReadOnlySpan<ushort> a, ReadOnlySpan<ushort> b, Span<PairSums> row, int from)
    {
        for (int x = from; x < a.Length; x++)
        {
            ref PairSums site = ref row[x % row.Length];
            long d = a[x] - b[x];
            site = new PairSums(site.Samples + 1, site.SumFirst + a[x], site.SumSecond + b[x], site.SquaredDifference + d * d);
        }
    }

    /// <summary>16 samples at a time. |a − b| fits 16 unsigned bits, its square 32; squares are widened to 64 bits at once.</summary>
    private static void AddAlternating(ReadOnlySpan<ushort> a, ReadOnlySpan<ushort> b, ref PairSums even, ref PairSums odd)
    {
        int x = 0;
        if (Avx2.IsSupported)
        {
            ref ushort ra = ref Unsafe.AsRef(in a[0]), rb = ref Unsafe.AsRef(in b[0]);
            Vector256<int> low = Vector256.Create(0x0000FFFF);
            Vector256<int> evenA = default, oddA = default, evenB = default, oddB = default;
            Vector256<ulong> evenD = default, oddD = default;
            for (; x + 16 <= a.Length; x += 16)
            {
                Vector256<ushort> va = Vector256.LoadUnsafe(ref ra, (nuint)x), vb = Vector256.LoadUnsafe(ref rb, (nuint)x);
                Vector256<int> ia = va.AsInt32(), ib = vb.AsInt32();
                evenA += ia & low;
                oddA += ia >>> 16;
                evenB += ib & low;
                oddB += ib >>> 16;
                Vector256<uint> d = (Vector256.Max(va, vb) - Vector256.Min(va, vb)).AsUInt32();
                Vector256<uint> de = d & low.AsUInt32(), dodd = d >>> 16;
                evenD += Avx2.Multiply(de, de) + SquareOfUpper(de);
                oddD += Avx2.Multiply(dodd, dodd) + SquareOfUpper(dodd);
            }

            even = even.Plus(x / 2, Vector256.Sum(evenA), Vector256.Sum(evenB), (long)Vector256.Sum(evenD));
            odd = odd.Plus(x / 2, Vector256.Sum(oddA), Vector256.Sum(oddB), (long)Vector256.Sum(oddD));
        }

        for (; x < a.Length; x++)
        {
            long d = a[x] - b[x];
            if (x % 2 == 0) even = even.Plus(1, a[x], b[x], d * d);
            else odd = odd.Plus(1, a[x], b[x], d * d);
        }
    }

    /// <summary>Squares of the upper 32-bit half of each 64-bit lane; <see cref="Avx2.Multiply(Vector256{uint}, Vector256{uint})"/> squares the lower.</summary>
    private static Vector256<ulong> SquareOfUpper(Vector256<uint> v)
    {
        Vector256<uint> upper = (v.AsUInt64() >>> 32).AsUInt32();
        return Avx2.Multiply(upper, upper);
    }

    private PairSums Plus(long samples, long first, long second, long squared) =>
        new(Samples + samples, SumFirst + first, SumSecond + second, SquaredDifference + squared);

    private static void RequireSameGeometry(MosaicFrame first, MosaicFrame second)
    {
        if (first.Width != second.Width || first.Height != second.Height || first.Header.Mosaic != second.Header.Mosaic)
            throw new ArgumentException("Two frames of a pair have the same size and mosaic.", nameof(second));
    }
}
