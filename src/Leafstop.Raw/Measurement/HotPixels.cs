using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;
using Leafstop.Raw.Frames;

namespace Leafstop.Raw.Measurement;

/// <summary>Pixels that stand far above their dark surroundings in both frames of a pair.</summary>
/// <remarks>
/// Looked for in cap frames and in the dark tiles of a scene. A hot pixel is one sample, alone: it exceeds the tile by many
/// standard deviations in both frames while the eight pixels around it, of whatever colour, do not come near a fifth of that, but for one or two that may be hot themselves.
/// A lens spreads even the smallest light further; a coloured one shows in the samples of its own colour. The tiles that hold one are told by plane: a fixed offset in one sample
/// lifts the mean of a dark tile without its share of noise.
/// </remarks>
internal readonly record struct HotPixels(long Found, long Searched, IReadOnlyList<int>[]? TilesOfPlane)
{
    /// <summary>Without light anything far out is hot; in a scene, texture reaches far out too.</summary>
    private const double SigmasInCap = 8, SigmasInScene = 25;

    /// <summary>Neighbours of any colour stay below this share of the excess; the median of the samples of the same colour around it below that.</summary>
    private const double MostShareBeside = 0.2, MostShareOfColour = 0.04;

    /// <summary>So many neighbours may be hot themselves.</summary>
    private const int MostBeside = 2;

    /// <param name="first">First frame.</param>
    /// <param name="second">Second frame; the first again for one alone.</param>
    /// <param name="sums">Tile sums of the two.</param>
    /// <param name="noise">Per plane: the noise of the pair, which tells the sd.</param>
    /// <param name="blackDn">Per plane.</param>
    /// <param name="clipDn">Clip level, to know what dark is.</param>
    /// <param name="isCap">True for cap frames.</param>
    public static HotPixels In(MosaicFrame first, MosaicFrame second, TileSums sums, PairNoise[] noise, double[] blackDn, int clipDn, bool isCap)
    {
        TileLayout layout = sums.Layout;
        double sigmas = isCap ? SigmasInCap : SigmasInScene;
        double[] leastReach = [.. noise.Select(n => sigmas * Math.Sqrt(n.VarianceAtLeast))], brightest = [.. blackDn.Select(b => b + (clipDn - b) / 16.0)];
        var rows = new (long Found, long Searched, List<(int Plane, int Tile)>? Holders)[layout.Rows];
        Parallel.For(0, layout.Rows, row =>
        {
            double[] means = new double[layout.Planes], limits = new double[layout.Planes];
            var doubts = new Doubt[layout.Columns];
            ref var ofRow = ref rows[row];
            for (int plane = 0; plane < means.Length; plane++)
                Doubts(noise[plane].RowMeans(row), sums.Largest[plane].AsSpan(row * layout.Columns, layout.Columns), leastReach[plane], brightest[plane], doubts);
            for (int column = 0; column < layout.Columns; column++)
            {
                if ((doubts[column] & Doubt.Bright) != 0) continue;
                ofRow.Searched += layout.Width * layout.Height;
                if (doubts[column] == 0) continue;
                // The noise at this very brightness decides; it is looked up only where the least noise anywhere leaves a doubt.
                int tile = row * layout.Columns + column;
                bool suspect = false;
                for (int plane = 0; plane < means.Length; plane++)
                {
                    means[plane] = noise[plane].MeanDn(tile);
                    limits[plane] = means[plane] + sigmas * Math.Sqrt(noise[plane].VarianceAt(tile));
                    suspect |= sums.Largest[plane][tile] > limits[plane];
                }

                if (suspect) ofRow.Found += Search(first, second, layout, tile, means, limits, ofRow.Holders ??= []);
            }
        });
        var holders = rows.SelectMany(r => r.Holders ?? []).Distinct().ToLookup(h => h.Plane, h => h.Tile);
        return new HotPixels(rows.Sum(r => r.Found), rows.Sum(r => r.Searched), [.. Enumerable.Range(0, layout.Planes).Select(p => (IReadOnlyList<int>)[.. holders[p]])]);
    }

    [Flags]
    private enum Doubt : byte
    {
        Bright = 1,
        FarOut = 2,
    }

    /// <summary>Adds what one plane says of a row of tiles: too bright to be looked through, or holding a sample that the least noise anywhere does not explain.</summary>
    private static void Doubts(ReadOnlySpan<double> means, ReadOnlySpan<ushort> largest, double reach, double brightest, Span<Doubt> doubts)
    {
        for (int i = 0; i < doubts.Length; i++)
        {
            Doubt doubt = means[i] < brightest ? 0 : Doubt.Bright;
            if (largest[i] > means[i] + reach) doubt |= Doubt.FarOut;
            doubts[i] |= doubt;
        }
    }

    /// <summary>Asks for the rows of a tile before they are read one after the other: they lie far apart in memory, and waiting for each in turn took most of the time.</summary>
    private static unsafe void Fetch(MosaicFrame frame, int left, int top, TileLayout layout)
    {
        if (!Sse.IsSupported) return;
        for (int y = top; y < top + layout.Height; y++)
        {
            fixed (ushort* row = frame.Row(y).Slice(left, layout.Width))
            {
                Sse.Prefetch0(row);
                Sse.Prefetch0(row + layout.Width - 1);
            }
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static int Search(MosaicFrame first, MosaicFrame second, TileLayout layout, int tile, double[] means, double[] limits, List<(int Plane, int Tile)> holders)
    {
        int left = tile % layout.Columns * layout.Width, top = tile / layout.Columns * layout.Height, found = 0;
        Fetch(first, left, top, layout);
        Fetch(second, left, top, layout);
        // Every sample has a limit of its own plane: laid out like a row of the tile, several are compared at once.
        Span<ushort> limitAt = stackalloc ushort[layout.CellRows * layout.Width];
        for (int y = 0, at = 0; y < layout.CellRows; y++)
            for (int x = 0; x < layout.Width; x++) limitAt[at++] = (ushort)Math.Clamp(limits[layout.PlaneOfSite[y * layout.CellColumns + x % layout.CellColumns]], 0, ushort.MaxValue);
        for (int y = top; y < top + layout.Height; y++)
        {
            ReadOnlySpan<ushort> a = first.Row(y).Slice(left, layout.Width), b = second.Row(y).Slice(left, layout.Width);
            ReadOnlySpan<ushort> limit = limitAt.Slice(y % layout.CellRows * layout.Width, layout.Width);
            int i = 0;
            for (; i + Vector128<ushort>.Count <= a.Length; i += Vector128<ushort>.Count)
            {
                Vector128<ushort> lower = Vector128.Min(Vector128.Create(a[i..]), Vector128.Create(b[i..]));
                if (!Vector128.GreaterThanAny(lower, Vector128.Create(limit[i..]))) continue;
                for (int lane = i; lane < i + Vector128<ushort>.Count; lane++) Try(lane, y, a, b);
            }

            for (; i < a.Length; i++) Try(i, y, a, b);
        }

        return found;

        void Try(int column, int y, ReadOnlySpan<ushort> a, ReadOnlySpan<ushort> b)
        {
            int plane = PlaneAt(column, y);
            if (Math.Min(a[column], b[column]) <= limits[plane] || !IsAlone(left + column, y)) return;
            found++;
            holders.Add((plane, tile));
        }

        int PlaneAt(int x, int y) => layout.PlaneOfSite[y % layout.CellRows * layout.CellColumns + x % layout.CellColumns];

        // A pixel that is hot is so in both frames.
        double Lower(int x, int y) => Math.Min(first.Row(y)[x], second.Row(y)[x]);

        double Excess(int x, int y) => Lower(x, y) - means[PlaneAt(x, y)];

        bool IsAlone(int x, int y)
        {
            double most = MostShareBeside * Excess(x, y);
            int beside = 0;
            for (int ny = Math.Max(0, y - 1); ny <= Math.Min(first.Height - 1, y + 1); ny++)
                for (int nx = Math.Max(0, x - 1); nx <= Math.Min(first.Width - 1, x + 1); nx++)
                    if ((nx, ny) != (x, y) && Excess(nx, ny) > most && ++beside > MostBeside) return false;

            Span<double> like = stackalloc double[24];
            int plane = PlaneAt(x, y), n = 0;
            for (int ny = Math.Max(0, y - 2); ny <= Math.Min(first.Height - 1, y + 2); ny++)
                for (int nx = Math.Max(0, x - 2); nx <= Math.Min(first.Width - 1, x + 2); nx++)
                    if ((nx, ny) != (x, y) && PlaneAt(nx, ny) == plane) like[n++] = (first.Row(ny)[nx] + second.Row(ny)[nx]) / 2.0 - means[plane];
            return n == 0 || OrderStatistic.Median(like[..n]) <= MostShareOfColour * Excess(x, y);
        }
    }
}
