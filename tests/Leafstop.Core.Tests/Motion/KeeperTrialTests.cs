using CsCheck;
using Leafstop.Core.Motion;
using MathNet.Numerics.Distributions;

namespace Leafstop.Core.Tests.Motion;

public sealed class KeeperTrialTests
{
    // Derived: worked figures of the job. 5 of 25 means 7 to 41 %, so 14 more, 6 to 43.
    [Fact]
    public void Five_of_twenty_five_asks_for_fourteen_more_or_six_to_forty_three()
    {
        var trial = KeeperTrial.Of(5, 25);
        Assert.Equal((0.07, 0.41), (Math.Round(trial.Low.Share, 2), Math.Round(trial.High.Share, 2)));
        Assert.Equal(new FramesNeeded(14, 6, 43), trial.StillNeeded(Chance.UsuallySure));
        Assert.Equal("5 of 25 kept: about 14 more for a 95 % chance of one (could be 6 to 43).", trial.ToSentence(Chance.UsuallySure));
        Assert.False(trial.IsOneSided);
    }

    // Derived: worked figure of the job, 1 − 0.05^(1/10) = 26 %.
    [Fact]
    public void None_of_ten_cannot_say_and_leaves_up_to_twenty_six_per_cent()
    {
        var trial = KeeperTrial.Of(0, 10);
        Assert.Null(trial.Best);
        Assert.Equal(0, trial.Low.Share);
        Assert.Equal(0.26, trial.High.Share, 0.005);
        Assert.Equal(new FramesNeeded(null, 10, null), trial.StillNeeded(Chance.UsuallySure));
        Assert.Equal("0 of 10 kept: cannot say how many more; the chance of a frame may be anything up to 26 %.", trial.ToSentence(Chance.UsuallySure));
    }

    // Derived: 0.05^(1/10) = 0.741, and ln 0.05 / ln(1 − 0.741) = 2.2.
    [Fact]
    public void All_of_ten_promises_no_more_than_three_in_four()
    {
        var trial = KeeperTrial.Of(10, 10);
        Assert.Equal(0.741, trial.Low.Share, 5e-4);
        Assert.Equal(1, trial.High.Share);
        Assert.Equal(new FramesNeeded(1, 1, 3), trial.StillNeeded(Chance.UsuallySure));
        Assert.True(trial.IsOneSided);
    }

    // Derived: the defining equations of the interval, summed from the binomial law and not from the beta quantiles that produced it.
    [Fact]
    public void At_its_ends_the_trial_seen_is_as_unlikely_as_the_interval_says() =>
        Gen.Select(Gen.Int[2, 120], Gen.Double[0, 1]).Sample((frames, at) =>
        {
            int kept = 1 + (int)(at * (frames - 2));
            if (kept >= frames) return true;
            var trial = KeeperTrial.Of(kept, frames);
            double asManyAtLow = Enumerable.Range(kept, frames - kept + 1).Sum(k => Binomial.PMF(trial.Low.Share, frames, k));
            double asFewAtHigh = Enumerable.Range(0, kept + 1).Sum(k => Binomial.PMF(trial.High.Share, frames, k));
            // 1e-8: the quantile is searched to 1e-12 and a hundred terms are summed.
            return Math.Abs(asManyAtLow - 0.025) < 1e-8 && Math.Abs(asFewAtHigh - 0.025) < 1e-8;
        }, iter: 200);

    // Derived: exact coverage, by summing the binomial law over every outcome, on a grid of true chances. Clopper and Pearson's interval holds in
    // 95 % at every chance; with the one-sided bound where none or all were kept it gives up at most the 2.5 % of the far tail.
    [Theory]
    [InlineData(5)]
    [InlineData(10)]
    [InlineData(25)]
    [InlineData(60)]
    public void The_interval_holds_the_true_chance_as_often_as_promised(int frames)
    {
        KeeperTrial[] trials = [.. Enumerable.Range(0, frames + 1).Select(kept => KeeperTrial.Of(kept, frames))];
        double edge = 1 - Math.Pow(0.025, 1.0 / frames);
        for (double truth = 0.005; truth < 1; truth += 0.005)
        {
            double Covered(Func<KeeperTrial, double> low, Func<KeeperTrial, double> high) =>
                trials.Where(t => low(t) <= truth && truth <= high(t)).Sum(t => Binomial.PMF(truth, frames, t.Kept));
            double asSaid = Covered(t => t.Low.Share, t => t.High.Share);
            double twoSided = Covered(t => t.Kept == frames ? 1 - edge : t.Low.Share, t => t.Kept == 0 ? edge : t.High.Share);
            Assert.True(twoSided >= 0.95 - 1e-12 && asSaid >= 0.925 - 1e-12, $"{twoSided} and {asSaid} at {truth} of {frames}");
        }
    }

    // Simulated, seed 20261017: 20 000 trials of 25 frames at three true chances; 0.945 leaves over three standard errors (0.0015) under 95 %.
    [Theory]
    [InlineData(0.1)]
    [InlineData(0.2)]
    [InlineData(0.5)]
    public void Simulated_trials_bear_the_interval_out(double truth)
    {
        KeeperTrial[] trials = [.. Enumerable.Range(0, 26).Select(kept => KeeperTrial.Of(kept, 25))];
        var random = new Random(20261017);
        int held = 0, enough = 0;
        for (int run = 0; run < 20_000; run++)
        {
            int kept = 0;
            for (int frame = 0; frame < 25; frame++)
                kept += random.NextDouble() < truth ? 1 : 0;
            if (trials[kept].Low.Share <= truth && truth <= trials[kept].High.Share)
                held++;
            // The frames really needed lie between the fewest and the most that the trial says.
            int needed = FrameOdds.FramesFor(Chance.Of(truth), Chance.UsuallySure)!.Value;
            FramesNeeded said = trials[kept].StillNeeded(Chance.UsuallySure);
            if ((said.Fewest is not { } few || few <= needed) && (said.Most is not { } many || needed <= many))
                enough++;
        }
        Assert.InRange(held / 20_000.0, 0.945, 1);
        Assert.InRange(enough / 20_000.0, 0.945, 1);
    }

    [Theory]
    [InlineData(1, 0)]
    [InlineData(-1, 5)]
    [InlineData(6, 5)]
    public void A_trial_that_cannot_be_is_refused(int kept, int frames) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => KeeperTrial.Of(kept, frames));

    [Fact]
    public void More_keepers_never_ask_for_more_frames() =>
        Gen.Select(Gen.Int[2, 80], Gen.Double[0, 1]).Sample((frames, at) =>
        {
            int kept = (int)(at * (frames - 1));
            FramesNeeded fewer = KeeperTrial.Of(kept, frames).StillNeeded(Chance.UsuallySure);
            FramesNeeded more = KeeperTrial.Of(kept + 1, frames).StillNeeded(Chance.UsuallySure);
            return (more.Best ?? int.MaxValue) <= (fewer.Best ?? int.MaxValue) && (more.Most ?? int.MaxValue) <= (fewer.Most ?? int.MaxValue);
        }, iter: 300);
}
