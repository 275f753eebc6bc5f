using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;
using Leafstop.Raw.Frames;

namespace Leafstop.Raw.Measurement;

/// <summary>Sums two frames tile by tile: one plain method that is the definition, one vector method that gives the same numbers.</summary>
internal static class TileSummation
{
    /// <summary>Sums with the fastest method that is exact for these frames.</summary>
    /// <param name="first">First frame.</param>
    /// <param name="second">Second frame of the same geometry; the first again to look at one frame alone.</param>
    /// <param name="largestSample">A bound on every sample of both frames.</param>
    /// <param name="every">1 for all rows of tiles; n for every n-th from the first one, the others staying 0.</param>
    public static TileSums Of(MosaicFrame first, MosaicFrame second, int largestSample, int every = 1)
    {
        var sums = new TileSums(new TileLayout(first.Header.Mosaic, first.Width, first.Height), allStored: every == 1);
        if (VectorFits(sums.Layout, largestSample)) Vectorised(first, second, sums, every);
        else Scalar(first, second, sums, every);
        return sums;
    }

    /// <summary>The vector method takes samples below 2^14, the 24-column tile and AVX2.</summary>
    public static bool VectorFits(TileLayout layout, int largestSample) =>
        Avx2.IsSupported && largestSample <= 16383 && layout.Width == 24;

    /// <summary>The definition.</summary>
    public static void Scalar(MosaicFrame first, MosaicFrame second, TileSums sums, int every = 1)
    {
        TileLayout layout = sums.Layout;
        for (int row = 0; row < layout.Rows; row += every)
            for (int column = 0; column < layout.Columns; column++)
                ScalarTile(first, second, sums, row, column);
    }

    private static void ScalarTile(MosaicFrame first, MosaicFrame second, TileSums sums, int row, int column)
    {
        TileLayout layout = sums.Layout;
        int tile = row * layout.Columns + column;
        for (int plane = 0; plane < layout.Planes; plane++)
        {
            int sum = 0, difference = 0;
            long dd = 0, sd = 0, ss = 0;
            ushort largest = 0, smallest = ushort.MaxValue;
            int scale = layout.RowScale[plane];
            for (int y = 0; y < layout.Height; y++)
            {
                int site = y % layout.CellRows * layout.CellColumns;
                int perRow = layout.PerRow[plane][y % layout.CellRows];
                if (perRow == 0) continue;
                ReadOnlySpan<ushort> a = first.Row(row * layout.Height + y).Slice(column * layout.Width, layout.Width);
                ReadOnlySpan<ushort> b = second.Row(row * layout.Height + y).Slice(column * layout.Width, layout.Width);
                long rowSum = 0, rowDifference = 0, rowDd = 0, rowSd = 0, rowSs = 0;
                for (int x = 0; x < a.Length; x++)
                {
                    if (layout.PlaneOfSite[site + x % layout.CellColumns] != plane) continue;
                    int s = a[x] + b[x], d = a[x] - b[x];
                    rowSum += s;
                    rowDifference += d;
                    rowDd += (long)d * d;
                    rowSd += (long)s * d;
                    rowSs += (long)s * s;
                    largest = Math.Max(largest, Math.Max(a[x], b[x]));
                    smallest = Math.Min(smallest, Math.Min(a[x], b[x]));
                }

                sum += (int)rowSum;
                difference += (int)rowDifference;
                int share = scale / perRow;
                dd += scale * rowDd - share * rowDifference * rowDifference;
                sd += scale * rowSd - share * rowSum * rowDifference;
                ss += scale * rowSs - share * rowSum * rowSum;
            }

            sums.Sum[plane][tile] = sum;
            sums.Difference[plane][tile] = difference;
            sums.DD[plane][tile] = dd;
            sums.SD[plane][tile] = sd;
            sums.SS[plane][tile] = ss;
            sums.Largest[plane][tile] = largest;
            sums.Smallest[plane][tile] = smallest;
        }
    }

    /// <summary>The same sums, 16 samples at a time.</summary>
    /// <remarks>
    /// Two tiles lie side by side in 48 columns, three vectors of 16: the middle one belongs half to each. Differences and
    /// centred sums of samples below 2^14 fit 16 bits; a product of two of them, added to its neighbour, fits 30 bits; one row
    /// of a tile adds three such values in a lane, which still fits 32 bits; from there on everything is 64-bit.
    /// Centring s by a constant changes no second moment about a row mean, and the sum is put back at the end.
    /// </remarks>
    public static void Vectorised(MosaicFrame first, MosaicFrame second, TileSums sums, int every = 1)
    {
        TileLayout layout = sums.Layout;
        if (AlternatingTiles.Fits(layout))
        {
            AlternatingTiles.Sum(first, second, sums, every);
            if (layout.Columns % 2 == 1)
                for (int row = 0; row < layout.Rows; row += every) ScalarTile(first, second, sums, row, layout.Columns - 1);
            return;
        }

        RowMasks[] masks = [.. Enumerable.Range(0, layout.CellRows).Select(y => new RowMasks(layout, y))];
        Parallel.For(0, (layout.Rows + every - 1) / every, part =>
        {
            int row = part * every;
            ReadOnlySpan<ushort> a = first.Samples.Span, b = second.Samples.Span;
            var totals = new Totals[2 * layout.Planes];
            for (int column = 0; column + 1 < layout.Columns; column += 2)
            {
                Array.Clear(totals);
                for (int y = 0; y < layout.Height; y++)
                {
                    int frameRow = row * layout.Height + y;
                    ref ushort ra = ref Unsafe.AsRef(in a[(first.Top + frameRow) * first.Stride + first.Left + column * 24]);
                    ref ushort rb = ref Unsafe.AsRef(in b[(second.Top + frameRow) * second.Stride + second.Left + column * 24]);
                    AddRow(ref ra, ref rb, masks[y % layout.CellRows], totals);
                }

                int tile = row * layout.Columns + column;
                for (int plane = 0; plane < layout.Planes; plane++)
                {
                    Store(sums, plane, tile, totals[2 * plane]);
                    Store(sums, plane, tile + 1, totals[2 * plane + 1]);
                }
            }

            if (layout.Columns % 2 == 1) ScalarTile(first, second, sums, row, layout.Columns - 1);
        });
    }

    private const short Centre = 16384;

    private static void AddRow(ref ushort a, ref ushort b, RowMasks row, Totals[] totals)
    {
        Vector256<short> a0 = Load(ref a, 0), a1 = Load(ref a, 16), a2 = Load(ref a, 32);
        Vector256<short> b0 = Load(ref b, 0), b1 = Load(ref b, 16), b2 = Load(ref b, 32);
        Vector256<short> centre = Vector256.Create(Centre), ones = Vector256.Create((short)1);
        Vector256<short> d0 = a0 - b0, d1 = a1 - b1, d2 = a2 - b2;
        Vector256<short> s0 = a0 + b0 - centre, s1 = a1 + b1 - centre, s2 = a2 + b2 - centre;
        Vector256<short> top0 = Vector256.Max(a0, b0), top1 = Vector256.Max(a1, b1), top2 = Vector256.Max(a2, b2);
        Vector256<ushort> low0 = Vector256.Min(a0, b0).AsUInt16(), low1 = Vector256.Min(a1, b1).AsUInt16(), low2 = Vector256.Min(a2, b2).AsUInt16();

        foreach (PlaneMask plane in row.Planes)
        {
            Vector256<short> m0 = plane.Mask0, m1 = plane.Mask1, m2 = plane.Mask2;
            Vector256<short> md0 = d0 & m0, md1 = d1 & m1, md2 = d2 & m2;
            Vector256<short> ms0 = s0 & m0, ms1 = s1 & m1, ms2 = s2 & m2;

            Split(Avx2.MultiplyAddAdjacent(md0, ones), Avx2.MultiplyAddAdjacent(md1, ones), Avx2.MultiplyAddAdjacent(md2, ones), out var dl, out var dr);
            Split(Avx2.MultiplyAddAdjacent(ms0, ones), Avx2.MultiplyAddAdjacent(ms1, ones), Avx2.MultiplyAddAdjacent(ms2, ones), out var sl, out var sr);
            Split(Avx2.MultiplyAddAdjacent(md0, d0), Avx2.MultiplyAddAdjacent(md1, d1), Avx2.MultiplyAddAdjacent(md2, d2), out var ddl, out var ddr);
            Split(Avx2.MultiplyAddAdjacent(ms0, d0), Avx2.MultiplyAddAdjacent(ms1, d1), Avx2.MultiplyAddAdjacent(ms2, d2), out var sdl, out var sdr);
            Split(Avx2.MultiplyAddAdjacent(ms0, s0), Avx2.MultiplyAddAdjacent(ms1, s1), Avx2.MultiplyAddAdjacent(ms2, s2), out var ssl, out var ssr);

            // The four row sums at once: pairs of lanes are added until one value a quarter is left.
            Vector256<int> left = Avx2.HorizontalAdd(dl, sl), right = Avx2.HorizontalAdd(dr, sr);
            Vector256<int> both = Avx2.HorizontalAdd(left, right);
            Vector128<int> four = both.GetLower() + both.GetUpper();

            Vector256<short> top = Vector256.Max(top0 & m0, top1 & m1 & LowerHalf), topRight = Vector256.Max(top2 & m2, top1 & m1 & UpperHalf);
            Vector256<ushort> not1 = low1 | (~m1).AsUInt16();
            Vector256<ushort> low = Vector256.Min(low0 | (~m0).AsUInt16(), not1 | UpperHalf.AsUInt16());
            Vector256<ushort> lowRight = Vector256.Min(low2 | (~m2).AsUInt16(), not1 | LowerHalf.AsUInt16());
            totals[plane.Index * 2].Add(four[0], four[1], Wide(ddl), Wide(sdl), Wide(ssl), plane, top.AsUInt16(), low);
            totals[plane.Index * 2 + 1].Add(four[2], four[3], Wide(ddr), Wide(sdr), Wide(ssr), plane, topRight.AsUInt16(), lowRight);
        }
    }

    // Samples are below 2^14, so as signed numbers they keep their order; a masked-out lane is 0 for the largest and 0xFFFF,
    // which is the largest unsigned number, for the smallest.
    private static readonly Vector256<short> LowerHalf = Vector256.Create(Vector128.Create((short)-1), Vector128<short>.Zero);
    private static readonly Vector256<short> UpperHalf = Vector256.Create(Vector128<short>.Zero, Vector128.Create((short)-1));

    private static Vector256<short> Load(ref ushort at, int offset) => Vector256.LoadUnsafe(ref at, (nuint)offset).AsInt16();

    private static void Split(Vector256<int> v0, Vector256<int> v1, Vector256<int> v2, out Vector256<int> left, out Vector256<int> right)
    {
        left = v0 + Vector256.Create(v1.GetLower(), Vector128<int>.Zero);
        right = v2 + Vector256.Create(v1.GetUpper(), Vector128<int>.Zero);
    }

    private static Vector256<long> Wide(Vector256<int> v) => Vector256.WidenLower(v) + Vector256.WidenUpper(v);

    private static void Store(TileSums sums, int plane, int tile, in Totals total)
    {
        int scale = sums.Layout.RowScale[plane];
        sums.Sum[plane][tile] = total.Sum + Centre * sums.Layout.PerTile[plane];
        sums.Difference[plane][tile] = total.Difference;
        sums.DD[plane][tile] = scale * Vector256.Sum(total.DD) - total.RowDD;
        sums.SD[plane][tile] = scale * Vector256.Sum(total.SD) - total.RowSD;
        sums.SS[plane][tile] = scale * Vector256.Sum(total.SS) - total.RowSS;
        sums.Largest[plane][tile] = total.LargestOf();
        sums.Smallest[plane][tile] = total.SmallestOf();
    }

    [StructLayout(LayoutKind.Auto)]
    private struct Totals
    {
        public int Sum, Difference;
        public long RowDD, RowSD, RowSS;
        public Vector256<long> DD, SD, SS;
        private Vector256<ushort> _largest, _inverseSmallest;

        public void Add(int d, int s, Vector256<long> dd, Vector256<long> sd, Vector256<long> ss, PlaneMask plane, Vector256<ushort> top, Vector256<ushort> low)
        {
            Sum += s;
            Difference += d;
            long share = plane.Share;
            RowDD += share * d * d;
            RowSD += share * s * d;
            RowSS += share * s * s;
            DD += dd;
            SD += sd;
            SS += ss;
            _largest = Vector256.Max(_largest, top);
            _inverseSmallest = Vector256.Max(_inverseSmallest, ~low);
        }

        public readonly ushort LargestOf() => Top(_largest);

        public readonly ushort SmallestOf() => (ushort)~Top(_inverseSmallest);

        private static ushort Top(Vector256<ushort> v)
        {
            ushort top = 0;
            for (int i = 0; i < Vector256<ushort>.Count; i++) top = Math.Max(top, v[i]);
            return top;
        }
    }

    /// <summary>The planes that have samples in one row of the cell.</summary>
    private sealed class RowMasks
    {
        public RowMasks(TileLayout layout, int y)
        {
            var planes = new List<PlaneMask>();
            for (int plane = 0; plane < layout.Planes; plane++)
            {
                if (layout.PerRow[plane][y] == 0) continue;
                var lanes = new short[48];
                for (int x = 0; x < lanes.Length; x++)
                    if (layout.PlaneOfSite[y * layout.CellColumns + x % layout.CellColumns] == plane) lanes[x] = -1;
                planes.Add(new PlaneMask(plane, layout.RowScale[plane] / layout.PerRow[plane][y],
                    Vector256.Create(lanes, 0), Vector256.Create(lanes, 16), Vector256.Create(lanes, 32)));
            }

            Planes = [.. planes];
        }

        public PlaneMask[] Planes { get; }
    }

    private sealed record PlaneMask(int Index, int Share, Vector256<short> Mask0, Vector256<short> Mask1, Vector256<short> Mask2);
}
