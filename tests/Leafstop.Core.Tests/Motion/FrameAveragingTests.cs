using CsCheck;
using Leafstop.Core.Motion;
using Leafstop.Core.Quantities;

namespace Leafstop.Core.Tests.Motion;

public sealed class FrameAveragingTests
{
    // Derived: worked figures of the job, 4 frames are 2 stops and 8 are 3.
    [Theory]
    [InlineData(1, 0)]
    [InlineData(4, 2)]
    [InlineData(8, 3)]
    public void Frames_added_are_light_added(int frames, double stops)
    {
        Assert.Equal(stops, FrameAveraging.Gain(frames).Value, 1e-12);
        Assert.Equal(frames, FrameAveraging.FramesFor(Stops.Of(stops)));
    }

    // Published: SEN-25, noise of the mean of n frames; 2 frames are half a stop of noise, 8 are 1.5 stops.
    [Theory]
    [InlineData(2, 0.7071068)]
    [InlineData(4, 0.5)]
    [InlineData(8, 0.3535534)]
    [InlineData(16, 0.25)]
    public void Noise_of_the_mean_is_the_published_one(int frames, double share) => Assert.Equal(share, FrameAveraging.MeanNoise(frames), 1e-7);

    // M-01 (statistics): 4 and 16 frames; then the same row's recipe, frames of 64 × 64 from the congruential generator with seeds 1 to n, 1e-3,
    // against 1/√12, the deviation of the even distribution that the generator stands for.
    [Theory]
    [InlineData(4, 0.5, 0.5043)]
    [InlineData(16, 0.25, 0.2545)]
    public void Noise_of_the_mean_falls_by_the_root(int frames, double theory, double recipe)
    {
        Assert.Equal(theory, FrameAveraging.MeanNoise(frames), 1e-4);
        double[] sum = new double[64 * 64];
        for (uint seed = 1; seed <= frames; seed++)
        {
            double[] frame = Generated(seed);
            for (int i = 0; i < frame.Length; i++)
                sum[i] += frame[i] / frames;
        }
        Assert.Equal(recipe, Deviation(sum) * Math.Sqrt(12), 1e-3);
    }

    // M-02 (order statistics, integrated there).
    [Theory]
    [InlineData(1, 1)]
    [InlineData(3, 0.66983)]
    [InlineData(5, 0.53557)]
    [InlineData(9, 0.40756)]
    public void Noise_of_the_median(int frames, double share) => Assert.Equal(share, FrameAveraging.MedianNoise(frames), 1e-4);

    // M-02: 1.2533/√n when n is large; at 999 the next term is 3 in 10 000.
    [Fact]
    public void A_median_of_many_costs_a_quarter_more_noise_than_a_mean() =>
        Assert.Equal(1.2533, FrameAveraging.MedianNoise(999) * Math.Sqrt(999), 1e-3);

    // M-03 to M-05 (derived there): one long exposure, many short ones with gaps, and none.
    [Theory]
    [InlineData(1, 1, 0, 1, 0.85776)]
    [InlineData(2.5, 1, 0, 1, 0.71152)]
    [InlineData(10, 1, 0, 1, 0.42427)]
    [InlineData(0.125, 8, 0.010, 0.1, 0.41054)]
    [InlineData(0.125, 8, 0.5, 0.1, 0.29381)]
    [InlineData(1, 1, 0, 0.1, 0.42427)]
    [InlineData(0.0625, 16, 0, 0.1, 0.42427)]
    public void Water_smooths_with_the_length_of_the_record(double seconds, int frames, double gap, double correlation, double roughness) =>
        Assert.Equal(roughness, Roughness(seconds, frames, gap, correlation), 1e-5);

    // M-10 (derived there): instants Δ apart; an exposure of a millionth of τ stands for an instant.
    [Theory]
    [InlineData(4, 1000, 0.65423)]
    [InlineData(9, 10_000, 0.33335)]
    public void Frames_close_together_average_less(int frames, double apart, double roughness) =>
        Assert.Equal(roughness, Roughness(0.001, frames, apart - 0.001, 1000), 1e-5);

    [Fact]
    public void Gaps_never_make_water_rougher() =>
        Gen.Select(Gen.Double[0.001, 5], Gen.Int[2, 20], Gen.Double[0, 3], Gen.Double[0.01, 3]).Sample((seconds, frames, gap, correlation) =>
            Roughness(seconds, frames, gap, correlation) <= Roughness(seconds * frames, 1, 0, correlation) + 1e-9);

    // M-07 and M-08 (synthetic, exact): 5 frames, an 8-pixel square at 1.0 on 0.2, moving 12 or 2 pixels a frame; the pictures themselves are built here.
    [Theory]
    [InlineData(12, false, 0.36)]
    [InlineData(2, true, 0.84)]
    public void A_median_removes_what_passes_and_keeps_what_lingers(int step, bool keeps, double meanPeak)
    {
        double[][] frames = [.. Enumerable.Range(0, 5).Select(f => Enumerable.Range(0, 80).Select(x => x >= 10 + f * step && x < 18 + f * step ? 1.0 : 0.2).ToArray())];
        double[] median = [.. Enumerable.Range(0, 80).Select(x => frames.Select(frame => frame[x]).Order().ElementAt(2))];
        Assert.Equal(keeps ? 8 : 0, median.Count(value => value == 1.0));
        Assert.Equal(meanPeak, Enumerable.Range(0, 80).Max(x => frames.Average(frame => frame[x])), 1e-12);
        Assert.Equal(keeps, FrameAveraging.MedianKeeps(Length.FromMillimetres(8), Length.FromMillimetres(step), 5));
    }

    [Fact]
    public void What_cannot_be_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => FrameAveraging.Gain(0));
        Assert.Throws<ArgumentOutOfRangeException>(() => FrameAveraging.MedianNoise(4));
        Assert.Throws<ArgumentOutOfRangeException>(() => FrameAveraging.MedianKeeps(Length.FromMillimetres(8), default, 2));
        Assert.Throws<ArgumentOutOfRangeException>(() => Roughness(1, 2, -0.1, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => Roughness(1, 2, 0.1, 0));
        Assert.Null(FrameAveraging.FramesFor(Stops.Of(40)));
    }

    private static double Roughness(double seconds, int frames, double gap, double correlation) => FrameAveraging.WaterRoughness(
        ShutterTime.FromSeconds(seconds), frames, TimeSpan.FromSeconds(gap), TimeSpan.FromSeconds(correlation));

    // x ← (1664525·x + 1013904223) mod 2³², value x/2³²: the generator of the check table's row I-05.
    private static double[] Generated(uint seed)
    {
        double[] frame = new double[64 * 64];
        uint x = seed;
        for (int i = 0; i < frame.Length; i++)
        {
            x = unchecked(1664525 * x + 1013904223);
            frame[i] = x / 4294967296.0;
        }
        return frame;
    }

    private static double Deviation(double[] values)
    {
        double mean = values.Average();
        return Math.Sqrt(values.Average(value => (value - mean) * (value - mean)));
    }
}
