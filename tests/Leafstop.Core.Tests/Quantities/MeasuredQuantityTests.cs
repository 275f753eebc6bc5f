using System.Globalization;
using CsCheck;
using Leafstop.Core.Quantities;

namespace Leafstop.Core.Tests.Quantities;

/// <summary>Reading and printing of angles, speeds and light.</summary>
public sealed class MeasuredQuantityTests
{
    // Derived: 60 minutes of arc are a degree, 180 degrees half a turn.
    [Theory]
    [InlineData("1.43'", 1.43)]
    [InlineData("1.43′", 1.43)]
    [InlineData("1.43arcmin", 1.43)]
    [InlineData("1.43 ARCMIN", 1.43)]
    [InlineData("10deg", 600)]
    [InlineData("10°", 600)]
    [InlineData("-0.5 degrees", -30)]
    [InlineData("−1/2°", -30)]
    [InlineData("30 arcsec", 0.5)]
    [InlineData("0.1 rad", 343.77467707849393)]
    public void Angles_are_read_with_their_unit(string text, double arcminutes) =>
        Assert.Equal(arcminutes, Angle.Parse(text).Arcminutes, 1e-9);

    [Fact]
    public void A_length_with_an_unknown_unit_is_quoted_as_it_was_written()
    {
        Assert.False(Length.TryParse("10km", out _, out string why));
        Assert.StartsWith("'10km' has no unit that is known here", why, StringComparison.Ordinal);
    }

    // Derived: 1 km/h is 1/3.6 m/s, a mile 1609.344 m, a nautical mile 1852 m, a foot 0.3048 m.
    [Theory]
    [InlineData("3m/s", 3)]
    [InlineData("25 cm/s", 0.25)]
    [InlineData("12km/h", 3.3333333333)]
    [InlineData("7 mph", 3.12928)]
    [InlineData("6kn", 3.0866666667)]
    [InlineData("6 knots", 3.0866666667)]
    [InlineData("10 ft/s", 3.048)]
    public void Speeds_are_read_with_their_unit(string text, double metresPerSecond) =>
        Assert.Equal(metresPerSecond, Speed.Parse(text).MetresPerSecond, 1e-9);

    // Derived: kilo is a thousand.
    [Fact]
    public void Light_is_read_with_its_unit()
    {
        Assert.Equal(500, Illuminance.Parse("500lx").Lux);
        Assert.Equal(500, Illuminance.Parse("500 Lux").Lux);
        Assert.Equal(12000, Illuminance.Parse("12 klx").Lux);
        Assert.Equal(120, Luminance.Parse("120cd/m²").CandelasPerSquareMetre);
        Assert.Equal(120, Luminance.Parse("120 cd/m2").CandelasPerSquareMetre);
        Assert.Equal(120, Luminance.Parse("120 nits").CandelasPerSquareMetre);
    }

    [Theory]
    [InlineData("")]
    [InlineData("3")]
    [InlineData("-3 m/s")]
    [InlineData("NaN m/s")]
    [InlineData("3 furlongs")]
    [InlineData("1e308 km/s")]
    [InlineData("3,5 m/s")]
    public void What_is_no_speed_is_refused_with_a_sentence(string text)
    {
        Assert.False(Speed.TryParse(text, out _, out string why));
        Assert.EndsWith(".", why, StringComparison.Ordinal);
        Assert.Throws<FormatException>(() => Speed.Parse(text));
    }

    [Theory]
    [InlineData("")]
    [InlineData("1.43")]
    [InlineData("wide °")]
    [InlineData("Infinity deg")]
    [InlineData("1e308 turns")]
    public void What_is_no_angle_is_refused_with_a_sentence(string text)
    {
        Assert.False(Angle.TryParse(text, out _, out string why));
        Assert.EndsWith(".", why, StringComparison.Ordinal);
        Assert.Throws<FormatException>(() => Angle.Parse(text));
    }

    [Fact]
    public void Light_below_none_is_refused()
    {
        Assert.False(Illuminance.TryParse("-1 lx", out _, out _));
        Assert.False(Luminance.TryParse("-1 cd/m2", out _, out _));
        Assert.Throws<ArgumentOutOfRangeException>(() => Illuminance.FromLux(-1));
        Assert.Throws<ArgumentOutOfRangeException>(() => Luminance.FromCandelasPerSquareMetre(double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => Speed.FromMetresPerSecond(-0.1));
        Assert.Throws<ArgumentOutOfRangeException>(() => Angle.FromDegrees(double.PositiveInfinity));
    }

    [Fact]
    public void Display_takes_the_unit_that_suits_the_size()
    {
        Assert.Equal("1.43′", Angle.FromArcminutes(1.43).ToDisplay());
        Assert.Equal("10.5°", Angle.FromDegrees(10.5).ToDisplay());
        Assert.Equal("\u22126°", Angle.FromDegrees(-6).ToDisplay());
        Assert.Equal("25 cm/s", Speed.FromMetresPerSecond(0.25).ToDisplay());
        Assert.Equal("3.33 m/s", Speed.FromKilometresPerHour(12).ToDisplay());
        Assert.Equal("0 m/s", default(Speed).ToDisplay());
        Assert.Equal("512 lx", Illuminance.FromLux(512).ToDisplay());
        Assert.Equal("120 cd/m²", Luminance.FromCandelasPerSquareMetre(120).ToDisplay());
    }

    // Derived: what is printed in full reads back to the same double, also where the machine writes a comma.
    [Fact]
    public void Printing_and_reading_returns_the_same_value_in_any_culture()
    {
        CultureInfo before = CultureInfo.CurrentCulture;
        var comma = (CultureInfo)CultureInfo.InvariantCulture.Clone();
        comma.NumberFormat.NumberDecimalSeparator = ",";
        comma.NumberFormat.NegativeSign = "~";
        try
        {
            CultureInfo.CurrentCulture = comma;
            Gen.Double[1e-9, 1e9].Sample(x =>
            {
                CultureInfo.CurrentCulture = comma;
                return Angle.Parse(Angle.FromRadians(x).ToString()).Radians == x
                    && Angle.Parse(Angle.FromRadians(-x).ToString()).Radians == -x
                    && Speed.Parse(Speed.FromMetresPerSecond(x).ToString()).MetresPerSecond == x
                    && Illuminance.Parse(Illuminance.FromLux(x).ToString()).Lux == x
                    && Luminance.Parse(Luminance.FromCandelasPerSquareMetre(x).ToString()).CandelasPerSquareMetre == x;
            });
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    // Derived: each unit is the inverse of its factory to a few roundings.
    [Fact]
    public void Every_unit_inverts_its_factory() =>
        Gen.Double[1e-3, 1e3].Sample(x =>
            Math.Abs(Angle.FromDegrees(x).Degrees / x - 1) < 1e-15 * 4
            && Math.Abs(Angle.FromArcminutes(x).Arcminutes / x - 1) < 1e-15 * 4
            && Math.Abs(Speed.FromKilometresPerHour(x).KilometresPerHour / x - 1) < 1e-15 * 4
            && Math.Abs(Speed.FromMetresPerSecond(x).MilesPerHour * Speed.MetresPerMile / 3600 / x - 1) < 1e-15 * 4
            && Math.Abs(Speed.FromMetresPerSecond(x).Knots * Speed.MetresPerNauticalMile / 3600 / x - 1) < 1e-15 * 4);
}
