using Leafstop.Core.Quantities;

namespace Leafstop.Core.Tests.Quantities;

public sealed class ExposureValueTests
{
    // Published: EXP-01 (HDRI), N = 8, t = 1/250 s, ISO 100 gives 13.96578428. The source prints eight decimals.
    [Fact]
    public void F8_at_a_250th_is_EV_13_966() =>
        Assert.Equal(13.96578428, ExposureValue.Of(FNumber.FromRatio(8), ShutterTime.FromSeconds(1 / 250.0)).Value, 1e-8);

    // Published: EXP-02 (HDRI), N = 5.6, t = 1/500 s, S = 800 gives EV100 10.93663794.
    [Fact]
    public void F5_6_at_a_500th_at_ISO_800_is_right_for_EV_10_937() =>
        Assert.Equal(10.93663794, ExposureValue.Of(FNumber.FromRatio(5.6), ShutterTime.FromSeconds(1 / 500.0), Iso.FromSpeed(800)).Value, 1e-8);

    // Published: EXP-36 (APEXW): nominal 11 at 1/4 s gives Ev 8.918863 (six decimals printed), the exact 11.3137 gives 9.000.
    [Fact]
    public void The_engraved_f11_means_a_whole_stop_and_the_literal_11_does_not()
    {
        var quarter = ShutterTime.FromSeconds(0.25);
        Assert.Equal(8.918863, ExposureValue.Of(FNumber.FromRatio(11), quarter).Value, 1e-6);
        Assert.Equal(9.000, ExposureValue.Of(FNumber.FromMarking(11), quarter).Value, 1e-9);
    }

    // Published: EXP-34 (EXIF): Tv = −log2 t, 8643856/1000000 stands for 1/400 s; EXP-36 (APEXW): Av = log2 N², 6.918863 for 11, and Tv of 1/4 s is 2. At one second or f/1 the other part is 0.
    [Theory]
    [InlineData(1, 1 / 400.0, 8.643856)]
    [InlineData(11, 1, 6.918863)]
    [InlineData(1, 0.25, 2)]
    public void An_exposure_value_is_the_sum_of_its_aperture_and_its_time(double ratio, double seconds, double value) =>
        Assert.Equal(value, ExposureValue.Of(FNumber.FromRatio(ratio), ShutterTime.FromSeconds(seconds)).Value, 1e-6);

    // Derived: EXP-49, closing one stop and doubling the time keeps the exposure, on exact marks to rounding.
    [Theory]
    [InlineData("f/8", "1/125")]
    [InlineData("f/11", "1/60")]
    [InlineData("f/5.6", "1/250")]
    public void Equivalent_marks_give_the_same_exposure(string aperture, string shutter) =>
        Assert.Equal(13, ExposureValue.Of(FNumber.Parse(aperture), ShutterTime.Parse(shutter)).Value, 1e-9);

    // Derived.
    [Fact]
    public void A_difference_of_two_exposures_is_in_stops_and_adds_back()
    {
        ExposureValue meter = ExposureValue.Parse("6 2/3");
        Stops gap = ExposureValue.Of(9) - meter;
        Assert.Equal("2 1/3", gap.ToDisplay());
        Assert.Equal(9, (meter + gap).Value, 1e-12);
    }
}
