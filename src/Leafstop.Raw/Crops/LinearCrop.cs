using System.Collections.Immutable;
using Leafstop.Core.Developing;
using Leafstop.Raw.Frames;

namespace Leafstop.Raw.Crops;

/// <summary>A crop in linear light: for each block the mean of each colour's samples above black.</summary>
internal sealed class LinearCrop
{
    private readonly float[][] _channels;
    private readonly int _side;

    private LinearCrop(float[][] channels, int side, double clippedShare) => (_channels, _side, ClippedShare) = (channels, side, clippedShare);

    /// <summary>Mean of each channel, DN above black: red, green, blue, or grey alone.</summary>
    public ImmutableArray<double> Means => [.. _channels.Select(c => c.Average(v => (double)v))];

    /// <summary>Mean of the green (or only) samples, DN above black.</summary>
    public double SignalDn => Means[_channels.Length / 2];

    /// <summary>Share of samples at or above the clip level of their plane.</summary>
    public double ClippedShare { get; }

    /// <summary>Reads a crop.</summary>
    /// <param name="frame">The frame.</param>
    /// <param name="grid">Its grid.</param>
    /// <param name="left">First column of the crop in the active area.</param>
    /// <param name="top">First row.</param>
    /// <param name="levels">Black and clip of each plane.</param>
    public static LinearCrop Of(MosaicFrame frame, CropGrid grid, int left, int top, FrameLevels levels)
    {
        var mosaic = frame.Header.Mosaic;
        IReadOnlyList<int> planeOfSite = mosaic.PlaneOfSite();
        ImmutableArray<int> channelOfSite = CropGrid.ChannelOfSite(mosaic);
        int blocks = grid.Blocks, clipped = 0;
        float[][] sums = [.. Enumerable.Range(0, channelOfSite.Max() + 1).Select(_ => new float[blocks * blocks])];
        int[][] counts = [.. sums.Select(s => new int[s.Length])];
        for (int y = 0; y < grid.SensorSide; y++)
        {
            ReadOnlySpan<ushort> row = frame.Row(top + y).Slice(left, grid.SensorSide);
            int line = (top + y) % mosaic.Rows * mosaic.Columns;
            for (int x = 0; x < row.Length; x++)
            {
                int site = line + (left + x) % mosaic.Columns, plane = planeOfSite[site], channel = channelOfSite[site];
                int block = y / grid.BlockSide * blocks + x / grid.BlockSide;
                sums[channel][block] += (float)(row[x] - levels.BlackDn[plane]);
                counts[channel][block]++;
                if (row[x] >= levels.ClipDn[plane]) clipped++;
            }
        }

        for (int c = 0; c < sums.Length; c++)
            for (int i = 0; i < sums[c].Length; i++) sums[c][i] /= counts[c][i];
        return new LinearCrop(sums, blocks, clipped / (double)(grid.SensorSide * grid.SensorSide));
    }

    /// <summary>Encodes the crop as sRGB.</summary>
    /// <param name="scale">Linear light (1 = white) of one DN of green.</param>
    /// <param name="balance">Factors for red, green and blue.</param>
    /// <returns>A PNG file.</returns>
    public byte[] Develop(double scale, IReadOnlyList<double> balance)
    {
        byte[] pixels = new byte[_channels.Length * _side * _side];
        for (int c = 0; c < _channels.Length; c++)
        {
            double factor = _channels.Length == 1 ? scale : scale * balance[c];
            for (int i = 0; i < _side * _side; i++) pixels[i * _channels.Length + c] = DisplayCurve.Byte(_channels[c][i] * factor);
        }

        return EnlargedPng.Of(pixels, _side, _channels.Length);
    }
}
