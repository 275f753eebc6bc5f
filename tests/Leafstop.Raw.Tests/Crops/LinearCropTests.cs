using Leafstop.Core.Sensor;
using Leafstop.Raw.Crops;
using Leafstop.Raw.Frames;
using Leafstop.Testing;

namespace Leafstop.Raw.Tests.Crops;

/// <summary>Derived: frames of known samples.</summary>
public sealed class LinearCropTests
{
    private static readonly double[] Even = [1, 1, 1];

    [Theory]
    [InlineData("1x1", 1)]
    [InlineData("2x2", 2)]
    [InlineData("6x6", 3)]
    public void A_point_of_the_picture_is_the_smallest_square_that_holds_every_colour(string mosaic, int side)
    {
        CropGrid grid = CropGrid.Of(Mosaic(mosaic), 600, 400)!.Value;
        Assert.Equal((side, 48), (grid.BlockSide, grid.Blocks));
    }

    [Fact]
    public void A_frame_that_is_too_small_has_no_crops() => Assert.Null(CropGrid.Of(PlainFrames.TwoByTwo, 400, 30));

    [Theory]
    [InlineData("2x2")]
    [InlineData("6x6")]
    public void Each_channel_is_the_mean_of_its_own_samples_above_black(string mosaic)
    {
        // Red 100, green 200 with a stripe of 300 in one row of blocks, blue 50 above a black of 64.
        using MosaicFrame frame = Painted(mosaic, (x, y, letter) => 64 + letter switch { 'R' => 100, 'B' => 50, _ => 200 });
        CropGrid grid = CropGrid.Of(frame.Header.Mosaic, frame.Width, frame.Height)!.Value;
        LinearCrop crop = LinearCrop.Of(frame, grid, grid.BlockSide, 2 * grid.BlockSide, Levels(frame, 64, 1000));
        // Single precision holds these whole numbers exactly.
        Assert.Equal([100, 200, 50], crop.Means);
        Assert.Equal(200, crop.SignalDn);
        Assert.Equal(0, crop.ClippedShare);
        using var png = new PngPixels(crop.Develop(0.18 / 200, [2, 1, 4]));
        // PER-25: 0.18 is shown as 0.4614, 118 of 255.
        Assert.Equal((118, 118, 118), png[10, 10]);
        Assert.Equal((144, 144), (png.Width, png.Height));
    }

    [Fact]
    public void Points_are_enlarged_three_times_without_smoothing()
    {
        using MosaicFrame frame = Painted("1x1", (x, y, _) => (x + y) % 2 == 0 ? 1000 : 0);
        LinearCrop crop = LinearCrop.Of(frame, CropGrid.Of(frame.Header.Mosaic, frame.Width, frame.Height)!.Value, 0, 0, Levels(frame, 0, 4000));
        using var png = new PngPixels(crop.Develop(1 / 1000.0, Even));
        for (int y = 0; y < 12; y++)
            for (int x = 0; x < 12; x++)
                Assert.Equal((x / 3 + y / 3) % 2 == 0 ? 255 : 0, png[x, y].G);
    }

    [Fact]
    public void Clipped_samples_are_counted_by_the_level_of_their_plane()
    {
        using MosaicFrame frame = Painted("2x2", (x, y, letter) => letter == 'R' ? 900 : 100);
        LinearCrop crop = LinearCrop.Of(frame, CropGrid.Of(frame.Header.Mosaic, frame.Width, frame.Height)!.Value, 0, 0, Levels(frame, 0, 900));
        Assert.Equal(0.25, crop.ClippedShare);
    }

    [Fact]
    public void A_picture_larger_than_agreed_is_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => EnlargedPng.Of(new byte[171 * 171], 171, 1));

    [Fact]
    public void The_size_of_a_png_is_read_from_its_header()
    {
        Assert.Equal((512 / 3 * 3, 512 / 3 * 3), EnlargedPng.SizeOf(EnlargedPng.Of(new byte[170 * 170], 170, 1)));
        Assert.Null(EnlargedPng.SizeOf("not a picture, though it is long enough to be one"u8));
    }

    internal static MosaicPattern Mosaic(string name) => name switch { "1x1" => PlainFrames.Mono, "2x2" => PlainFrames.TwoByTwo, _ => PlainFrames.SixBySix };

    internal static MosaicFrame Painted(string mosaic, Func<int, int, char, int> sample, int width = 192, int height = 168)
    {
        MosaicPattern pattern = Mosaic(mosaic);
        var samples = new ushort[width * height];
        for (int y = 0; y < height; y++)
            for (int x = 0; x < width; x++)
                samples[y * width + x] = (ushort)sample(x, y, pattern.Letters[y % pattern.Rows * pattern.Columns + x % pattern.Columns]);
        return PlainFrames.Of(samples, width, pattern);
    }

    internal static FrameLevels Levels(MosaicFrame frame, double black, int clip)
    {
        int planes = frame.Header.Mosaic.PlaneNames().Count;
        return new FrameLevels([.. Enumerable.Repeat(black, planes)], [.. Enumerable.Repeat(clip, planes)], [.. Enumerable.Repeat(-1, planes)]);
    }
}
