using CsCheck;
using Leafstop.Core.Optics;
using Leafstop.Core.Quantities;

namespace Leafstop.Core.Tests.Optics;

public sealed class BlurTransferTests
{
    // Derived: DIF-12: a disc of 0.030 mm at f/8 and 550 nm is 0.8522727 waves at the rim, tolerance 1e-7.
    [Fact]
    public void A_disc_of_30_micrometres_at_f8_is_0_85_waves() =>
        Assert.Equal(0.8522727, BlurTransfer.WavesAtRim(Length.FromMillimetres(0.030), FNumber.FromRatio(8), Diffraction.GreenLight), 1e-7);

    // Derived: DIF-13: half a wave of defocus, tolerance 1e-5 of the row.
    [Theory]
    [InlineData(0.1, 0.742089)]
    [InlineData(0.2, 0.434819)]
    [InlineData(0.5, 0.084609)]
    public void Half_a_wave_of_defocus(double x, double contrast) => Assert.Equal(contrast, BlurTransfer.Exact(x, 0.5), 1e-5);

    // Derived: DIF-16: 0.030 mm at f/8, 550 nm: exact, disc alone, and the product with diffraction that is no good model. Tolerance 1e-5.
    [Theory]
    [InlineData(20, 0.600914, 0.616962, 0.547924)]
    [InlineData(30, 0.351476, 0.283317, 0.235839)]
    public void Exact_contrast_is_neither_the_disc_alone_nor_the_product(double linePairs, double exact, double disc, double product)
    {
        var circle = Length.FromMillimetres(0.030);
        FNumber f8 = FNumber.FromRatio(8);
        Assert.Equal(exact, BlurTransfer.Exact(linePairs, circle, f8, Diffraction.GreenLight), 1e-5);
        Assert.Equal(disc, BlurTransfer.DiscAlone(linePairs, circle), 1e-5);
        double x = linePairs / Diffraction.CutOffPerMillimetre(f8, Diffraction.GreenLight);
        Assert.Equal(product, BlurTransfer.DiscAlone(linePairs, circle) * Diffraction.Contrast(x), 1e-5);
    }

    // Derived: DIF-11: the peak of the blurred point is the volume under its transfer: ∫ OTF(x) x dx over that without defocus = sinc²(W). Tolerance 1e-7.
    [Theory]
    [InlineData(0.25, 0.8105695)]
    [InlineData(0.5, 0.4052847)]
    [InlineData(1, 0)]
    public void The_peak_that_is_left_is_the_sinc_squared_of_the_defocus(double waves, double strehl)
    {
        double Volume(double w)
        {
            // Midpoint rule in x = 1 − u²: the slope at both ends is then finite. Steps of 1/4000.
            const int steps = 4000;
            double sum = 0;
            for (int i = 0; i < steps; i++)
            {
                double u = (i + 0.5) / steps;
                double x = 1 - u * u;
                sum += BlurTransfer.Exact(x, w) * x * 2 * u / steps;
            }
            return sum;
        }
        Assert.Equal(strehl, Volume(waves) / Volume(0), 1e-7);
    }

    // Derived: without defocus the integral is the closed form.
    [Fact]
    public void Without_defocus_it_is_diffraction_alone() =>
        Gen.Double[0, 1].Sample(x => Math.Abs(BlurTransfer.Exact(x, 0) - Diffraction.Contrast(x)) < 1e-12);

    // Derived: the same integral by another road: the definition in y, plain trapezoids, a million of them.
    [Theory]
    [InlineData(0.05, 3.7)]
    [InlineData(0.31, 1.25)]
    [InlineData(0.5, 12)]
    [InlineData(0.92, 40)]
    public void The_integral_agrees_with_plain_trapezoids(double x, double waves)
    {
        const int steps = 1_000_000;
        double h = (1 - x) / steps;
        double sum = 0;
        for (int i = 0; i <= steps; i++)
        {
            double y = i * h;
            double value = Math.Sqrt(Math.Max(0, 1 - (y + x) * (y + x))) * Math.Cos(8 * Math.PI * waves * x * y);
            sum += i is 0 or steps ? value / 2 : value;
        }
        // The root at the end costs trapezoids about h^1.5.
        Assert.Equal(4 / Math.PI * h * sum, BlurTransfer.Exact(x, waves), 3e-9);
    }

    // Derived: the integral by mpmath's quadrature at 30 digits; the accuracy that is claimed, 1e-12 to 100 waves and 1e-10 beyond.
    [Theory]
    [InlineData(0.5, 0.5, 0.084608820610006753, 1e-12)]
    [InlineData(0.31, 7.3, 0.0027077838960724332, 1e-12)]
    [InlineData(0.5, 100, -2.4857229608265032e-5, 1e-12)]
    [InlineData(0.2, 100, -9.9023504144396621e-5, 1e-12)]
    [InlineData(0.05, 1000, -2.5282374009584978e-5, 1e-10)]
    public void The_integral_is_as_accurate_as_it_claims(double x, double waves, double contrast, double tolerance) =>
        Assert.Equal(contrast, BlurTransfer.Exact(x, waves), tolerance);

    // Derived: never above diffraction alone, symmetric in the sign of defocus, and large blur at low frequency is the geometric disc.
    [Fact]
    public void Blur_never_adds_contrast_and_its_sign_makes_no_difference() =>
        Gen.Select(Gen.Double[0, 1], Gen.Double[0, 200]).Sample((x, w) =>
            Math.Abs(BlurTransfer.Exact(x, w)) <= Diffraction.Contrast(x) + 1e-12
            && BlurTransfer.Exact(x, w) == BlurTransfer.Exact(x, -w));

    [Fact]
    public void A_large_blur_is_the_geometric_disc()
    {
        var disc = Length.FromMillimetres(0.3);
        for (double u = 0.2; u < 6; u += 0.2)
            Assert.Equal(BlurTransfer.DiscAlone(u, disc), BlurTransfer.Exact(u, disc, FNumber.FromRatio(2.8), Diffraction.GreenLight), 0.01);
    }

    [Fact]
    public void Frequencies_below_zero_and_endless_defocus_are_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => BlurTransfer.Exact(-1, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => BlurTransfer.Exact(double.NaN, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => BlurTransfer.Exact(0.5, double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => BlurTransfer.Exact(0.5, 1e9));
        Assert.Throws<ArgumentOutOfRangeException>(() => BlurTransfer.DiscAlone(-1, default));
    }
}
