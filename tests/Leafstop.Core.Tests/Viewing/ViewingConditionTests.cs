using CsCheck;
using Leafstop.Core.Quantities;
using Leafstop.Core.Viewing;

namespace Leafstop.Core.Tests.Viewing;

public sealed class ViewingConditionTests
{
    // Derived: 1.43′ at 60 cm is 0.25 mm on the print, 1′ is 0.1745 mm; on 36 mm behind a 60 cm print 0.015 mm.
    [Fact]
    public void At_60_cm_the_eye_resolves_a_quarter_of_a_millimetre()
    {
        Assert.Equal(0.25, Usual(1.43).FinestDetail.Millimetres, 0.0005);
        Assert.Equal(0.1745, Usual(1).FinestDetail.Millimetres, 0.00005);
        Assert.Equal(0.015, Usual(1.43).CircleOfConfusion(FrameFormat.FullFrame).Millimetres, 0.00005);
        Assert.Equal(16.667, Usual(1).Enlargement(FrameFormat.FullFrame), 0.0005);
    }

    // Published: DOF-23 (COC): 5 line pairs per mm at 25 cm go with a 0.2 mm disc; DOF-24: 0.2 mm on a print enlarged 7 times is 0.0286 mm, tolerance 1e-4.
    [Fact]
    public void A_disc_of_0_2_mm_on_a_print_enlarged_seven_times()
    {
        var viewing = ViewingCondition.Of(Length.FromMillimetres(7 * 36), Length.FromCentimetres(25), Angle.FromRadians(2 * Math.Atan(0.1 / 250)));
        Assert.Equal(1 / 5.0, viewing.FinestDetail.Millimetres, 1e-9);
        Assert.Equal(0.0286, viewing.CircleOfConfusion(FrameFormat.FullFrame).Millimetres, 1e-4);
    }

    // Derived: PRN-01: 6000 pixels over 60 cm from 60 cm, tolerance 0.01 of the row.
    [Fact]
    public void Six_thousand_pixels_over_60_cm()
    {
        Assert.Equal(100, Usual(1).PixelsPerCentimetre(6000), 0.01);
        Assert.Equal(104.72, Usual(1).PixelsPerDegree(6000), 0.01);
        Assert.Equal(52.36, Usual(1).PixelsPerDegree(6000) / 2, 0.01);
    }

    // Derived: job figures with PRN-03: 8256 pixels merge 5.8 to one (2.5 stops of apparent light), 24 MP merge 3.0.
    [Fact]
    public void The_eye_merges_5_8_pixels_of_45_megapixels()
    {
        Assert.Equal(5.8, Usual(1).PixelsMerged(8256), 0.05);
        Assert.Equal(2.5, Math.Log2(Usual(1).PixelsMerged(8256)), 0.05);
        Assert.Equal(3.0, Usual(1).PixelsMerged(6000), 0.05);
        Assert.Equal(1, Usual(1).PixelsMerged(600));
    }

    // Derived: crop and enlargement: keeping two thirds of the width is a print one and a half times larger.
    [Fact]
    public void A_crop_is_the_same_as_a_larger_print() =>
        Gen.Select(Gen.Double[0.1, 1], Gen.Double[10, 200], Gen.Double[10, 300]).Sample((crop, print, distance) =>
        {
            var viewing = ViewingCondition.Of(Length.FromCentimetres(print), Length.FromCentimetres(distance), Angle.FromArcminutes(1));
            var larger = ViewingCondition.Of(Length.FromCentimetres(print / crop), Length.FromCentimetres(distance), Angle.FromArcminutes(1));
            double cropped = viewing.CircleOfConfusion(FrameFormat.FullFrame, crop).Millimetres;
            double plain = larger.CircleOfConfusion(FrameFormat.FullFrame).Millimetres;
            double back = viewing.OnPrint(viewing.OnSensor(Length.FromMillimetres(0.3), FrameFormat.FullFrame, crop), FrameFormat.FullFrame, crop).Millimetres;
            return Math.Abs(cropped / plain - 1) < 1e-12 && Math.Abs(back / 0.3 - 1) < 1e-12;
        });

    // Derived: distance growing with the print leaves the circle as it is.
    [Fact]
    public void Twice_the_print_from_twice_the_distance_needs_no_more() =>
        Assert.Equal(
            Usual(1).CircleOfConfusion(FrameFormat.FullFrame).Millimetres,
            ViewingCondition.Of(Length.FromCentimetres(120), Length.FromCentimetres(120), Angle.FromArcminutes(1)).CircleOfConfusion(FrameFormat.FullFrame).Millimetres, 1e-12);

    [Fact]
    public void Prints_distances_acuities_and_crops_out_of_range_are_refused()
    {
        var some = Length.FromCentimetres(60);
        var fine = Angle.FromArcminutes(1);
        Assert.Throws<ArgumentOutOfRangeException>(() => ViewingCondition.Of(default, some, fine));
        Assert.Throws<ArgumentOutOfRangeException>(() => ViewingCondition.Of(some, default, fine));
        Assert.Throws<ArgumentOutOfRangeException>(() => ViewingCondition.Of(some, some, default));
        Assert.Throws<ArgumentOutOfRangeException>(() => ViewingCondition.Of(some, some, -fine));
        Assert.Throws<ArgumentOutOfRangeException>(() => ViewingCondition.Of(some, some, Angle.FromDegrees(2)));
        foreach (double crop in new[] { 0, -1, 1.01, double.NaN })
            Assert.Throws<ArgumentOutOfRangeException>(() => Usual(1).Enlargement(FrameFormat.FullFrame, crop));
        Assert.Throws<ArgumentOutOfRangeException>(() => Usual(1).PixelsPerDegree(0));
    }

    private static ViewingCondition Usual(double arcminutes) =>
        ViewingCondition.Of(Length.FromCentimetres(60), Length.FromCentimetres(60), Angle.FromArcminutes(arcminutes));
}
