using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using Leafstop.Raw.Frames;
using Leafstop.Raw.Measurement;

namespace Leafstop.Raw.Crops;

/// <summary>What two frames have in common, tile by tile; a quarter of a crop is four tiles. Read in stripes, so that it needs little memory, as many at once as there are processors.</summary>
internal sealed class TileScan
{
    private readonly Tile[] _tiles;

    private TileScan(Tile[] tiles, int columns, int plane, double blackDn) =>
        (_tiles, Columns, Rows, Plane, BlackDn) = (tiles, columns, tiles.Length / columns, plane, blackDn);

    /// <summary>Sums over the blocks of a tile; a block stands for the mean of its green (or only) samples.</summary>
    /// <remarks><c>Detail</c> is the median over the blocks of what the second differences of both frames have in common, DN²: fine texture fills a tile, while an edge
    /// runs through a few of its blocks and leaves the median at zero. Of several tiles it is the least.</remarks>
    public readonly record struct Tile(int Blocks, double A, double B, double AB, double Detail, long Samples, long CutOff, bool IsClipped)
    {
        /// <summary>Mean of both frames, DN, black included.</summary>
        public double Mean => (A + B) / (2 * Blocks);

        /// <summary>Covariance of the two frames: the scene's own variance, noise left out.</summary>
        public double Covariance => AB / Blocks - A / Blocks * (B / Blocks);

        public Tile Plus(Tile other) => new(
            Blocks + other.Blocks, A + other.A, B + other.B, AB + other.AB, Math.Min(Detail, other.Detail), Samples + other.Samples, CutOff + other.CutOff, IsClipped || other.IsClipped);
    }

    public int Columns { get; }

    public int Rows { get; }

    /// <summary>The plane whose black and clip stand for the blocks.</summary>
    public int Plane { get; }

    /// <summary>Black level of the blocks, DN.</summary>
    public double BlackDn { get; }

    public Tile this[int x, int y] => _tiles[y * Columns + x];

    public static TileScan Of(MosaicFrame first, MosaicFrame second, CropGrid grid, FrameLevels levels)
    {
        IReadOnlyList<string> names = first.Header.Mosaic.PlaneNames();
        int plane = Enumerable.Range(0, names.Count).FirstOrDefault(p => names[p].StartsWith('G'), 0);
        double black = Enumerable.Range(0, names.Count).Where(p => names[p].StartsWith('G')).DefaultIfEmpty(plane).Average(p => levels.BlackDn[p]);
        int tile = grid.Blocks / CropGrid.Tiles, columns = first.Width / grid.BlockSide / tile, rows = first.Height / grid.BlockSide / tile;
        var tiles = new Tile[columns * rows];
        Parallel.For(0, rows, () => (A: new Stripe(first, grid, levels, columns), B: new Stripe(second, grid, levels, columns)), (ty, _, stripes) =>
        {
            stripes.A.Read(ty);
            stripes.B.Read(ty);
            for (int tx = 0; tx < columns; tx++) tiles[ty * columns + tx] = Common(stripes.A, stripes.B, tx, tile);
            return stripes;
        }, _ => { });

        return new TileScan(tiles, columns, plane, black);
    }

    // Compiled well at the first call: a child lives for seconds.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static Tile Common(Stripe a, Stripe b, int tx, int tile)
    {
        double sumA = 0, sumB = 0, product = 0;
        Span<double> details = stackalloc double[tile * tile];
        int block = 0;
        for (int y = 1; y <= tile; y++)
        {
            for (int x = tx * tile; x < (tx + 1) * tile; x++)
            {
                double va = a[x, y], vb = b[x, y];
                sumA += va;
                sumB += vb;
                product += va * vb;
                details[block++] = a.SecondDifference(x, y) * b.SecondDifference(x, y);
            }
        }

        return new Tile(tile * tile, sumA, sumB, product, OrderStatistic.At(details, details.Length / 2), a.Samples, a.CutOff[tx], a.IsClipped[tx] || b.IsClipped[tx]);
    }

    /// <summary>The blocks of one row of tiles of a frame, with a row of blocks above and below.</summary>
    private sealed class Stripe
    {
        private readonly MosaicFrame _frame;
        private readonly int _tile, _side, _across;
        private readonly float[] _blocks;

        /// <summary>[row of the cell][column of the cell]: what a sample counts as clipped from, and as cut off to.</summary>
        private readonly int[][] _clip, _floor;
        private readonly int _leastClip, _mostFloor;

        /// <summary>[row of the cell][block, as far as the pattern does not repeat]: columns of the block that stand for it.</summary>
        private readonly int[][][] _columns;

        public Stripe(MosaicFrame frame, CropGrid grid, FrameLevels levels, int columns)
        {
            (_frame, _tile, _side) = (frame, grid.Blocks / CropGrid.Tiles, grid.BlockSide);
            _across = columns * _tile;
            _blocks = new float[(_tile + 2) * _across];
            (CutOff, IsClipped) = (new long[columns], new bool[columns]);
            var mosaic = frame.Header.Mosaic;
            int[] planes = [.. mosaic.PlaneOfSite()], channels = [.. CropGrid.ChannelOfSite(mosaic)];
            int standing = channels.Max() == 0 ? 0 : 1, phases = Math.Max(1, mosaic.Columns / _side);
            _clip = OfCell(site => levels.ClipDn[planes[site]]);
            _floor = OfCell(site => levels.FloorDn[planes[site]]);
            (_leastClip, _mostFloor) = (levels.ClipDn.Min(), levels.FloorDn.Max());
            int[][] channelAt = OfCell(site => channels[site]);
            _columns = [.. channelAt.Select(line => Enumerable.Range(0, phases).Select(phase => Enumerable.Range(0, _side).Where(x => line[(phase * _side + x) % mosaic.Columns] == standing).ToArray()).ToArray())];

            int[][] OfCell(Func<int, int> value) => [.. Enumerable.Range(0, mosaic.Rows).Select(y => Enumerable.Range(0, mosaic.Columns).Select(x => value(y * mosaic.Columns + x)).ToArray())];
        }

        public long Samples => (long)_tile * _tile * _side * _side;

        public long[] CutOff { get; }

        public bool[] IsClipped { get; }

        public float this[int x, int y]
        {
            [MethodImpl(MethodImplOptions.AggressiveInlining)]
            get => _blocks[y * _across + x];
        }

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public double SecondDifference(int x, int y)
        {
            float centre = this[x, y];
            return 4.0 * centre - this[Math.Max(0, x - 1), y] - this[Math.Min(_across - 1, x + 1), y] - this[x, y - 1] - this[x, y + 1];
        }

        public void Read(int ty)
        {
            Array.Clear(CutOff);
            Array.Clear(IsClipped);
            int last = _frame.Height / _side - 1;
            for (int y = 0; y < _tile + 2; y++)
                ReadBlocks(Math.Clamp(ty * _tile + y - 1, 0, last), y, counts: y >= 1 && y <= _tile);
        }

        [MethodImpl(MethodImplOptions.AggressiveOptimization)]
        private void ReadBlocks(int blockRow, int into, bool counts)
        {
            Span<float> blocks = _blocks.AsSpan(into * _across, _across);
            blocks.Clear();
            int phases = _columns[0].Length;
            Span<int> taken = stackalloc int[phases];
            taken.Clear();
            for (int y = blockRow * _side; y < (blockRow + 1) * _side; y++)
            {
                int line = y % _clip.Length;
                ReadOnlySpan<ushort> row = _frame.Row(y)[..(_across * _side)];
                for (int phase = 0; phase < phases; phase++)
                {
                    foreach (int column in _columns[line][phase])
                    {
                        taken[phase]++;
                        for (int block = phase, at = phase * _side + column; block < blocks.Length; block += phases, at += phases * _side) blocks[block] += row[at];
                    }
                }

                if (counts) CountEnds(row, line);
            }

            for (int block = 0, phase = 0; block < blocks.Length; block++)
            {
                blocks[block] /= Math.Max(1, taken[phase]);
                if (++phase == phases) phase = 0;
            }
        }

        /// <summary>Hardly a tile holds a sample near an end: only there is each compared with the level of its plane.</summary>
        [MethodImpl(MethodImplOptions.AggressiveOptimization)]
        private void CountEnds(ReadOnlySpan<ushort> row, int line)
        {
            int[] clip = _clip[line], floor = _floor[line];
            int width = _tile * _side;
            for (int tile = 0; tile < CutOff.Length; tile++)
            {
                var (low, high) = Ends(row.Slice(tile * width, width));
                if (high < _leastClip && low > _mostFloor) continue;
                for (int x = tile * width; x < (tile + 1) * width; x++)
                {
                    int column = x % clip.Length;
                    if (row[x] >= clip[column]) IsClipped[tile] = true;
                    if (row[x] <= floor[column]) CutOff[tile]++;
                }
            }
        }

        [MethodImpl(MethodImplOptions.AggressiveOptimization)]
        private static (int Low, int High) Ends(ReadOnlySpan<ushort> samples)
        {
            int x = 0;
            ushort low = ushort.MaxValue, high = 0;
            if (samples.Length >= Vector128<ushort>.Count)
            {
                Vector128<ushort> lows = Vector128.Create(samples), highs = lows;
                for (x = Vector128<ushort>.Count; x + Vector128<ushort>.Count <= samples.Length; x += Vector128<ushort>.Count)
                {
                    Vector128<ushort> next = Vector128.Create(samples[x..]);
                    (lows, highs) = (Vector128.Min(lows, next), Vector128.Max(highs, next));
                }

                for (int i = 0; i < Vector128<ushort>.Count; i++) (low, high) = (Math.Min(low, lows[i]), Math.Max(high, highs[i]));
            }

            for (; x < samples.Length; x++) (low, high) = (Math.Min(low, samples[x]), Math.Max(high, samples[x]));
            return (low, high);
        }
    }
}
