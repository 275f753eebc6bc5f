using Leafstop.Core.Judging.Curves;

namespace Leafstop.Core.Tests.Judging.Curves;

public sealed class CurveBeliefTests
{
    private static CurveBelief Small() =>
        new(new CurveSpace(SigmoidShape.Logistic, [-1, 0, 1], [new Weighted(1, 1)], [new Weighted(0.5, 1)], [new Weighted(0.02, 1)]));

    // Published: PSY-17, thresholds −1, 0, 1 equally likely, logistic slope 1, g = 0.5, lapse 0.02, stimulus 0, answer correct; 1e-6.
    [Fact]
    public void One_step_of_the_adaptive_choice()
    {
        CurveBelief belief = Small();
        Assert.Equal(1.0986123, belief.Entropy(), 1e-6);
        Assert.Equal(1.0767636, belief.ExpectedEntropy(0), 1e-6);
        belief.Take(0, 1);
        double[] expected = [0.383292, 0.333333, 0.283375];
        Assert.All(expected.Zip(belief.ThresholdWeights.ToArray()), pair => Assert.Equal(pair.First, pair.Second, 1e-6));
    }

    // Derived: half an answer each way is the root of the product of both likelihoods.
    [Fact]
    public void Unsure_counts_half_each_way()
    {
        CurveBelief belief = Small();
        belief.Take(0, 0.5);
        double[] rise = [0.850908, 0.74, 0.629092];
        double[] root = [.. rise.Select(p => Math.Sqrt(p * (1 - p)))];
        Assert.All(root.Zip(belief.ThresholdWeights.ToArray()), pair => Assert.Equal(pair.First / root.Sum(), pair.Second, 1e-5));
        Assert.Throws<ArgumentOutOfRangeException>(() => belief.Take(0, 0.3));
    }
}
