using Leafstop.Core.Colour;
using Leafstop.Core.Viewing;
using Leafstop.Testing;

namespace Leafstop.Core.Tests.Viewing;

public sealed class BandingTests
{
    private const double Tone = 0.18;

    // Derived: rows that stray by 0.2 % of white on their own, one standard deviation, make a spread of L* of 116 · f'(Y) · σ · √(2 ∫ H(f)² df) over one direction only. A draw of 512 rows
    // tells it to 1/√(2 · rows the eye tells apart), 5 % at 72 and 8 % at 288 pixels per degree; three of those.
    [Theory]
    [InlineData(72, 0.15)]
    [InlineData(288, 0.25)]
    public void Row_offsets_are_told_as_they_are(double perDegree, double tolerance)
    {
        const double offset = 0.002;
        var seen = VisibleNoiseMeasurement.Of(Striped(offset, grain: 0.01, seed: 3), perDegree);
        double sum = 0, step = 0.5 / 4000;
        for (int i = 0; i < 4000; i++) sum += 2 * step * Math.Pow(ContrastSensitivity.LuminanceShare((i + 0.5) * step * perDegree), 2);
        double expected = 116 * Lab.CurveSlope(Tone) * offset * Math.Sqrt(sum);
        Assert.Equal(1, seen.Banding.Rows / expected, tolerance);
        Assert.True(seen.Banding.IsFound);
        Assert.True(seen.Banding.Columns < 0.3 * seen.Banding.Rows); // no columns were put in
    }

    // Derived: three standard errors are passed by chance once in 700; ten patches, two directions.
    [Fact]
    public void Grain_alone_is_not_called_banding() =>
        Assert.All(Enumerable.Range(10, 10), seed => Assert.False(VisibleNoiseMeasurement.Of(Striped(0, 0.01, seed), 144).Banding.IsFound));

    [Fact] // Derived: the grain is the same with the stripes as without; 1 % for the lines where it is read from the next ones.
    public void Stripes_do_not_get_into_the_grain()
    {
        double with = VisibleNoiseMeasurement.Of(Striped(0.004, 0.01, 4), 144).Grain.Lightness, without = VisibleNoiseMeasurement.Of(Striped(0, 0.01, 4), 144).Grain.Lightness;
        Assert.Equal(1, with / without, 0.01);
    }

    // Derived: half the width, or twice the distance, halves grain: two stops of ISO. Stripes keep their length, so they fall by √2 only: one stop, and the print law promises one too many.
    // 288 to 576 pixels per degree; grain 3 %, stripes 20 % for the few rows that the coarser view tells apart.
    [Fact]
    public void Banding_does_not_follow_the_print_law_while_grain_does()
    {
        NoiseImage image = Striped(0.004, 0.01, 6);
        VisibleNoiseMeasurement near = VisibleNoiseMeasurement.Of(image, 288), far = VisibleNoiseMeasurement.Of(image, 576);
        Assert.Equal(2, near.Grain.Lightness / far.Grain.Lightness, 0.06);
        Assert.Equal(Math.Sqrt(2), near.Banding.Rows / far.Banding.Rows, 0.2 * Math.Sqrt(2));
    }

    private static NoiseImage Striped(double offset, double grain, int seed)
    {
        const int side = 512;
        // Stripes by their own dice: the grain is the same with and without them.
        Gaussian noise = new(seed), stripes = new(1000 + seed);
        float[][][] frames = [.. Enumerable.Range(0, 2).Select(_ => new[] { new float[side * side], new float[side * side], new float[side * side] })];
        foreach (float[][] frame in frames)
        {
            for (int y = 0; y < side; y++)
            {
                double row = offset * stripes.Next();
                for (int x = 0; x < side; x++)
                    for (int c = 0; c < 3; c++)
                        frame[c][y * side + x] = (float)(Tone + row + grain * noise.Next());
            }
        }
        return NoiseImage.FromPair(side, frames[0], frames[1]);
    }
}
