using Leafstop.Core.Optics;
using Leafstop.Core.Quantities;
using MathNet.Numerics;

namespace Leafstop.Core.Tests.Optics;

public sealed class DiffractionTests
{
    private static readonly Length Nm520 = Length.FromMillimetres(520e-6);

    // Published: DIF-01 (IRG24, value computed): 2 j11 / π. Derived: J1 vanishes there.
    [Fact]
    public void The_first_dark_ring_is_the_first_zero_of_the_bessel_function()
    {
        Assert.Equal(2.4393397826782857, Diffraction.AiryConstant, 1e-12);
        Assert.Equal(0, SpecialFunctions.BesselJ(1, Math.PI / 2 * Diffraction.AiryConstant), 1e-9);
    }

    // Published: DIF-02 (IRG24, value computed): 520 nm at f/2.8, f/8, f/16, tolerance 1e-4 µm.
    [Theory]
    [InlineData(2.8, 3.5517)]
    [InlineData(8, 10.1477)]
    [InlineData(16, 20.2953)]
    public void The_dark_ring_grows_with_the_f_number(double n, double micrometres) =>
        Assert.Equal(micrometres, Diffraction.AiryDiameter(FNumber.FromRatio(n), Nm520).Millimetres * 1000, 1e-4);

    // Published: DIF-04 (IRG31): cut-off at 520 nm in line pairs per mm, printed whole, tolerance 0.5.
    [Theory]
    [InlineData(1.4, 1374)]
    [InlineData(2.8, 687)]
    [InlineData(5.6, 343)]
    [InlineData(11, 175)]
    public void The_cut_off_is_that_of_the_published_table(double n, double linePairs) =>
        Assert.Equal(linePairs, Diffraction.CutOffPerMillimetre(FNumber.FromRatio(n), Nm520), 0.5);

    // Published: DIF-06 (OTF, value computed), tolerance 1e-7; DIF-08: x of 0.5 and 0.1, tolerance 1e-6.
    [Theory]
    [InlineData(0.1, 0.8728886, 1e-7)]
    [InlineData(0.25, 0.6850376, 1e-7)]
    [InlineData(0.5, 0.3910022, 1e-7)]
    [InlineData(0.75, 0.1442936, 1e-7)]
    [InlineData(0.9, 0.0373861, 1e-7)]
    [InlineData(0.4039728, 0.5, 1e-6)]
    [InlineData(0.8053836, 0.1, 1e-6)]
    [InlineData(0, 1, 1e-15)]
    [InlineData(1, 0, 0)]
    [InlineData(7, 0, 0)]
    public void Contrast_in_perfect_focus(double x, double contrast, double tolerance) =>
        Assert.Equal(contrast, Diffraction.Contrast(x), tolerance);

    // Derived: DIF-10: half of the peak lies at 1.0289940 λN across; (2 J1(v) / v)² = 1/2 at v = π · 1.0289940 / 2. Tolerance 1e-6.
    [Fact]
    public void The_image_of_a_point_has_half_its_peak_at_the_stated_width()
    {
        Assert.Equal(1.0289940, Diffraction.HalfMaximumConstant, 1e-6);
        double v = Math.PI * Diffraction.HalfMaximumConstant / 2;
        double amplitude = 2 * SpecialFunctions.BesselJ(1, v) / v;
        Assert.Equal(0.5, amplitude * amplitude, 1e-6);
    }

    // Derived: DIF-21: f-number at which the dark ring is as wide as the circle at 550 nm, tolerance 1e-3. The row is worked with the rounded constant
    // 2.44 of the rule of practice; the exact constant gives 0.027 % more, which is all that may lie between them.
    [Theory]
    [InlineData(0.030, 22.355)]
    [InlineData(0.020, 14.903)]
    public void The_dark_ring_is_as_wide_as_the_circle_at(double circle, double n)
    {
        FNumber f1 = FNumber.FromRatio(1);
        Assert.Equal(n, circle / SharpestAperture.BlurByRule(default, f1, Diffraction.GreenLight).Millimetres, 1e-3);
        Assert.Equal(n * 2.44 / 2.4393397826782857, circle / Diffraction.AiryDiameter(f1, Diffraction.GreenLight).Millimetres, 1e-3);
    }

    // Derived: job figures: width on a 60 cm print at f/8 0.08, f/11 0.11, f/16 0.15, f/22 0.21 mm. Two decimals given.
    [Theory]
    [InlineData("f/8", 0.08)]
    [InlineData("f/11", 0.11)]
    [InlineData("f/16", 0.15)]
    [InlineData("f/22", 0.21)]
    public void Diffraction_on_a_60_cm_print(string aperture, double millimetres) =>
        Assert.Equal(millimetres, Diffraction.FullWidthAtHalfMaximum(FNumber.Parse(aperture), Diffraction.GreenLight).Millimetres * 600 / 36, 0.005);

    [Fact]
    public void Light_without_wavelength_and_a_frequency_below_zero_are_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Diffraction.AiryDiameter(FNumber.FromRatio(8), default));
        Assert.Throws<ArgumentOutOfRangeException>(() => Diffraction.Contrast(-0.1));
        Assert.Throws<ArgumentOutOfRangeException>(() => Diffraction.Contrast(double.NaN));
    }
}
