using Leafstop.Core.Light;
using Leafstop.Core.Quantities;

namespace Leafstop.Core.Tests.Light;

public class SkyLineTests
{
    // Published: S-11 and S-13, exact by definition.
    [Fact]
    public void Rise_and_twilights_are_at_the_heights_of_the_convention()
    {
        Assert.Equal(-0.8333, SkyLine.Level.SunriseAltitude.Degrees, 0.00005);
        Assert.Equal((-6, -12, -18), (Math.Round(SkyLine.CivilAltitude.Degrees, 12), Math.Round(SkyLine.NauticalAltitude.Degrees, 12), Math.Round(SkyLine.AstronomicalAltitude.Degrees, 12)));
    }

    // Published (form from memory): S-17, 0.01′.
    [Theory]
    [InlineData(10, 5.57)]
    [InlineData(100, 17.60)]
    [InlineData(1000, 55.66)]
    public void The_sea_horizon_dips_with_the_height_of_the_eye(double metres, double arcMinutes)
    {
        SkyLine line = SkyLine.Level.FromEyeHeight(metres);
        Assert.Equal(arcMinutes, line.Dip.Arcminutes, 0.01);
        Assert.Equal(-50 - arcMinutes, line.SunriseAltitude.Arcminutes, 0.01);
    }

    // Derived: S-18, 0.02°.
    [Theory]
    [InlineData(0, -0.841)]
    [InlineData(2, 1.430)]
    [InlineData(5, 4.569)]
    [InlineData(10, 9.643)]
    [InlineData(20, 19.688)]
    public void The_sun_clears_a_ridge_at_the_derived_height(double ridge, double altitude) =>
        Assert.Equal(altitude, SkyLine.Level.WithRidge(Angle.FromDegrees(ridge)).RidgeSunAltitude!.Value.Degrees, 0.02);

    // Derived: S-20, cos A = sin δ / cos φ, 0.01°; the rate there from S-19.
    [Fact]
    public void Geometric_sunrise_stands_at_the_derived_bearing()
    {
        double azimuth = Math.Acos(Math.Sin(23.44 * Math.PI / 180) / Math.Cos(52 * Math.PI / 180));
        Assert.Equal(49.75, azimuth * 180 / Math.PI, 0.01);
        SunDay day = SunDay.Of(new NodaTime.LocalDate(2026, 6, 21), NodaTime.DateTimeZone.Utc, Place.FromDegrees(52, 0));
        HeightCrossing rise = day.Crossings(Angle.FromDegrees(0)).First(c => c.IsRising);
        // Declination that day is 23.438°, and the parallax shifts it by 0.0024°.
        Assert.Equal(49.75, day.At(rise.Time).Azimuth.Degrees, 0.01);
        Assert.Equal(7.05, 15 * Math.Cos(52 * Math.PI / 180) * Math.Sin(azimuth), 0.01);
    }

    // Derived: a circle over an edge: nothing, half, all, and symmetric about half.
    [Fact]
    public void The_disc_comes_out_from_nothing_to_all()
    {
        SkyLine ridge = SkyLine.Level.WithRidge(Angle.FromDegrees(10));
        double edge = ridge.RidgeSunAltitude!.Value.Degrees, half = 16 / 60.0;
        Assert.Equal(0, ridge.ShareOfDisc(Angle.FromDegrees(edge - 0.001)));
        Assert.Equal(0.5, ridge.ShareOfDisc(Angle.FromDegrees(edge + half)), 1e-9);
        Assert.Equal(1, ridge.ShareOfDisc(Angle.FromDegrees(edge + (2 * half) + 0.001)));
        Assert.Equal(1, ridge.ShareOfDisc(Angle.FromDegrees(edge + 0.1)) + ridge.ShareOfDisc(Angle.FromDegrees(edge + (2 * half) - 0.1)), 1e-9);
    }

    [Theory]
    [InlineData(-1)]
    [InlineData(90)]
    [InlineData(double.NaN)]
    public void A_ridge_that_cannot_be_is_refused(double degrees) =>
        Assert.ThrowsAny<ArgumentOutOfRangeException>(() => SkyLine.Level.WithRidge(Angle.FromDegrees(degrees)));
}
