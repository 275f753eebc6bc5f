using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;
using Leafstop.Raw.Frames;

namespace Leafstop.Raw.Measurement;

/// <summary>Tile sums of a 2×2 mosaic of four planes: each row alternates between two planes, and a tile is 24 × 12.</summary>
/// <remarks>
/// Two tiles lie side by side in 48 columns. Three vectors hold them: the lower half of each is 8 columns of the left tile, the
/// upper half the 8 columns of the right tile that lie 24 further, so nothing has to be parted afterwards. Samples are below
/// 2^14 and are centred by 2^13, which changes no moment about a row mean. A product is then at most 2^26. The six rows of one
/// plane add 18 products in a lane: 18 · 2^26 is below 2^31. Products of even columns alone (e) and of both (t) are added in 32
/// bits; t may wrap, but t − e, taken in the same 32 bits, is the sum of odd columns, which again fits. Sums of a row of a
/// tile stay below 2^18 and their squares are 64-bit.
/// </remarks>
internal static class AlternatingTiles
{
    private const short Centre = 8192;

    /// <summary>Samples from one that is read to the one that is asked for meanwhile: four pairs of tiles.</summary>
    private const int Ahead = 8 * Width;

    private const int Width = 24, Height = 12, RowsOfPlane = Height / 2;

    /// <summary>True when this method gives the sums of such frames.</summary>
    public static bool Fits(TileLayout layout) =>
        layout is { CellRows: 2, CellColumns: 2, Planes: 4, Width: Width, Height: Height };

    /// <summary>Sums the pairs of tiles in every so many rows of tiles; an odd last column of tiles is left to the caller.</summary>
    public static void Sum(MosaicFrame first, MosaicFrame second, TileSums sums, int every)
    {
        TileLayout layout = sums.Layout;
        bool alone = ReferenceEquals(first, second);
        Parallel.For(0, (layout.Rows + every - 1) / every, part =>
        {
            int row = part * every;
            ReadOnlySpan<ushort> a = first.Samples.Span, b = second.Samples.Span;
            for (int parity = 0; parity < 2; parity++)
            {
                int y = row * Height + parity, even = layout.PlaneOfSite[2 * parity], odd = layout.PlaneOfSite[2 * parity + 1];
                ReadOnlySpan<ushort> fromA = a[((first.Top + y) * first.Stride + first.Left)..], fromB = b[((second.Top + y) * second.Stride + second.Left)..];
                for (int column = 0; column + 1 < layout.Columns; column += 2)
                {
                    // The last sample that is read; the slice throws when the frame is smaller than it says.
                    int last = (RowsOfPlane - 1) * 2;
                    _ = fromA[last * first.Stride + column * Width + 2 * Width - 1];
                    _ = fromB[last * second.Stride + column * Width + 2 * Width - 1];
                    ref ushort ra = ref Unsafe.AsRef(in fromA[column * Width]);
                    ref ushort rb = ref Unsafe.AsRef(in fromB[column * Width]);
                    int tile = row * layout.Columns + column;
                    if (alone) SumAlone(ref ra, 2 * first.Stride, sums, tile, even, odd);
                    else SumPair(ref ra, 2 * first.Stride, ref rb, 2 * second.Stride, sums, tile, even, odd);
                }
            }
        });
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void SumPair(ref ushort a, int strideA, ref ushort b, int strideB, TileSums sums, int tile, int even, int odd)
    {
        Vector256<short> evenLanes = Vector256.Create(0x0000FFFF).AsInt16(), ones = Vector256.Create(0x00000001).AsInt16();
        Vector256<short> high = Vector256.Create(short.MinValue), low = Vector256.Create(short.MaxValue);
        Vector256<int> aaEven = default, aaBoth = default, bbEven = default, bbBoth = default, abEven = default, abBoth = default, total = default;
        Vector256<long> rowDD = default, rowSD = default, rowSS = default;
        for (int y = 0; y < RowsOfPlane; y++)
        {
            ref ushort ra = ref Unsafe.Add(ref a, y * strideA);
            ref ushort rb = ref Unsafe.Add(ref b, y * strideB);
            Fetch(ref ra);
            Fetch(ref rb);
            Vector256<short> a0 = Load(ref ra, 0), a1 = Load(ref ra, 8), a2 = Load(ref ra, 16);
            Vector256<short> b0 = Load(ref rb, 0), b1 = Load(ref rb, 8), b2 = Load(ref rb, 16);
            high = Vector256.Max(high, Vector256.Max(Top(a0, a1, a2), Top(b0, b1, b2)));
            low = Vector256.Min(low, Vector256.Min(Bottom(a0, a1, a2), Bottom(b0, b1, b2)));

            Vector256<short> e0 = a0 & evenLanes, e1 = a1 & evenLanes, e2 = a2 & evenLanes;
            aaEven += Products(e0, a0, e1, a1, e2, a2);
            abEven += Products(e0, b0, e1, b1, e2, b2);
            aaBoth += Products(a0, a0, a1, a1, a2, a2);
            abBoth += Products(a0, b0, a1, b1, a2, b2);
            bbEven += Products(b0 & evenLanes, b0, b1 & evenLanes, b1, b2 & evenLanes, b2);
            bbBoth += Products(b0, b0, b1, b1, b2, b2);

            // Three centred samples reach 3 · 2^13, which fits 16 bits.
            Vector256<short> sumA = a0 + a1 + a2, sumB = b0 + b1 + b2;
            Vector256<int> evenA = Avx2.MultiplyAddAdjacent(sumA, ones), oddA = sumA.AsInt32() >> 16;
            Vector256<int> evenB = Avx2.MultiplyAddAdjacent(sumB, ones), oddB = sumB.AsInt32() >> 16;
            Vector256<int> rows = Avx2.HorizontalAdd(
                Avx2.HorizontalAdd(evenA - evenB, oddA - oddB), Avx2.HorizontalAdd(evenA + evenB, oddA + oddB));
            total += rows;
            Vector256<int> d = Avx2.Shuffle(rows, 0b01_01_00_00), s = Avx2.Shuffle(rows, 0b11_11_10_10);
            rowDD += Avx2.Multiply(d, d);
            rowSD += Avx2.Multiply(s, d);
            rowSS += Avx2.Multiply(s, s);
        }

        Vector256<int> aaOdd = aaBoth - aaEven, bbOdd = bbBoth - bbEven, abOdd = abBoth - abEven;
        Vector256<long> aa = Across(aaEven, aaOdd), bb = Across(bbEven, bbOdd), ab = Across(abEven, abOdd);
        Vector256<long> dd = Twelve(aa + bb - (ab << 1)) - rowDD, sd = Twelve(aa - bb) - rowSD, ss = Twelve(aa + bb + (ab << 1)) - rowSS;
        for (int side = 0; side < 2; side++)
        {
            Store(sums, even, tile + side, total[4 * side + 2], total[4 * side], dd[2 * side], sd[2 * side], ss[2 * side]);
            Store(sums, odd, tile + side, total[4 * side + 3], total[4 * side + 1], dd[2 * side + 1], sd[2 * side + 1], ss[2 * side + 1]);
        }

        StoreEnds(sums, tile, even, odd, high, low);
    }

    /// <summary>One frame with itself: d = 0 and s = 2a.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void SumAlone(ref ushort a, int stride, TileSums sums, int tile, int even, int odd)
    {
        Vector256<short> evenLanes = Vector256.Create(0x0000FFFF).AsInt16(), ones = Vector256.Create(0x00000001).AsInt16();
        Vector256<short> high = Vector256.Create(short.MinValue), low = Vector256.Create(short.MaxValue);
        Vector256<int> aaEven = default, aaBoth = default, total = default;
        Vector256<long> rowSS = default;
        for (int y = 0; y < RowsOfPlane; y++)
        {
            ref ushort ra = ref Unsafe.Add(ref a, y * stride);
            Vector256<short> a0 = Load(ref ra, 0), a1 = Load(ref ra, 8), a2 = Load(ref ra, 16);
            high = Vector256.Max(high, Top(a0, a1, a2));
            low = Vector256.Min(low, Bottom(a0, a1, a2));
            aaEven += Products(a0 & evenLanes, a0, a1 & evenLanes, a1, a2 & evenLanes, a2);
            aaBoth += Products(a0, a0, a1, a1, a2, a2);
            Vector256<short> sum = a0 + a1 + a2;
            Vector256<int> pairs = Avx2.HorizontalAdd(Avx2.MultiplyAddAdjacent(sum, ones), sum.AsInt32() >> 16);
            // Each half now is even, even, odd, odd.
            Vector256<int> rows = pairs + Avx2.Shuffle(pairs, 0b10_11_00_01);
            total += rows;
            rowSS += Avx2.Multiply(rows, rows);
        }

        Vector256<long> ss = (Twelve(Across(aaEven, aaBoth - aaEven)) - rowSS) << 2;
        for (int side = 0; side < 2; side++)
        {
            Store(sums, even, tile + side, 2 * total[4 * side], 0, 0, 0, ss[2 * side]);
            Store(sums, odd, tile + side, 2 * total[4 * side + 2], 0, 0, 0, ss[2 * side + 1]);
        }

        StoreEnds(sums, tile, even, odd, high, low);
    }

    /// <summary>Asks for what the tiles further along the row will read: a tile reads from more rows than the processor follows by itself. A pointer past the end of a row, or one that has gone stale, does no harm.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static unsafe void Fetch(ref ushort row) => Sse.Prefetch0(Unsafe.AsPointer(ref Unsafe.Add(ref row, Ahead)));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<short> Load(ref ushort row, int column) =>
        Vector256.Create(
            Vector128.LoadUnsafe(ref row, (nuint)column).AsInt16(),
            Vector128.LoadUnsafe(ref row, (nuint)(column + Width)).AsInt16()) - Vector256.Create(Centre);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<short> Top(Vector256<short> x, Vector256<short> y, Vector256<short> z) => Vector256.Max(Vector256.Max(x, y), z);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<short> Bottom(Vector256<short> x, Vector256<short> y, Vector256<short> z) => Vector256.Min(Vector256.Min(x, y), z);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<int> Products(Vector256<short> x0, Vector256<short> y0, Vector256<short> x1, Vector256<short> y1, Vector256<short> x2, Vector256<short> y2) =>
        Avx2.MultiplyAddAdjacent(x0, y0) + Avx2.MultiplyAddAdjacent(x1, y1) + Avx2.MultiplyAddAdjacent(x2, y2);

    /// <summary>Sums each half of both: even, odd of the left tile, even, odd of the right one.</summary>
    private static Vector256<long> Across(Vector256<int> even, Vector256<int> odd)
    {
        Vector256<long> e = Half(even), o = Half(odd);
        return Avx2.UnpackLow(e, o) + Avx2.UnpackHigh(e, o);

        // Lanes 0 and 2 of each half widen in place, lanes 1 and 3 after a move; the signs are kept.
        static Vector256<long> Half(Vector256<int> v)
        {
            Vector256<int> one = Vector256.Create(1);
            return Avx2.Multiply(v, one) + Avx2.Multiply((v.AsInt64() >>> 32).AsInt32(), one);
        }
    }

    /// <summary>Times the row scale, which is 12 for 12 samples a row.</summary>
    private static Vector256<long> Twelve(Vector256<long> v) => (v << 3) + (v << 2);

    private static void Store(TileSums sums, int plane, int tile, int sum, int difference, long dd, long sd, long ss)
    {
        sums.Sum[plane][tile] = sum + 2 * Centre * (Width / 2 * RowsOfPlane);
        sums.Difference[plane][tile] = difference;
        sums.DD[plane][tile] = dd;
        sums.SD[plane][tile] = sd;
        sums.SS[plane][tile] = ss;
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void StoreEnds(TileSums sums, int tile, int even, int odd, Vector256<short> high, Vector256<short> low)
    {
        for (int side = 0; side < 2; side++)
        {
            Vector128<short> top = side == 0 ? high.GetLower() : high.GetUpper(), bottom = side == 0 ? low.GetLower() : low.GetUpper();
            // Four even and four odd columns alternate: fold the halves, then the quarters.
            top = Vector128.Max(top, Sse2.ShiftRightLogical128BitLane(top, 8));
            top = Vector128.Max(top, Sse2.ShiftRightLogical128BitLane(top, 4));
            bottom = Vector128.Min(bottom, Sse2.ShiftRightLogical128BitLane(bottom, 8));
            bottom = Vector128.Min(bottom, Sse2.ShiftRightLogical128BitLane(bottom, 4));
            sums.Largest[even][tile + side] = (ushort)(top[0] + Centre);
            sums.Largest[odd][tile + side] = (ushort)(top[1] + Centre);
            sums.Smallest[even][tile + side] = (ushort)(bottom[0] + Centre);
            sums.Smallest[odd][tile + side] = (ushort)(bottom[1] + Centre);
        }
    }
}
