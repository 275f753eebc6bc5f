using Leafstop.Core.Judging.Curves;

namespace Leafstop.Core.Tests.Judging.Curves;

public sealed class CurveFitTests
{
    private static readonly double[] Stimuli = [.0010, .0015, .0020, .0025, .0030, .0035, .0040, .0045, .0050, .0060, .0070, .0080, .0100];
    private static readonly double[] Right = [45, 50, 44, 44, 52, 53, 62, 64, 76, 79, 88, 90, 90];

    /// <summary>Data A of PSY-12 and PSY-14: a choice of two, 90 trials each.</summary>
    private static readonly AnswerCount[] DataA = [.. Stimuli.Zip(Right, (x, k) => new AnswerCount(x, k, 90))];

    // Published: PSY-09, Watson and Pelli 1983 form, g = 0.5, at x = a for lapse 0, 0.01, 0.02.
    [Theory]
    [InlineData(0, 0.8160603)]
    [InlineData(0.01, 0.8097391)]
    [InlineData(0.02, 0.8034179)]
    public void The_Weibull_curve_at_its_place(double lapse, double expected) =>
        Assert.Equal(expected, new AnswerCurve(SigmoidShape.Weibull, 0.3, 3.5, 0.5, lapse).At(0.3), 1e-7);

    // Published: PSY-11, psignifit 3 documentation; its tolerance, 1e-3, for two searches that stop a little apart.
    [Fact]
    public void Logistic_with_a_lapse_by_maximum_likelihood()
    {
        double[] x = [0, 2, 4, 6, 8, 10], k = [26, 30, 38, 46, 50, 49];
        CurveFit fit = CurveFit.Of(SigmoidShape.Logistic, [.. x.Zip(k, (s, n) => new AnswerCount(s, n, 50))], 0.5, 0.1)!;
        Assert.Equal(3.80593409, fit.Curve.Place, 1e-3);
        Assert.Equal(1.09308994, fit.Curve.Spread, 1e-3);
        Assert.Equal(0.00935698, fit.Curve.Lapse, 1e-3);
        Assert.Equal(2.5160989, fit.Deviance, 1e-3);
    }

    // Published: PSY-14, R glm with mafc.weib and a direct search; 1e-4 relative.
    [Fact]
    public void Weibull_without_a_lapse_by_maximum_likelihood()
    {
        CurveFit fit = CurveFit.Of(SigmoidShape.Weibull, DataA, 0.5, 0)!;
        Assert.Equal(0.00515611, fit.Curve.Place, 0.00515611 * 1e-4);
        Assert.Equal(3.66883, fit.Curve.Spread, 3.66883 * 1e-4);
        Assert.Equal(5.743091, fit.Deviance, 5.743091 * 1e-4);
    }

    // Published: PSY-12, psignifit 4, Gaussian sigmoid, width from 5 % to 95 % (3.28971 standard deviations); within 1 %, because that program's estimate has priors and ours has none.
    [Fact]
    public void Normal_curve_on_the_same_answers()
    {
        CurveFit fit = CurveFit.Of(SigmoidShape.Normal, DataA, 0.5, 0.1)!;
        Assert.Equal(0.00464484725, fit.Curve.Place, 0.00464484725 * 0.01);
        Assert.Equal(0.00468383735, fit.Curve.Spread * 3.289707, 0.00468383735 * 0.01);
    }

    [Fact]
    public void Answers_that_cannot_be_are_refused()
    {
        Assert.Throws<ArgumentException>(() => CurveFit.Of(SigmoidShape.Normal, [new(1, 3, 5)], 0.5, 0));
        Assert.Throws<ArgumentException>(() => CurveFit.Of(SigmoidShape.Normal, [new(1, 6, 5), new(2, 1, 5)], 0.5, 0));
        Assert.Throws<ArgumentException>(() => CurveFit.Of(SigmoidShape.Weibull, [new(0, 1, 5), new(2, 1, 5)], 0.5, 0));
    }
}
