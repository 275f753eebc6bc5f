using CsCheck;
using Leafstop.Core.Exposure;
using Leafstop.Core.Quantities;

namespace Leafstop.Core.Tests.Exposure;

public sealed class ExposureGapTests
{
    private static readonly Iso Base = Iso.FromSpeed(100);

    // Published: job, the ladder of the pocket card, gap in thirds to ISO dialled.
    [Theory]
    [InlineData("1", 200)]
    [InlineData("1 1/3", 250)]
    [InlineData("1 2/3", 320)]
    [InlineData("2", 400)]
    [InlineData("2 1/3", 500)]
    [InlineData("2 2/3", 640)]
    [InlineData("3", 800)]
    [InlineData("4", 1600)]
    [InlineData("5", 3200)]
    public void Gap_and_ISO_go_together_as_on_the_card(string gap, double iso) =>
        Assert.Equal(iso, DialledIso.Of(ExposureGap.Closing(Base, Stops.Parse(gap))).Dial.Speed);

    // Published: job, answer 6: from base 64 the gap of 2 1/3 is ISO 320.
    [Fact]
    public void From_another_base_the_same_gap_is_another_ISO() =>
        Assert.Equal(320, DialledIso.Of(ExposureGap.Closing(Iso.FromMarking(64), Stops.FromThirds(7))).Dial.Speed);

    // Common practice, no source: from base ISO 160, 640 is exactly 2 stops and 1600 is 3 1/3.
    [Theory]
    [InlineData(640, "2")]
    [InlineData(1600, "3 1/3")]
    public void From_base_160_the_marks_are_thirds(double iso, string stops)
    {
        Stops above = Iso.FromMarking(iso).Above(Iso.FromMarking(160));
        Assert.Equal(stops, above.ToDisplay());
        Assert.Equal(above.NearestThird().Value, above.Value, 1e-12);
    }

    // Published: job A7: f/11 and 1/4 want EV 9, the meter sees 6 2/3; f/8 and 1/60 want EV 12, it sees 9.
    [Theory]
    [InlineData("f/11", "1/4", "6 2/3", "2 1/3")]
    [InlineData("f/8", "1/60", "9", "3")]
    public void The_gap_is_what_the_exposure_wants_less_what_the_meter_sees(string aperture, string shutter, string meter, string gap) =>
        Assert.Equal(gap, ExposureGap.Of(FNumber.Parse(aperture), ShutterTime.Parse(shutter), ExposureValue.Parse(meter), Base).ToDisplay());

    // Derived: a needle so many stops under, and the gap, are one thing.
    [Fact]
    public void Under_and_gap_are_one_thing() => Gen.Select(Gen.Double[-5, 10], Gen.Double[1, 64], Gen.Double[0.0001, 60]).Sample((under, n, t) =>
    {
        var (aperture, shutter) = (FNumber.FromRatio(n), ShutterTime.FromSeconds(t));
        ExposureValue light = ExposureGap.LightWhen(Stops.Of(under), aperture, shutter, Base);
        return Math.Abs(ExposureGap.Of(aperture, shutter, light, Base).Value - under) < 1e-9;
    });
}
