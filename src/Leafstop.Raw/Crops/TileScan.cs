using Leafstop.Raw.Frames;

namespace Leafstop.Raw.Crops;

/// <summary>What two frames have in common, tile by tile; a quarter of a crop is four tiles. Read in stripes, so that it needs little memory.</summary>
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
        Stripe a = new(first, grid, levels, columns), b = new(second, grid, levels, columns);
        for (int ty = 0; ty < rows; ty++)
        {
            a.Read(ty);
            b.Read(ty);
            for (int tx = 0; tx < columns; tx++) tiles[ty * columns + tx] = Common(a, b, tx, tile);
        }

        return new TileScan(tiles, columns, plane, black);
    }

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

        details.Sort();
        return new Tile(tile * tile, sumA, sumB, product, details[details.Length / 2], a.Samples, a.CutOff[tx], a.IsClipped[tx] || b.IsClipped[tx]);
    }

    /// <summary>The blocks of one row of tiles of a frame, with a row of blocks above and below.</summary>
    private sealed class Stripe(MosaicFrame frame, CropGrid grid, FrameLevels levels, int columns)
    {
        private readonly int _tile = grid.Blocks / CropGrid.Tiles;
        private readonly int _across = columns * grid.Blocks / CropGrid.Tiles;
        private readonly float[] _blocks = new float[(grid.Blocks / CropGrid.Tiles + 2) * (columns * grid.Blocks / CropGrid.Tiles)];
        private readonly int[] _counts = new int[columns * grid.Blocks / CropGrid.Tiles];
        private readonly int[] _planeOfSite = [.. frame.Header.Mosaic.PlaneOfSite()];
        private readonly bool[] _countsTowards = [.. CropGrid.ChannelOfSite(frame.Header.Mosaic) is var channels && channels.Max() == 0 ? channels.Select(_ => true) : channels.Select(c => c == 1)];

        public long Samples => (long)_tile * _tile * grid.BlockSide * grid.BlockSide;

        public long[] CutOff { get; } = new long[columns];

        public bool[] IsClipped { get; } = new bool[columns];

        public float this[int x, int y] => _blocks[y * _across + x];

        public double SecondDifference(int x, int y)
        {
            float centre = this[x, y];
            return 4.0 * centre - this[Math.Max(0, x - 1), y] - this[Math.Min(_across - 1, x + 1), y] - this[x, y - 1] - this[x, y + 1];
        }

        public void Read(int ty)
        {
            Array.Clear(CutOff);
            Array.Clear(IsClipped);
            int last = frame.Height / grid.BlockSide - 1;
            for (int y = 0; y < _tile + 2; y++)
                ReadBlocks(Math.Clamp(ty * _tile + y - 1, 0, last), y, counts: y >= 1 && y <= _tile);
        }

        private void ReadBlocks(int blockRow, int into, bool counts)
        {
            Span<float> blocks = _blocks.AsSpan(into * _across, _across);
            blocks.Clear();
            Array.Clear(_counts);
            var mosaic = frame.Header.Mosaic;
            for (int y = blockRow * grid.BlockSide; y < (blockRow + 1) * grid.BlockSide; y++)
            {
                ReadOnlySpan<ushort> row = frame.Row(y);
                int line = y % mosaic.Rows * mosaic.Columns;
                for (int x = 0, block = 0, inBlock = 0, column = 0; x < _across * grid.BlockSide; x++)
                {
                    int site = line + column, plane = _planeOfSite[site], sample = row[x];
                    if (_countsTowards[site])
                    {
                        blocks[block] += sample;
                        _counts[block]++;
                    }

                    if (counts && sample >= levels.ClipDn[plane]) IsClipped[block / _tile] = true;
                    if (counts && sample <= levels.FloorDn[plane]) CutOff[block / _tile]++;
                    if (++column == mosaic.Columns) column = 0;
                    if (++inBlock == grid.BlockSide) (inBlock, block) = (0, block + 1);
                }
            }

            for (int i = 0; i < blocks.Length; i++) blocks[i] /= Math.Max(1, _counts[i]);
        }
    }
}
