using System.Collections.Immutable;
using Leafstop.Core.Sensor;

namespace Leafstop.Raw.Measurement;

/// <summary>How a mosaic is cut into tiles, and which samples of a tile belong to which plane.</summary>
/// <remarks>
/// A tile is the smallest stretch of whole mosaic cells that is at least 24 columns by 12 rows: 72 samples a plane on 2×2.
/// The local mean that noise is binned by is the mean of a tile of both frames, so it hardly knows the noise of any one sample.
/// </remarks>
internal sealed class TileLayout
{
    private const int LeastWidth = 24, LeastHeight = 12;

    public TileLayout(MosaicPattern mosaic, int frameWidth, int frameHeight)
    {
        Mosaic = mosaic;
        CellRows = mosaic.Rows;
        CellColumns = mosaic.Columns;
        PlaneNames = [.. mosaic.PlaneNames()];
        PlaneOfSite = [.. mosaic.PlaneOfSite()];
        Width = RoundUp(LeastWidth, CellColumns);
        Height = RoundUp(LeastHeight, CellRows);
        Columns = frameWidth / Width;
        Rows = frameHeight / Height;

        PerRow = new int[Planes][];
        PerTile = new int[Planes];
        RowScale = new int[Planes];
        FreedomPerTile = new int[Planes];
        for (int plane = 0; plane < Planes; plane++)
        {
            PerRow[plane] = new int[CellRows];
            for (int y = 0; y < CellRows; y++)
                for (int x = 0; x < CellColumns; x++)
                    if (PlaneOfSite[y * CellColumns + x] == plane) PerRow[plane][y] += Width / CellColumns;
            int rowsWithSamples = PerRow[plane].Count(n => n > 0) * (Height / CellRows);
            PerTile[plane] = PerRow[plane].Sum() * (Height / CellRows);
            RowScale[plane] = PerRow[plane].Where(n => n > 0).Aggregate(1, LeastCommonMultiple);
            FreedomPerTile[plane] = PerTile[plane] - rowsWithSamples;
        }
    }

    public MosaicPattern Mosaic { get; }

    public int CellRows { get; }

    public int CellColumns { get; }

    /// <summary>Tile width and height in sensor pixels.</summary>
    public int Width { get; }

    public int Height { get; }

    /// <summary>Whole tiles across and down the frame; a remainder at the right and bottom is not measured.</summary>
    public int Columns { get; }

    public int Rows { get; }

    public int Count => Columns * Rows;

    public ImmutableArray<string> PlaneNames { get; }

    /// <summary>Plane of each site of the cell, row by row.</summary>
    public ImmutableArray<int> PlaneOfSite { get; }

    public int Planes => PlaneNames.Length;

    /// <summary>[plane][row of the cell]: samples of the plane in one tile row.</summary>
    public int[][] PerRow { get; }

    /// <summary>[plane]: samples in a tile.</summary>
    public int[] PerTile { get; }

    /// <summary>[plane]: a whole number that every <see cref="PerRow"/> divides, so that row-centred sums stay whole numbers.</summary>
    public int[] RowScale { get; }

    /// <summary>[plane]: samples in a tile less one for each row mean that is taken off.</summary>
    public int[] FreedomPerTile { get; }

    /// <summary>The plane whose brightness stands for the frame: the first green, or the only plane.</summary>
    public int BrightPlane => Math.Max(0, PlaneNames.IndexOf(PlaneNames.FirstOrDefault(n => n.StartsWith('G')) ?? PlaneNames[0]));

    private static int RoundUp(int least, int step) => (least + step - 1) / step * step;

    private static int LeastCommonMultiple(int a, int b)
    {
        int x = a, y = b;
        while (y != 0) (x, y) = (y, x % y);
        return a / x * b;
    }
}
