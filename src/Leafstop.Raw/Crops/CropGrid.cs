using System.Collections.Immutable;
using Leafstop.Core.Developing;
using Leafstop.Core.Sensor;

namespace Leafstop.Raw.Crops;

/// <summary>How a mosaic becomes picture pixels: square blocks of sensor pixels, each holding every colour, one picture pixel a block.</summary>
/// <param name="BlockSide">Sensor pixels along a block: 1 without filters, 2 on 2×2, 3 on 6×6 (half a cell holds all its colours).</param>
/// <param name="Blocks">Blocks along a crop.</param>
internal readonly record struct CropGrid(int BlockSide, int Blocks)
{
    /// <summary>Blocks along a crop of a frame that is large enough: 144 pixels once enlarged, so that two lie side by side on a narrow screen.</summary>
    public const int MostBlocks = 48;

    /// <summary>Each block is shown as so many pixels a side, without smoothing.</summary>
    public const int Enlargement = 3;

    /// <summary>Tiles along a crop, by which places are looked for.</summary>
    public const int Tiles = 4;

    private const int LeastBlocks = 16;

    /// <summary>Sensor pixels along a crop.</summary>
    public int SensorSide => BlockSide * Blocks;

    /// <summary>The grid for a frame; null when the frame is too small to show anything of it.</summary>
    public static CropGrid? Of(MosaicPattern mosaic, int width, int height) => WithBlocks(mosaic, MostBlocks, width, height);

    /// <summary>The grid for crops of so many sensor pixels, at least: nothing of a crop lies outside the window that was looked at. Null when the frame is too small.</summary>
    public static CropGrid? Covering(MosaicPattern mosaic, int width, int height, int sensorSide)
    {
        int tile = BlockSideOf(mosaic) * Tiles;
        return WithBlocks(mosaic, (sensorSide + tile - 1) / tile * Tiles, width, height);
    }

    private static CropGrid? WithBlocks(MosaicPattern mosaic, int most, int width, int height)
    {
        int side = BlockSideOf(mosaic), blocks = Math.Min(most, Math.Min(width, height) / side) / Tiles * Tiles;
        return blocks < LeastBlocks ? null : new CropGrid(side, blocks);
    }

    /// <summary>The picture channel of each site of the cell: 0 red, 1 green, 2 blue; all 0 when the mosaic lacks red or blue and the picture is grey.</summary>
    public static ImmutableArray<int> ChannelOfSite(MosaicPattern mosaic) => MosaicInterpolation.ChannelsOf(mosaic);

    private static int BlockSideOf(MosaicPattern mosaic)
    {
        int side = Math.Max(mosaic.Rows, mosaic.Columns);
        while (side % mosaic.Rows != 0 || side % mosaic.Columns != 0) side++;
        bool square = mosaic.Rows == mosaic.Columns && side > 2 && side % 2 == 0;
        return square && EveryHalfHoldsAllColours(mosaic, side / 2) ? side / 2 : side;
    }

    private static bool EveryHalfHoldsAllColours(MosaicPattern mosaic, int half)
    {
        ImmutableArray<int> channels = ChannelOfSite(mosaic);
        int colours = channels.Distinct().Count();
        return Enumerable.Range(0, 4).All(quarter => Enumerable.Range(0, half * half)
            .Select(i => channels[(quarter / 2 * half + i / half) * mosaic.Columns + quarter % 2 * half + i % half]).Distinct().Count() == colours);
    }
}
