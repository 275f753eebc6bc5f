using CsCheck;
using Leafstop.Core.Motion;
using Leafstop.Core.Quantities;

namespace Leafstop.Core.Tests.Motion;

public sealed class LullRhythmTests
{
    private static readonly LullRhythm Rows = LullRhythm.Of(TimeSpan.FromSeconds(4), TimeSpan.FromSeconds(8));
    private static readonly ShutterTime Quarter = ShutterTime.FromSeconds(0.25);

    // W-23 (derived, checked numerically there).
    [Fact]
    public void A_frame_must_fit_into_a_lull() => Assert.Equal(0.31314, Rows.OneFrame(Quarter).Share, 1e-5);

    // W-24 (derived there by matrix recursion): closely spaced frames are worth fewer.
    [Fact]
    public void Ten_frames_close_together_are_worth_fewer_than_ten()
    {
        Assert.Equal(0.97663, Rows.AtLeastOneIndependent(Quarter, 10).Share, 1e-5);
        Assert.Equal(0.95703, Rows.AtLeastOne(Quarter, 10, TimeSpan.FromSeconds(5)).Share, 1e-5);
        Assert.Equal(0.72805, Rows.AtLeastOne(Quarter, 10, TimeSpan.FromSeconds(1)).Share, 1e-5);
        // Derived from the two values of the row: ln(1 − 0.72805) / ln(1 − 0.31314).
        Assert.Equal(3.467, Rows.WorthFreshTries(Quarter, 10, TimeSpan.FromSeconds(1)), 1e-3);
    }

    // W-26 (derived there from Rice's formula).
    [Theory]
    [InlineData(0, 5.000)]
    [InlineData(-0.5, 3.496)]
    [InlineData(-1, 2.616)]
    public void Lulls_of_a_normal_wind_shorten_as_they_deepen(double level, double seconds) =>
        Assert.Equal(seconds, LullRhythm.MeanTimeBelow(0.1, level).TotalSeconds, 1e-3);

    // Simulated, seed 8: lulls and gusts drawn one after another, frames laid over them; three standard errors of 20 000 runs are 0.0094.
    [Fact]
    public void A_simulated_morning_gives_the_same_odds()
    {
        var random = new Random(8);
        double Drawn(double mean) => -mean * Math.Log(1 - random.NextDouble());
        int good = 0;
        for (int run = 0; run < 20_000; run++)
        {
            bool isLull = random.NextDouble() < 4 / 12.0;
            double changes = Drawn(isLull ? 4 : 8);
            for (int frame = 0; frame < 10; frame++)
            {
                while (changes < frame)
                {
                    isLull = !isLull;
                    changes += Drawn(isLull ? 4 : 8);
                }
                if (isLull && changes >= frame + 0.25)
                {
                    good++;
                    break;
                }
            }
        }
        Assert.Equal(Rows.AtLeastOne(Quarter, 10, TimeSpan.FromSeconds(1)).Share, good / 20_000.0, 0.0094);
    }

    [Fact]
    public void Odds_rise_with_frames_and_with_spacing_and_never_pass_those_of_fresh_tries() =>
        Gen.Select(Gen.Double[0.5, 30], Gen.Double[0.5, 30], Gen.Double[0.002, 1], Gen.Int[1, 40], Gen.Double[1, 20]).Sample((lull, gust, shutter, frames, gap) =>
        {
            var rhythm = LullRhythm.Of(TimeSpan.FromSeconds(lull), TimeSpan.FromSeconds(gust));
            var time = ShutterTime.FromSeconds(shutter);
            double one = rhythm.AtLeastOne(time, 1, TimeSpan.FromSeconds(gap)).Share;
            double run = rhythm.AtLeastOne(time, frames, TimeSpan.FromSeconds(gap)).Share;
            double longer = rhythm.AtLeastOne(time, frames + 1, TimeSpan.FromSeconds(gap)).Share;
            double wider = rhythm.AtLeastOne(time, frames, TimeSpan.FromSeconds(2 * gap)).Share;
            double fresh = rhythm.AtLeastOneIndependent(time, frames).Share;
            // 1e-12: rounding of double arithmetic.
            Assert.Equal(rhythm.OneFrame(time).Share, one, 1e-12);
            Assert.True(run <= longer + 1e-12 && run <= wider + 1e-12 && wider <= fresh + 1e-12, $"{run} {longer} {wider} {fresh}");
        }, iter: 500);

    [Fact]
    public void What_cannot_be_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => LullRhythm.Of(TimeSpan.Zero, TimeSpan.FromSeconds(1)));
        Assert.Throws<ArgumentOutOfRangeException>(() => Rows.AtLeastOne(Quarter, 3, TimeSpan.FromSeconds(0.2)));
        Assert.Throws<ArgumentOutOfRangeException>(() => Rows.AtLeastOne(Quarter, -1, TimeSpan.FromSeconds(1)));
        Assert.Throws<ArgumentOutOfRangeException>(() => LullRhythm.MeanTimeBelow(double.NaN, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => LullRhythm.MeanTimeBelow(0.1, 9));
    }
}
