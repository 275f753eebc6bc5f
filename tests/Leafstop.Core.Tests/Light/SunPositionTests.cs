using CsCheck;
using Leafstop.Core.Light;
using NodaTime;

namespace Leafstop.Core.Tests.Light;

public class SunPositionTests(ITestOutputHelper output)
{
    private static readonly Instant Golden = Instant.FromUtc(2003, 10, 17, 19, 30, 30);
    private static readonly Place GoldenPlace = Place.FromDegrees(39.742476, -105.1786, 1830.14);

    // Published: S-01, worked example of [SPA] (820 mbar, 11 °C, ΔT 67 s); tolerance is the algorithm's stated uncertainty.
    [Fact]
    public void The_published_worked_example_comes_out()
    {
        SunPosition sun = SunPosition.At(Golden, GoldenPlace, 67);
        Assert.Equal(50.11162, 90 - sun.ApparentAltitudeIn(820, 11).Degrees, 0.0003);
        Assert.Equal(194.34024, sun.Azimuth.Degrees, 0.0003);
    }

    // Published: S-02, steps of the same example as [PVL] asserts them; last printed digit.
    [Fact]
    public void Each_step_of_the_worked_example_comes_out_to_the_last_printed_digit()
    {
        GeocentricSun sun = GeocentricSun.At(Golden, 67);
        Assert.Equal(2452930.312847, sun.JulianDay, 1e-6);
        Assert.Equal(24.0182616917, sun.EarthLongitudeDegrees, 1e-10);
        Assert.Equal(-0.0001011219, sun.EarthLatitudeDegrees, 1e-10);
        Assert.Equal(0.9965422974, sun.DistanceAu, 1e-10);
        Assert.Equal(-0.00399840, sun.NutationLongitudeDegrees, 1e-8);
        Assert.Equal(0.00166657, sun.NutationObliquityDegrees, 1e-8);
        Assert.Equal(23.440465, sun.TiltDegrees, 1e-6);
        Assert.Equal(204.0085519281, sun.LongitudeDegrees, 1e-10);
        Assert.Equal(202.22741, sun.RightAscensionDegrees, 1e-5);
        Assert.Equal(-9.31434, sun.DeclinationDegrees, 1e-5);
        double hourAngle = (sun.SiderealTimeDegrees - 105.1786 - sun.RightAscensionDegrees + 720) % 360;
        Assert.Equal(11.10590, hourAngle, 1e-5);
    }

    // Published: S-02 (e0) and S-15 (Δe) of the same example.
    [Fact]
    public void Parallax_and_refraction_of_the_worked_example_come_out()
    {
        SunPosition sun = SunPosition.At(Golden, GoldenPlace, 67);
        Assert.Equal(39.872046, sun.Altitude.Degrees, 1e-6);
        Assert.Equal(39.888378, sun.ApparentAltitudeIn(820, 11).Degrees, 1e-6);
    }

    // Published: S-03, 0.01 min.
    [Fact]
    public void Equation_of_time_of_the_worked_example_comes_out() =>
        Assert.Equal(14.64, GeocentricSun.At(Golden, 67).EquationOfTimeMinutes, 0.01);

    // Published: S-09, Meeus example 25.a, a low-precision series (1992-10-13 0h TD, so ΔT 0 here): within that series' own 0.01° and 0.0001 au.
    // Published (from memory): the same book's example 25.b by a full series, to its last digits.
    [Fact]
    public void The_textbook_example_comes_out_within_the_textbooks_own_accuracy()
    {
        GeocentricSun sun = GeocentricSun.At(Instant.FromUtc(1992, 10, 13, 0, 0), 0);
        Assert.Equal(199.90895, sun.LongitudeDegrees, 0.01);
        Assert.Equal(198.38083, sun.RightAscensionDegrees, 0.01);
        Assert.Equal(-7.78507, sun.DeclinationDegrees, 0.01);
        Assert.Equal(0.99766, sun.DistanceAu, 0.0001);
        Assert.Equal(198.378178, sun.RightAscensionDegrees, 0.0001);
        Assert.Equal(-7.783871, sun.DeclinationDegrees, 0.0001);
        Assert.Equal(0.99760775, sun.DistanceAu, 1e-7);
    }

    // Published: S-10, PyEphem 4.1.4; 0.005° and 0.07 min as the row says.
    [Theory]
    [InlineData(2, 11, -13.927, -14.18)]
    [InlineData(6, 21, 23.438, -1.82)]
    [InlineData(7, 26, 19.363, -6.57)]
    [InlineData(11, 3, -15.151, 16.45)]
    public void Declination_and_equation_of_time_agree_with_a_library(int month, int day, double declination, double minutes)
    {
        GeocentricSun sun = GeocentricSun.At(Instant.FromUtc(2026, month, day, 12, 0));
        Assert.Equal(declination, sun.DeclinationDegrees, 0.005);
        Assert.Equal(minutes, sun.EquationOfTimeMinutes, 0.07);
    }

    // Published: S-21, sun-positions.csv in full, three libraries; promised is 0.01°.
    [Fact]
    public void All_42_places_agree_with_three_libraries_within_a_hundredth_of_a_degree()
    {
        double worst = 0;
        IReadOnlyList<Row> rows = Table.Read("sun-positions.csv");
        Assert.Equal(42, rows.Count);
        foreach (Row row in rows)
        {
            SunPosition sun = SunPosition.At(row.Time("utc"), row.Place(row.Number("elev_m")));
            foreach (string library in (string[])["A", "B", "C"])
            {
                double altitude = row.Number($"alt_airless_deg_{library}");
                double off = Math.Abs(sun.Altitude.Degrees - altitude);
                // At the poles the azimuth depends on convention: compare altitude only (note of the table).
                if (Math.Abs(row.Number("lat_deg")) < 89.9)
                    off = Math.Max(off, Math.Abs(Math.IEEERemainder(sun.Azimuth.Degrees - row.Number($"az_deg_{library}"), 360)) * Math.Cos(altitude * Math.PI / 180));
                worst = Math.Max(worst, off);
                Assert.True(off < 0.01, $"{row["id"]} {library}: off by {off}°");
            }
            // 1013.25 mbar and 12 °C; the library sets refraction to zero below −0.833°. 0.0005° is half the last printed digit and the place's own 0.0003°.
            Assert.Equal(row.Number("alt_refracted_deg_C"), sun.ApparentAltitudeIn(1013.25, 12).Degrees, 0.0005);
        }
        output.WriteLine($"worst of 126 comparisons: {worst:F5}°");
    }

    // Published: sun-crosscheck.csv, astronomy-engine 2.1.19 at 1000 places and times over 1800 to 2100 and all latitudes; 0.01° as promised.
    [Fact]
    public void A_thousand_places_and_times_agree_with_a_fourth_library()
    {
        double worst = 0;
        string where = "";
        IReadOnlyList<Row> rows = Table.Read("sun-crosscheck.csv");
        Assert.Equal(1000, rows.Count);
        foreach (Row row in rows)
        {
            SunPosition sun = SunPosition.At(row.Time("utc"), row.Place(row.Number("elev_m")));
            double separation = Separation(sun, row.Number("alt_airless_deg"), row.Number("az_deg"));
            if (separation > worst)
                (worst, where) = (separation, $"{row["utc"]} at {row["lat_deg"]}, {row["lon_deg"]}");
        }
        output.WriteLine($"worst of 1000: {worst:F5}°, {where}");
        Assert.True(worst < 0.01, $"{worst}° at {where}");
    }

    // Derived: S-25, UT1 may be 0.9 s off UTC by definition: that moves the sun by 0.0038° at most, inside the 0.01° promised.
    [Fact]
    public void Taking_utc_for_ut1_stays_inside_the_promise()
    {
        SunPosition now = SunPosition.At(Golden, GoldenPlace), later = SunPosition.At(Golden + Duration.FromMilliseconds(900), GoldenPlace);
        Assert.InRange(Separation(later, now.Altitude.Degrees, now.Azimuth.Degrees), 0.003, 0.0038);
    }

    // Published: S-26, library A: Quito 2026-03-20, transit 17:21:15 UTC at 89.777° (0.01°).
    [Fact]
    public void The_sun_near_the_zenith_keeps_its_height() =>
        Assert.Equal(89.777, SunPosition.At(Instant.FromUtc(2026, 3, 20, 17, 21, 15), Place.FromDegrees(-0.18, -78.47)).Altitude.Degrees, 0.01);

    // Derived: S-19, dh/dt = 15 cos φ sin A °/h. 0.2 % because the sun also moves among the stars while an hour angle of 15°/h is the mean sun's.
    [Theory]
    [InlineData(45)]
    [InlineData(60)]
    [InlineData(-20)]
    public void The_sun_climbs_at_the_rate_of_spherical_trigonometry(double latitude)
    {
        Place place = Place.FromDegrees(latitude, 0);
        Instant when = Instant.FromUtc(2026, 3, 20, 8, 0);
        double rate = (SunPosition.At(when + Duration.FromMinutes(1), place).Altitude - SunPosition.At(when - Duration.FromMinutes(1), place).Altitude).Degrees * 30;
        double azimuth = SunPosition.At(when, place).Azimuth.Radians;
        Assert.Equal(15 * Math.Cos(latitude * Math.PI / 180) * Math.Sin(azimuth), rate, 0.03);
    }

    // Derived: at the poles the altitude is the declination less the parallax, whatever the longitude.
    [Theory]
    [InlineData(90)]
    [InlineData(-90)]
    public void At_the_poles_the_height_is_the_declination(double latitude)
    {
        Instant when = Instant.FromUtc(2026, 6, 21, 3, 0);
        double declination = GeocentricSun.At(when).DeclinationDegrees;
        Assert.Equal(Math.Sign(latitude) * declination, SunPosition.At(when, Place.FromDegrees(latitude, 57)).Altitude.Degrees, 0.0026);
    }

    // Derived: the quick path of a day is the exact place at every moment of it.
    [Fact]
    public void The_path_of_a_day_is_the_exact_place() => Gen.Select(Gen.Double[-90, 90], Gen.Double[-180, 180], Gen.Int[1800, 2100], Gen.Int[1, 365], Gen.Double[0, 0.999])
        .Sample((latitude, longitude, year, day, share) =>
        {
            Place place = Place.FromDegrees(latitude, longitude);
            SunDay sun = SunDay.Of(new LocalDate(year, 1, 1).PlusDays(day - 1), DateTimeZone.Utc, place);
            Instant when = sun.Start + (sun.End - sun.Start) * share;
            Assert.Equal(SunPosition.At(when, place).Altitude.Degrees, sun.At(when).Altitude.Degrees, 0.0001);
        }, iter: 300);

    [Theory]
    [InlineData(91, 0, 0, "latitude")]
    [InlineData(double.NaN, 0, 0, "latitude")]
    [InlineData(0, 181, 0, "longitude")]
    [InlineData(0, double.NaN, 0, "longitude")]
    [InlineData(0, 0, 10000, "height")]
    public void A_place_that_is_none_is_refused(double latitude, double longitude, double elevation, string word) =>
        Assert.Contains(word, Assert.Throws<ArgumentOutOfRangeException>(() => Place.FromDegrees(latitude, longitude, elevation)).Message, StringComparison.Ordinal);

    [Theory]
    [InlineData(1799, 12, 1)]
    [InlineData(2101, 2, 1)]
    public void A_time_out_of_reach_is_refused(int year, int month, int day) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => SunPosition.At(Instant.FromUtc(year, month, day, 0, 0), GoldenPlace));

    private static double Separation(SunPosition sun, double altitude, double azimuth)
    {
        double half = Math.PI / 360;
        double up = Math.Sin((sun.Altitude.Degrees - altitude) * half);
        double round = Math.Sin((sun.Azimuth.Degrees - azimuth) * half);
        double square = (up * up) + (Math.Cos(sun.Altitude.Radians) * Math.Cos(altitude * 2 * half) * round * round);
        return 2 * Math.Asin(Math.Sqrt(square)) * 180 / Math.PI;
    }
}
