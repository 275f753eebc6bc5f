using Leafstop.Raw.Frames;
using Leafstop.Raw.Measurement;
using Leafstop.Raw.Synthetic;
using Leafstop.Testing;

namespace Leafstop.Raw.Tests.Measurement;

public sealed class AlignmentTests
{
    [Theory]
    [InlineData("2x2", 0, 0)]
    [InlineData("2x2", 0.4, -0.2)]
    [InlineData("2x2", 3, 1.5)]
    [InlineData("2x2", -17, 9)]
    [InlineData("6x6", 0.4, 0.4)]
    [InlineData("6x6", -3, 2)]
    public void The_shift_of_a_moved_tripod_is_found_to_a_twentieth_of_a_pixel(string mosaic, double x, double y)
    {
        // Derived: the scene is drawn in continuous coordinates and moved by exactly this much.
        SampleOptions options = new()
        {
            Width = 1200,
            Height = 800,
            Mosaic = BenchMosaic.Named(mosaic)!,
            Isos = [1600],
            CapFramesPerLevel = 0,
            Faults = new SampleFaults { MovedIso = 1600, MovedXPx = x, MovedYPx = y },
        };
        var bench = new SyntheticBench(options);
        using MosaicFrame first = bench.Render(0), second = bench.Render(1);
        Alignment found = Alignment.Of(first, second);
        // Whole cells of a 6×6 mosaic are coarse samples of a fine texture: beyond the twentieth, 5 % of a larger shift.
        double tolerance = mosaic == "6x6" ? Math.Max(0.05, 0.05 * Math.Max(Math.Abs(x), Math.Abs(y))) : 0.05;
        Assert.Equal(x, found.ShiftXPx, tolerance);
        Assert.Equal(y, found.ShiftYPx, tolerance);
        Assert.InRange(found.ErrorPx, 0, 0.05);
        Assert.InRange(found.Likeness, 0.98, 1);
    }

    [Fact]
    public void Two_different_pictures_are_not_a_pair()
    {
        // Derived: the same settings, another arrangement of the scene.
        SampleOptions options = new() { Width = 1200, Height = 800, Isos = [400], CapFramesPerLevel = 0 };
        var one = new SyntheticBench(options);
        using MosaicFrame first = one.Render(0);
        ushort[] turned = [.. first.Samples.ToArray().Reverse()];
        GroupSurvey group = GroupMeasurement.Survey(["1", "2"], name => name == "1" ? one.Render(0) : PlainFrames.Of(Cut(turned, first), first.Width, first.Header.Mosaic, 511.6, 16383, name));
        Assert.True(Assert.Single(group.Pairs).IsFalsePair);
        Assert.Empty(group.Pairs[0].Planes);
    }

    private static ushort[] Cut(ushort[] samples, MosaicFrame like)
    {
        var cut = new ushort[like.Width * like.Height];
        for (int y = 0; y < like.Height; y++) Array.Copy(samples, y * like.Stride, cut, y * like.Width, like.Width);
        return cut;
    }
}
