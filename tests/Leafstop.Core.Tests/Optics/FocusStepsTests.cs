using CsCheck;
using Leafstop.Core.Optics;
using Leafstop.Core.Quantities;
using static Leafstop.Core.Tests.Optics.DepthOfFieldTests;

namespace Leafstop.Core.Tests.Optics;

public sealed class FocusStepsTests
{
    // Derived: DOF-20: the chain from infinity, 50 mm f/8 0.020 mm, each far limit the near limit before; tolerance 1e-3 mm of the row.
    [Fact]
    public void A_chain_without_overlap_is_the_contiguous_one()
    {
        double[] focus = [15675.000, 5236.135, 3151.056, 2257.739];
        double[] near = [7837.500, 3931.290, 2629.238, 1978.225];
        FocusSteps steps = Plan(50, 8, 0.020, 1978.2255, double.PositiveInfinity, 0);
        Assert.Equal(4, steps.Frames.Length);
        for (int i = 0; i < 4; i++)
        {
            Assert.Equal(focus[i], steps.Frames[i].Focus.Millimetres, focus[i] * 1e-6);
            Assert.Equal(near[i], steps.Frames[i].Near.Millimetres, 1e-3);
        }
    }

    // Derived: DOF-20, the far-field rule: H, H/3, H/5, H/7. Good to f / s, here 3 %.
    [Fact]
    public void Far_away_the_chain_is_a_hyperfocal_over_odd_numbers()
    {
        FocusSteps steps = Plan(50, 8, 0.020, 1978.2255, double.PositiveInfinity, 0);
        for (int i = 0; i < 4; i++)
            Assert.Equal(15675.0 / (2 * i + 1), steps.Frames[i].Focus.Millimetres, 0.03 * 15675 / (2 * i + 1));
    }

    // Derived: random demands: the frames hold the whole depth, neighbours overlap by at least what was asked, and one frame fewer would not do.
    [Fact]
    public void Frames_hold_the_depth_with_the_overlap_and_none_is_too_many() =>
        Gen.Select(Gen.Double[14, 200], Gen.Double[5, 100], Gen.Double[1.05, 1000], Gen.Double[4, 22], Gen.Double[0, 0.6]).Sample((f, nearTimes, farTimes, n, overlap) =>
        {
            double near = f * nearTimes;
            FocusSteps steps = Plan(f, n, 0.020, near, near * farTimes, overlap);
            bool holds = steps.Frames[^1].Near.Millimetres <= near * (1 + 1e-9) && steps.Frames[0].Far.Millimetres >= near * farTimes * (1 - 1e-9);
            if (steps.Frames.Length == 1)
                return holds && steps.Overlap == 1;
            bool overlaps = steps.Frames.Zip(steps.Frames.Skip(1)).All(p =>
            {
                double Log(SubjectDistance x) => Math.Log(1 / f - 1 / x.Millimetres);
                double shared = (Log(p.Second.Far) - Log(p.First.Near)) / (Log(p.First.Far) - Log(p.First.Near));
                return shared >= overlap - 1e-6 && Math.Abs(shared - steps.Overlap) < 1e-6;
            });
            double kf = n * 0.020 / f;
            double reach = Math.Log((1 + kf) / (1 - kf));
            double whole = Math.Log((1 / f - 1 / (near * farTimes)) / (1 / f - 1 / near));
            return holds && overlaps && whole > reach * (1 + (steps.Frames.Length - 2) * (1 - overlap)) * (1 - 1e-9);
        });

    // Derived: a depth that one frame holds is one frame at the focus of the demand.
    [Fact]
    public void One_frame_is_enough_where_one_frame_is_enough()
    {
        FocusSteps steps = Plan(24, 16, 0.030, 1800, double.PositiveInfinity, 0.3);
        Assert.Equal(3600, Assert.Single(steps.Frames).Focus.Millimetres, 1e-9);
    }

    [Fact]
    public void Plans_without_end_are_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Plan(200, 1.4, 0.001, 500, double.PositiveInfinity, 0.5));
        Assert.Throws<ArgumentOutOfRangeException>(() => Plan(50, 8, 0.020, 1000, 2000, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => Plan(50, 8, 0.020, 1000, 2000, -0.1));
        Assert.Throws<ArgumentOutOfRangeException>(() => Plan(50, 8, 0, 1000, 2000, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => Plan(50, 64, 2, 1000, 2000, 0));
    }

    private static FocusSteps Plan(double f, double n, double c, double near, double far, double overlap) => FocusSteps.Plan(
        DepthDemand.Of(Mm(f), SubjectDistance.FromMillimetres(near), SubjectDistance.FromMillimetres(far)), FNumber.FromRatio(n), Length.FromMillimetres(c), overlap);
}
