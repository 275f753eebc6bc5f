using Leafstop.Core.Optics;
using Leafstop.Core.Quantities;
using Leafstop.Core.Viewing;
using static Leafstop.Core.Tests.Optics.DepthOfFieldTests;

namespace Leafstop.Core.Tests.Optics;

public sealed class LensTests
{
    // Derived: DOF-17, blur disc of 50 mm f/8 focused at 5 m for points at 3 m, 10 m and infinity, tolerance 1e-7 mm.
    [Theory]
    [InlineData(3000, 0.0420875)]
    [InlineData(10000, 0.0315657)]
    [InlineData(double.PositiveInfinity, 0.0631313)]
    public void A_point_out_of_focus_has_the_disc_of_the_thin_lens(double x, double disc) =>
        Assert.Equal(disc, Blur(50, 8, 5000, x), 1e-7);

    // Derived: DOF-34, effective f-number N (1 + m / p), exact. m = 0.5 lies at 3 f, m = 1 at 2 f.
    [Theory]
    [InlineData(3, 1, 12)]
    [InlineData(2, 1, 16)]
    [InlineData(3, 0.5, 16)]
    public void Close_up_the_effective_f_number_grows_by_magnification_over_pupil_ratio(double timesFocal, double pupilRatio, double effective) =>
        Assert.Equal(effective, Lens.Of(Length.FromMillimetres(50), pupilRatio)
            .EffectiveAperture(FNumber.FromRatio(8), SubjectDistance.FromMillimetres(50 * timesFocal)).Ratio, 1e-12);

    // Published: DOF-28 (ARMYB): 12 in lens at 18 in of bellows asks for 2.25 times the exposure, 8 s become 18 s. Exact.
    [Fact]
    public void Twelve_inches_drawn_out_to_eighteen_ask_for_two_and_a_quarter_times_the_light()
    {
        var lens = Lens.Of(Length.FromInches(12));
        SubjectDistance subject = SubjectDistance.Of(Length.FromInches(36));
        Assert.Equal(18, lens.ImageDistance(subject).Millimetres / Length.MillimetresPerInch, 1e-9);
        Assert.Equal(2.25, lens.CloseUpLoss(subject).Ratio, 1e-9);
        Assert.Equal(18, 8 * lens.CloseUpLoss(subject).Ratio, 1e-9);
    }

    // Published: DOF-29 (ARMYB): magnification 8/12 gives the factor 2.8 (exact 2.7778, tolerance 0.03 of the row). DOF-31 (LANGF): 0.5 gives 2 1/4, exact.
    [Theory]
    [InlineData(8 / 12.0, 2.8, 0.03)]
    [InlineData(0.5, 2.25, 1e-9)]
    public void The_exposure_factor_is_one_plus_magnification_squared(double m, double factor, double tolerance)
    {
        SubjectDistance subject = SubjectDistance.FromMillimetres(100 * (1 + 1 / m));
        Assert.Equal(m, Mm(100).Magnification(subject), 1e-12);
        Assert.Equal(factor, Mm(100).CloseUpLoss(subject).Ratio, tolerance);
    }

    // Published: DOF-32 (BELLOWS): loss by distance in focal lengths, tolerance 0.01 stop. The row's 3.4 f rounds 1 stop, 9.2 f a third.
    [Theory]
    [InlineData(3.4, 1)]
    [InlineData(9.2, 1 / 3.0)]
    [InlineData(2, 2)]
    [InlineData(8, 0.39)]
    public void Loss_by_distance_in_focal_lengths(double timesFocal, double stops) =>
        Assert.Equal(stops, Mm(100).CloseUpLoss(SubjectDistance.FromMillimetres(100 * timesFocal)).Value, 0.01);

    // Derived: job figures. 24 mm focused at 3.4 m: the fern at 1.8 m is 0.32 mm wide on a 60 cm print at f/8, 0.22 at f/11. Two decimals given.
    [Theory]
    [InlineData("f/8", 0.32)]
    [InlineData("f/11", 0.22)]
    public void The_fern_at_1_8_metres_on_the_print(string aperture, double millimetres)
    {
        var viewing = ViewingCondition.Of(Length.FromCentimetres(60), Length.FromCentimetres(60), Angle.FromArcminutes(1.43));
        Length blur = Mm(24).BlurDisc(FNumber.Parse(aperture), SubjectDistance.FromMetres(3.4), SubjectDistance.FromMetres(1.8));
        Assert.Equal(millimetres, viewing.OnPrint(blur, FrameFormat.FullFrame).Millimetres, 0.005);
    }

    // Derived: equal depth on a frame 1.5 times smaller: focal length and f-number divided by 1.5 (f/11 becomes f/7.5) give the same blur on the print.
    // The thin lens differs by the change of f / s, here 0.3 %.
    [Fact]
    public void A_frame_one_and_a_half_times_smaller_has_the_same_depth_at_f_7_5()
    {
        FNumber small = FNumber.FromRatio(FNumber.FromMarking(11).Ratio / 1.5);
        Assert.Equal(7.5, small.Ratio, 0.05);
        double large = Blur(36, FNumber.FromMarking(11).Ratio, 4000, 1800);
        Assert.Equal(1, Blur(24, small.Ratio, 4000, 1800) * 1.5 / large, 0.004);
        Assert.Equal(1.17, SharpestAperture.Light(FNumber.FromMarking(11), small).Value, 0.005);
    }

    [Fact]
    public void A_lens_without_focal_length_and_a_focus_inside_it_are_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Lens.Of(default));
        Assert.Throws<ArgumentOutOfRangeException>(() => Lens.Of(Length.FromMillimetres(50), 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => Lens.Of(Length.FromMillimetres(50), double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => Mm(50).ImageDistance(SubjectDistance.FromMillimetres(50)));
        Assert.Throws<ArgumentOutOfRangeException>(() => Mm(50).Magnification(SubjectDistance.FromMillimetres(49)));
    }

    private static double Blur(double f, double n, double s, double x) =>
        Mm(f).BlurDisc(FNumber.FromRatio(n), SubjectDistance.FromMillimetres(s), SubjectDistance.FromMillimetres(x)).Millimetres;
}
