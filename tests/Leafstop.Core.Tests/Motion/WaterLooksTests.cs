using CsCheck;
using Leafstop.Core.Motion;
using Leafstop.Core.Quantities;

namespace Leafstop.Core.Tests.Motion;

public sealed class WaterLooksTests
{
    private static readonly Speed Fall = Speed.FromMetresPerSecond(5);
    private static readonly Speed Sea = Speed.FromMetresPerSecond(2);

    private static LookReading Look(Speed water, double seconds) => WaterLooks.Of(water, ShutterTime.FromSeconds(seconds), WaterLooks.UsualTexture);

    // P-01 to P-04, P-07 and P-08 (common practice, no source), ±1 stop: each end of the trade's range is that look, or becomes it one stop away.
    // P-06 (sea: spray frozen) is slower water than a fall and holds the more.
    [Theory]
    [InlineData(WaterLook.Frozen, 1 / 1600.0, 1 / 500.0)]
    [InlineData(WaterLook.SoftEdged, 1 / 125.0, 1 / 60.0)]
    [InlineData(WaterLook.Textured, 1 / 15.0, 1 / 4.0)]
    [InlineData(WaterLook.Silk, 0.5, 2)]
    public void Times_of_the_trade_for_falls(WaterLook look, double shortest, double longest)
    {
        Assert.Equal(look, Look(Fall, Math.Sqrt(shortest * longest)).Look);
        foreach (double seconds in new[] { shortest, longest })
        {
            LookReading reading = Look(Fall, seconds);
            Assert.Contains(look, new[] { reading.Look, reading.Sharper, reading.Smoother });
        }
    }

    [Theory]
    [InlineData(WaterLook.Frozen, 1 / 1000.0, 1 / 500.0)]
    [InlineData(WaterLook.Silk, 0.5, 2)]
    [InlineData(WaterLook.Mist, 3, 15)]
    public void Times_of_the_trade_for_the_sea(WaterLook look, double shortest, double longest)
    {
        Assert.Equal(look, Look(Sea, Math.Sqrt(shortest * longest)).Look);
        foreach (double seconds in new[] { shortest, longest })
        {
            LookReading reading = Look(Sea, seconds);
            Assert.Contains(look, new[] { reading.Look, reading.Sharper, reading.Smoother });
        }
    }

    [Fact]
    public void A_look_near_its_edge_says_what_it_may_be_instead()
    {
        Assert.Equal("textured, perhaps silk", Look(Fall, 0.2).ToDisplay());
        Assert.Equal("textured", Look(Fall, 0.08).ToDisplay());
        Assert.Equal("soft-edged, perhaps textured", Look(Fall, 0.029).ToDisplay());
        Assert.True(Look(Fall, 0.08).IsSure);
    }

    [Fact]
    public void A_shutter_for_a_look_gives_that_look() =>
        Gen.Select(Gen.Enum<WaterLook>(), Gen.Double[0.1, 20], Gen.Double[0.01, 1]).Sample((look, speed, texture) =>
        {
            Speed water = Speed.FromMetresPerSecond(speed);
            LookShutters shutters = WaterLooks.ShuttersFor(look, water, Length.FromMetres(texture));
            return shutters.Shortest < shutters.Longest
                && WaterLooks.Of(water, shutters.Middle, Length.FromMetres(texture)).Look == look
                && WaterLooks.Of(water, ShutterTime.FromSeconds(shutters.Longest.Seconds * 0.999999), Length.FromMetres(texture)).Look == look;
        });

    [Fact]
    public void Longer_is_never_sharper() =>
        Gen.Select(Gen.Double[0.1, 20], Gen.Double[1e-4, 60], Gen.Double[1e-4, 60]).Sample((speed, a, b) =>
            Look(Speed.FromMetresPerSecond(speed), Math.Min(a, b)).Look <= Look(Speed.FromMetresPerSecond(speed), Math.Max(a, b)).Look);

    [Theory]
    [InlineData("textured", WaterLook.Textured)]
    [InlineData("Soft-Edged", WaterLook.SoftEdged)]
    [InlineData(" silk ", WaterLook.Silk)]
    public void Looks_go_by_name(string name, WaterLook look)
    {
        Assert.Equal(look, WaterLooks.Named(name));
        Assert.Equal(look, WaterLooks.Named(WaterLooks.NameOf(look)));
    }

    [Theory]
    [InlineData("")]
    [InlineData("2")]
    [InlineData("milky")]
    public void Other_names_are_none(string name) => Assert.Null(WaterLooks.Named(name));

    [Fact]
    public void Still_water_and_no_texture_are_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => WaterLooks.ShuttersFor(WaterLook.Silk, default, WaterLooks.UsualTexture));
        Assert.Throws<ArgumentOutOfRangeException>(() => WaterLooks.Of(Fall, ShutterTime.FromSeconds(1), default));
    }
}
