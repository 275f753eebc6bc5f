using CsCheck;
using Leafstop.Core.Optics;
using Leafstop.Core.Quantities;

namespace Leafstop.Core.Tests.Optics;

public sealed class DepthOfFieldTests
{
    private const double Foot = 12 * Length.MillimetresPerInch;

    // Published: DOF-01 (NAVY): 6.1 in at f/2.8 has a hyperfocal distance of 554 ft; the disc of 0.002 in is inferred from it. Tolerance 0.1 %, the source's rounding.
    [Fact]
    public void A_long_lens_of_the_manual_has_its_hyperfocal_at_554_feet()
    {
        SubjectDistance hyperfocal = Lens.Of(Length.FromInches(6.1)).Hyperfocal(FNumber.FromRatio(2.8), Length.FromInches(0.002));
        Assert.Equal(554, hyperfocal.Millimetres / Foot, 0.554);
    }

    // Published: DOF-02 (NAVY): that lens focused at 10 ft is sharp from 9.8 to 10.2 ft. The source prints tenths, tolerance 0.05 ft.
    // Its total of 0.4 ft comes from the far-field forms H s / (H ± s), worked out here from our hyperfocal less the focal length; the exact total is 0.343 ft.
    [Fact]
    public void Focused_at_10_feet_it_is_sharp_from_9_8_to_10_2()
    {
        DepthOfField depth = DepthOfField.Of(
            Lens.Of(Length.FromInches(6.1)), FNumber.FromRatio(2.8), SubjectDistance.FromMillimetres(10 * Foot), Length.FromInches(0.002));
        Assert.Equal(9.8, depth.Near.Millimetres / Foot, 0.05);
        Assert.Equal(10.2, depth.Far.Millimetres / Foot, 0.05);
        Assert.Equal(0.343, depth.Depth!.Value.Millimetres / Foot, 5e-4);
        double h = (Lens.Of(Length.FromInches(6.1)).Hyperfocal(FNumber.FromRatio(2.8), Length.FromInches(0.002)).Millimetres - 6.1 * Length.MillimetresPerInch) / Foot;
        Assert.Equal(0.4, h * 10 / (h - 10) - h * 10 / (h + 10), 0.05);
    }

    // Published: DOF-06 (LENSFAQ): focus at an eighth of the hyperfocal distance is sharp from 8/9 to 8/7 of it. A far-field ratio: the exact lens
    // differs by f / s, here 5 mm in 200 m, 3e-5.
    [Fact]
    public void Focus_at_an_eighth_of_the_hyperfocal_is_sharp_from_eight_ninths_to_eight_sevenths()
    {
        Lens lens = Mm(5);
        FNumber aperture = FNumber.FromRatio(8);
        var circle = Length.FromMillimetres(2e-6);
        double s = lens.Hyperfocal(aperture, circle).Millimetres / 8;
        DepthOfField depth = DepthOfField.Of(lens, aperture, SubjectDistance.FromMillimetres(s), circle);
        Assert.Equal(8 / 9.0, depth.Near.Millimetres / s, 3e-5);
        Assert.Equal(8 / 7.0, depth.Far.Millimetres / s, 3e-5);
    }

    // Published: DOF-08, DOF-09, DOF-11, DOF-16 (LENSFAQ, formula verified, value computed), tolerance 1e-3 mm as the rows print. DOF-09 takes f/11 literally.
    [Theory]
    [InlineData(50, 8, 5000, 10466.667, 3389.371, 9527.439)]
    [InlineData(24, 11, 1500, 1769.455, 812.733, 9716.599)]
    [InlineData(85, 2.8, 3000, 86096.905, 2901.661, 3105.239)]
    [InlineData(14, 8, 1000, 830.667, 453.033, double.PositiveInfinity)]
    public void Limits_and_hyperfocal_are_those_of_the_exact_thin_lens(double f, double n, double s, double hyperfocal, double near, double far)
    {
        DepthOfField depth = Depth(f, n, s, 0.030);
        Assert.Equal(hyperfocal, Mm(f).Hyperfocal(FNumber.FromRatio(n), Length.FromMillimetres(0.030)).Millimetres, 1e-3);
        Assert.Equal(near, depth.Near.Millimetres, 1e-3);
        Assert.Equal(far, depth.Far.Millimetres, 1e-3);
    }

    // Published: DOF-07 (LENSFAQ): front depth = Ne c / (M² (1 + (s − f) / h)), worked out beside ours; 1610.629 mm.
    [Fact]
    public void Front_depth_is_that_of_the_form_with_magnification()
    {
        const double f = 50, n = 8, c = 0.030, s = 5000;
        double m = f / (s - f);
        double front = n * (1 + m) * c / (m * m * (1 + (s - f) / (f * f / (n * c))));
        Assert.Equal(1610.629, front, 1e-3);
        Assert.Equal(front, s - Depth(f, n, s, c).Near.Millimetres, 1e-9);
    }

    // Published: DOF-08, depth 6138.068 mm; DOF-11, depth 203.578 mm.
    [Fact]
    public void Depth_is_far_less_near()
    {
        Assert.Equal(6138.068, Depth(50, 8, 5000, 0.030).Depth!.Value.Millimetres, 1e-3);
        Assert.Equal(203.578, Depth(85, 2.8, 3000, 0.030).Depth!.Value.Millimetres, 1e-3);
        Assert.Null(Depth(14, 8, 1000, 0.030).Depth);
    }

    // Published: DOF-10 (LENSFAQ): 24 mm f/8 focused at its hyperfocal 2424 mm holds 1212 mm, the half, to infinity.
    [Fact]
    public void Focus_at_the_hyperfocal_holds_half_of_it_to_infinity()
    {
        DepthOfField depth = Depth(24, 8, 2424, 0.030);
        Assert.Equal(1212, depth.Near.Millimetres, 1e-6);
        Assert.True(depth.Far.IsInfinite);
    }

    // Derived: the same at every lens, aperture and circle.
    [Fact]
    public void At_every_hyperfocal_the_near_limit_is_the_half_and_the_far_limit_infinity() =>
        Gen.Select(Gen.Double[8, 600], Gen.Double[1, 64], Gen.Double[0.005, 0.05]).Sample((f, n, c) =>
        {
            SubjectDistance hyperfocal = Mm(f).Hyperfocal(FNumber.FromRatio(n), Length.FromMillimetres(c));
            DepthOfField depth = DepthOfField.Of(Mm(f), FNumber.FromRatio(n), hyperfocal, Length.FromMillimetres(c));
            return depth.Far.IsInfinite && Math.Abs(depth.Near.Millimetres * 2 / hyperfocal.Millimetres - 1) < 1e-12;
        });

    // Derived: the blur at a limit is the permitted one, and a demand for the limits gives back focus and aperture.
    [Fact]
    public void Limits_invert() =>
        Scenes.Sample((f, n, c, times) =>
        {
            double s = f * times;
            DepthOfField depth = Depth(f, n, s, c);
            var demand = DepthDemand.Of(Mm(f), depth.Near, depth.Far);
            bool blurIsPermitted = Near(Mm(f).BlurDisc(FNumber.FromRatio(n), depth.Focus, depth.Near).Millimetres, c)
                && (depth.Far.IsInfinite || Near(Mm(f).BlurDisc(FNumber.FromRatio(n), depth.Focus, depth.Far).Millimetres, c));
            return blurIsPermitted && (depth.Far.IsInfinite
                || (Near(demand.Focus.Millimetres, s) && Near(demand.WidestAperture(Length.FromMillimetres(c)).Ratio, n)));
        });

    // Derived: a smaller opening or a larger circle never takes depth away; a farther focus moves both limits away.
    [Fact]
    public void Depth_grows_with_f_number_and_circle_and_moves_with_focus() =>
        Scenes.Sample((f, n, c, times) =>
        {
            DepthOfField depth = Depth(f, n, f * times, c);
            DepthOfField closed = Depth(f, n * 1.1, f * times, c);
            DepthOfField lax = Depth(f, n, f * times, c * 1.1);
            DepthOfField farther = Depth(f, n, f * times * 1.1, c);
            return closed.Near <= depth.Near && closed.Far >= depth.Far
                && lax.Near <= depth.Near && lax.Far >= depth.Far
                && farther.Near > depth.Near && farther.Far >= depth.Far
                && depth.Near < depth.Focus && depth.Far > depth.Focus;
        });

    // Derived: job figures. 24 mm at f/11: hyperfocal 1.72 m at 0.030 and 3.4 m at 0.015; f/8 4.8 m. 35 mm: 3.64 and 7.3 m. Marks are exact powers; printed to the last digit given.
    [Theory]
    [InlineData(24, "f/11", 0.030, 1.72, 0.005)]
    [InlineData(24, "f/11", 0.015, 3.4, 0.05)]
    [InlineData(24, "f/8", 0.015, 4.8, 0.05)]
    [InlineData(35, "f/11", 0.030, 3.64, 0.005)]
    [InlineData(35, "f/11", 0.015, 7.3, 0.05)]
    public void Hyperfocal_distances_of_the_job(double f, string aperture, double c, double metres, double half) =>
        Assert.Equal(metres, Mm(f).Hyperfocal(FNumber.Parse(aperture), Length.FromMillimetres(c)).Metres, half);

    // Derived: "nothing nearer than 2.5 m: f/8 is free" at 24 mm and 0.015 mm.
    [Fact]
    public void With_nothing_nearer_than_2_5_metres_f8_holds_everything_at_24_mm()
    {
        var circle = Length.FromMillimetres(0.015);
        var demand = DepthDemand.Of(Mm(24), SubjectDistance.FromMetres(2.5), SubjectDistance.Infinity);
        Assert.True(demand.WidestAperture(circle).Ratio <= 8);
    }

    // Derived: infinity as focus: near = f² / (N c), everything beyond.
    [Fact]
    public void Focused_at_infinity_the_near_limit_is_the_hyperfocal_less_the_focal_length()
    {
        var depth = DepthOfField.Of(Mm(50), FNumber.FromRatio(8), SubjectDistance.Infinity, Length.FromMillimetres(0.030));
        Assert.Equal(10416.6667, depth.Near.Millimetres, 1e-3);
        Assert.True(depth.Far.IsInfinite);
    }

    [Fact]
    public void A_focus_inside_the_focal_length_and_a_circle_of_zero_are_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Depth(50, 8, 50, 0.030));
        Assert.Throws<ArgumentOutOfRangeException>(() => Depth(50, 8, 20, 0.030));
        Assert.Throws<ArgumentOutOfRangeException>(() => Depth(50, 8, 5000, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => Mm(50).Hyperfocal(FNumber.FromRatio(8), default));
    }

    internal static Gen<(double F, double N, double C, double Times)> Scenes { get; } =
        Gen.Select(Gen.Double[8, 600], Gen.Double[1, 45], Gen.Double[0.005, 0.05], Gen.Double[3, 500]);

    internal static Lens Mm(double f) => Lens.Of(Length.FromMillimetres(f));

    internal static bool Near(double actual, double expected) => Math.Abs(actual / expected - 1) < 1e-9;

    private static DepthOfField Depth(double f, double n, double s, double c) =>
        DepthOfField.Of(Mm(f), FNumber.FromRatio(n), SubjectDistance.FromMillimetres(s), Length.FromMillimetres(c));
}
