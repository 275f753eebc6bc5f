using Leafstop.Core.Exposure;
using Leafstop.Core.Quantities;

namespace Leafstop.Core.Tests.Exposure;

public sealed class MeterTests
{
    private static readonly FNumber F28 = FNumber.FromRatio(2.8);
    private static readonly ShutterTime Eighth = ShutterTime.FromSeconds(0.125);
    private static readonly Iso Iso100 = Iso.FromSpeed(100);

    // Published: EXP-05 (HDRI). K = 12.5, N = 2.8, t = 0.125 s, S = 100 give 7.84 cd/m².
    [Fact]
    public void Luminance_of_an_exposure() =>
        Assert.Equal(7.84, ReflectedMeter.Usual.RightFor(F28, Eighth, Iso100).CandelasPerSquareMetre, 1e-6);

    // Published: EXP-07 (HDRI). C = 250, same exposure, 156.8 lx.
    [Fact]
    public void Illuminance_of_an_exposure() =>
        Assert.Equal(156.8, IncidentMeter.Usual.RightFor(F28, Eighth, Iso100).Lux, 1e-6);

    // Published: EXP-09 (HDRI). 0.125 cd/m²: EV 0 with K = 12.5 and −0.16349873 with K = 14; eight decimals printed.
    [Fact]
    public void The_two_values_of_K_lie_a_sixth_of_a_stop_apart()
    {
        Luminance light = Luminance.FromCandelasPerSquareMetre(0.125);
        Assert.Equal(0, ReflectedMeter.Usual.Reads(light).Value, 1e-8);
        Assert.Equal(-0.16349873, ReflectedMeter.Fourteen.Reads(light).Value, 1e-8);
    }

    // Published: EXP-10 (HDRI): 2.5 lx is EV 0, 5 lx is EV 1.
    [Theory]
    [InlineData(2.5, 0)]
    [InlineData(5, 1)]
    public void Illuminance_as_exposure_value(double lux, double ev) =>
        Assert.Equal(ev, IncidentMeter.Usual.Reads(Illuminance.FromLux(lux)).Value, 1e-9);

    // Published formula, EXP-12 (WEV): L = 2^(EV − 3).
    [Theory]
    [InlineData(0, 0.125)]
    [InlineData(5, 4)]
    [InlineData(12, 512)]
    [InlineData(-2, 0.03125)]
    public void Luminance_of_an_exposure_value(double ev, double luminance) =>
        Assert.Equal(luminance, ReflectedMeter.Usual.At(ExposureValue.Of(ev)).CandelasPerSquareMetre, luminance * 1e-12);

    // Published formula, EXP-14 (WEV): E = 2.5 · 2^EV.
    [Theory]
    [InlineData(0, 2.5)]
    [InlineData(5, 80)]
    [InlineData(8, 640)]
    [InlineData(12, 10240)]
    public void Illuminance_of_an_exposure_value(double ev, double lux) =>
        Assert.Equal(lux, IncidentMeter.Usual.At(ExposureValue.Of(ev)).Lux, lux * 1e-12);

    // Published: EXP-15 (METER): ISO 2720:1974 recommends 10.6 to 13.4 and 12.5 and 14 are in common use.
    [Fact]
    public void The_usual_K_lies_in_the_recommended_range_and_the_other_does_not()
    {
        Assert.InRange(ReflectedMeter.Usual.K, 10.6, 13.4);
        Assert.Equal(14, ReflectedMeter.Fourteen.K);
    }

    // From memory: EXP-16, flat receptor 240 to 400.
    [Fact]
    public void The_usual_C_lies_in_the_recommended_range_of_a_flat_receptor() => Assert.InRange(IncidentMeter.Usual.C, 240, 400);

    // Derived: EXP-17, π K / C = 0.1570796.
    [Fact]
    public void Both_meters_agree_on_a_grey_of_sixteen_per_cent() =>
        Assert.Equal(0.1570796, ReflectedMeter.Usual.GreyShare(IncidentMeter.Usual), 1e-6);

    // Derived: L-11, L = ρE/π: a grey of 18 % reads 0.197 EV more by reflection than by incidence, dark wet woodland of 5 % (a judgement) 1.65 less.
    [Theory]
    [InlineData(0.18, 0.197)]
    [InlineData(0.05, -1.651)]
    public void What_is_darker_than_the_meters_grey_reads_lower_by_reflection(double reflectance, double difference)
    {
        const double lux = 640;
        ExposureValue reflected = ReflectedMeter.Usual.Reads(Luminance.FromCandelasPerSquareMetre(reflectance * lux / Math.PI));
        Assert.Equal(difference, (reflected - IncidentMeter.Usual.Reads(Illuminance.FromLux(lux))).Value, 0.001);
    }

    [Fact]
    public void No_light_has_no_exposure_value()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => ReflectedMeter.Usual.Reads(default));
        Assert.Throws<ArgumentOutOfRangeException>(() => IncidentMeter.Usual.Reads(default));
    }
}
