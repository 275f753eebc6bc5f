using CsCheck;
using Leafstop.Core.Optics;
using Leafstop.Core.Quantities;
using static Leafstop.Core.Tests.Optics.DepthOfFieldTests;

namespace Leafstop.Core.Tests.Optics;

public sealed class DepthDemandTests
{
    private const double Foot = 12 * Length.MillimetresPerInch;

    // Published: DOF-03 (NAVY): limits 9.8 and 10.2 ft ask for a focus at 10 ft; tolerance 0.05 ft as printed.
    [Fact]
    public void Limits_of_9_8_and_10_2_feet_ask_for_focus_at_10()
    {
        var demand = DepthDemand.Of(Lens.Of(Length.FromInches(6.1)), SubjectDistance.FromMillimetres(9.8 * Foot), SubjectDistance.FromMillimetres(10.2 * Foot));
        Assert.Equal(10, demand.Focus.Millimetres / Foot, 0.05);
        Assert.Equal(9.9960, demand.Focus.Millimetres / Foot, 1e-4);
    }

    // Derived: DOF-18: 3 m to 20 m with 50 mm and 0.020 mm asks for 5217.391 mm and f/17.8797; tolerances of the row.
    [Fact]
    public void Three_to_twenty_metres_with_50_mm_ask_for_f_17_88()
    {
        var demand = DepthDemand.Of(Mm(50), SubjectDistance.FromMetres(3), SubjectDistance.FromMetres(20));
        Assert.Equal(5217.391, demand.Focus.Millimetres, 1e-3);
        Assert.Equal(17.8797, demand.WidestAperture(Length.FromMillimetres(0.020)).Ratio, 1e-4);
    }

    // Derived: with infinity the focus is twice the near limit and the aperture makes that the hyperfocal distance.
    [Fact]
    public void To_hold_infinity_focus_at_twice_the_near_limit()
    {
        var demand = DepthDemand.Of(Mm(24), SubjectDistance.FromMetres(1.8), SubjectDistance.Infinity);
        var circle = Length.FromMillimetres(0.015);
        Assert.Equal(3.6, demand.Focus.Metres, 1e-12);
        Assert.Equal(3600, Mm(24).Hyperfocal(demand.WidestAperture(circle), circle).Millimetres, 1e-6);
    }

    // Derived: both limits have the same blur, whatever they are; and half the focus spread over the effective f-number is that blur.
    [Fact]
    public void Both_limits_blur_alike() =>
        Gen.Select(Gen.Double[10, 400], Gen.Double[3, 300], Gen.Double[1.01, 1000], Gen.Double[1, 45]).Sample((f, nearTimes, farTimes, n) =>
        {
            var demand = DepthDemand.Of(Mm(f), SubjectDistance.FromMillimetres(f * nearTimes), SubjectDistance.FromMillimetres(f * nearTimes * farTimes));
            FNumber aperture = FNumber.FromRatio(n);
            double near = demand.BlurAtLimits(aperture).Millimetres;
            double far = Mm(f).BlurDisc(aperture, demand.Focus, demand.Far).Millimetres;
            double spread = demand.FocusSpread.Millimetres;
            double v = Mm(f).ImageDistance(demand.Focus).Millimetres;
            double vNear = Mm(f).ImageDistance(demand.Near).Millimetres;
            // The cone of the near limit, cut by the sensor: (f / N)(vn − v) / vn.
            return Math.Abs(near / far - 1) < 1e-7 && Math.Abs(near / (f / n * (vNear - v) / vNear) - 1) < 1e-7 && spread > vNear - v;
        });

    [Fact]
    public void Near_beyond_far_or_inside_the_lens_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => DepthDemand.Of(Mm(50), SubjectDistance.FromMetres(3), SubjectDistance.FromMetres(2)));
        Assert.Throws<ArgumentOutOfRangeException>(() => DepthDemand.Of(Mm(50), SubjectDistance.FromMetres(3), SubjectDistance.FromMetres(3)));
        Assert.Throws<ArgumentOutOfRangeException>(() => DepthDemand.Of(Mm(50), SubjectDistance.Infinity, SubjectDistance.Infinity));
        Assert.Throws<ArgumentOutOfRangeException>(() => DepthDemand.Of(Mm(50), SubjectDistance.FromMillimetres(40), SubjectDistance.Infinity));
    }
}
