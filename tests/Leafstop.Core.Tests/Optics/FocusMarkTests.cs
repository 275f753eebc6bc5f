using CsCheck;
using Leafstop.Core.Optics;
using Leafstop.Core.Quantities;
using static Leafstop.Core.Tests.Optics.DepthOfFieldTests;

namespace Leafstop.Core.Tests.Optics;

public sealed class FocusMarkTests
{
    // Derived: at life size subject and image are two focal lengths away each, four from the mark.
    [Fact]
    public void Life_size_is_four_focal_lengths_from_the_mark()
    {
        Assert.Equal(100, FocusMark.ToLens(Mm(50), SubjectDistance.FromMillimetres(200)).Millimetres, 1e-6);
        Assert.Equal(200, FocusMark.FromLens(Mm(50), SubjectDistance.FromMillimetres(100), SubjectDistance.FromMillimetres(100)).Millimetres, 1e-9);
    }

    // Derived: there and back, with and without a gap between the principal planes.
    [Fact]
    public void From_mark_to_lens_and_back_is_the_same_distance() =>
        Gen.Select(Gen.Double[10, 400], Gen.Double[4.01, 500], Gen.Double[0, 20]).Sample((f, times, gap) =>
        {
            var planes = Length.FromMillimetres(gap);
            SubjectDistance mark = SubjectDistance.FromMillimetres(f * times + gap);
            SubjectDistance focus = FocusMark.ToLens(Mm(f), mark, planes);
            return Near(FocusMark.FromLens(Mm(f), focus, focus, planes).Millimetres, mark.Millimetres);
        });

    // Derived: limits measured from the mark come back from the mark.
    [Fact]
    public void A_demand_from_the_mark_has_its_limits_at_the_mark() =>
        Gen.Select(Gen.Double[10, 200], Gen.Double[6, 300], Gen.Double[1.1, 100]).Sample((f, nearTimes, farTimes) =>
        {
            SubjectDistance near = SubjectDistance.FromMillimetres(f * nearTimes);
            SubjectDistance far = SubjectDistance.FromMillimetres(f * nearTimes * farTimes);
            DepthDemand demand = FocusMark.DemandFromMark(Mm(f), near, far);
            return Near(FocusMark.FromLens(Mm(f), demand.Focus, demand.Near).Millimetres, near.Millimetres)
                && Near(FocusMark.FromLens(Mm(f), demand.Focus, demand.Far).Millimetres, far.Millimetres);
        });

    // Derived: every frame stands on its own, so its ends are measured from its own mark; the outermost ends are the limits that were asked.
    [Theory]
    [InlineData(100, 500, 600)]
    [InlineData(50, 500, 20000)]
    [InlineData(24, 400, double.PositiveInfinity)]
    public void Focus_steps_from_the_mark_hold_the_limits_at_the_mark(double focal, double near, double far)
    {
        FocusSteps steps = FocusMark.StepsFromMark(Mm(focal), SubjectDistance.FromMillimetres(near), SubjectDistance.FromMillimetres(far),
            FNumber.FromRatio(8), Length.FromMillimetres(0.015), 0.3);
        DepthOfField first = steps.Frames[0], last = steps.Frames[^1];
        Assert.True(FocusMark.FromLens(Mm(focal), last.Focus, last.Near).Millimetres <= near * (1 + 1e-9));
        Assert.True(first.Far.IsInfinite || FocusMark.FromLens(Mm(focal), first.Focus, first.Far).Millimetres >= far * (1 - 1e-9));
        for (int i = 1; i < steps.Frames.Length; i++)
            Assert.True(FocusMark.FromLens(Mm(focal), steps.Frames[i - 1].Focus, steps.Frames[i - 1].Near) < FocusMark.FromLens(Mm(focal), steps.Frames[i].Focus, steps.Frames[i].Far));
    }

    [Fact]
    public void Infinity_stays_infinity()
    {
        Assert.True(FocusMark.ToLens(Mm(50), SubjectDistance.Infinity).IsInfinite);
        Assert.True(FocusMark.FromLens(Mm(50), SubjectDistance.FromMetres(5), SubjectDistance.Infinity).IsInfinite);
        Assert.True(FocusMark.DemandFromMark(Mm(50), SubjectDistance.FromMetres(2), SubjectDistance.Infinity).Far.IsInfinite);
    }

    [Fact]
    public void Nearer_than_four_focal_lengths_from_the_mark_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => FocusMark.ToLens(Mm(50), SubjectDistance.FromMillimetres(199)));
        Assert.Throws<ArgumentOutOfRangeException>(() => FocusMark.DemandFromMark(Mm(50), SubjectDistance.FromMillimetres(90), SubjectDistance.Infinity));
    }
}
