using System.Collections.Immutable;
using CsCheck;
using Leafstop.Core.Light;
using Leafstop.Core.Quantities;
using NodaTime;

namespace Leafstop.Core.Tests.Light;

public class SunDayTests(ITestOutputHelper output)
{
    // Published: S-22 and S-23, sun-events.csv in full, libraries A and B. 5 s on threshold crossings and transits; turning points 0.005° and 60 s; states exact,
    // but either where the sun turns within 0.05° of the threshold.
    [Fact]
    public void All_297_events_agree_with_two_libraries()
    {
        IReadOnlyList<Row> rows = Table.Read("sun-events.csv");
        Assert.Equal(297, rows.Count);
        double worst = 0, worstTurn = 0;
        foreach (var day in rows.GroupBy(r => (r["lat_deg"], r["lon_deg"], r["local_date"], r["utc_offset_min"])))
        {
            Row any = day.First();
            string[] parts = any["local_date"].Split('-');
            SunDay sun = SunDay.Of(
                new LocalDate(int.Parse(parts[0]), int.Parse(parts[1]), int.Parse(parts[2])),
                DateTimeZone.ForOffset(Offset.FromSeconds(60 * (int)any.Number("utc_offset_min"))), any.Place());
            foreach (Row row in day)
            {
                foreach (string column in (string[])["utc_A", "utc_B"])
                {
                    if (row[column].Length == 0)
                        continue;
                    Instant expected = row.Time(column);
                    switch (row["event"])
                    {
                        case "transit":
                            worst = Math.Max(worst, Nearest(expected, sun.Transits.Select(t => t.Time), 5, row));
                            break;
                        case "max_altitude" or "min_altitude":
                            HeightExtreme turn = sun.Extremes.MinBy(e => Math.Abs((e.Time - expected).TotalSeconds));
                            worstTurn = Math.Max(worstTurn, Nearest(expected, [turn.Time], 60, row));
                            Assert.Equal(row.Number("alt_at_extreme_deg_A"), turn.Altitude.Degrees, 0.005);
                            break;
                        default:
                            worst = Math.Max(worst, Nearest(expected,
                                Crossings(sun, row).Where(c => c.IsRising == (row["direction"] == "rise")).Select(c => c.Time), 5, row));
                            break;
                    }
                }
                if (row["state"] is "above_all_day" or "below_all_day")
                {
                    Angle threshold = Angle.FromDegrees(row.Number("threshold_alt_deg"));
                    SunState wanted = row["state"] == "above_all_day" ? SunState.AboveAllDay : SunState.BelowAllDay;
                    Assert.True(sun.StateAt(threshold) == wanted || sun.IsGrazing(threshold), $"{row["id"]}: {sun.StateAt(threshold)}");
                }
            }
            // Nothing is found that the table does not have.
            foreach (var threshold in day.Where(r => r["threshold_alt_deg"].Length > 0).GroupBy(r => r["threshold_alt_deg"]))
                Assert.Equal(threshold.Count(r => r["state"] == "crosses"), Crossings(sun, threshold.First()).Length);
        }
        output.WriteLine($"worst crossing {worst:F2} s, worst turning point {worstTurn:F1} s");
    }

    private static ImmutableArray<HeightCrossing> Crossings(SunDay sun, Row row) => sun.Crossings(Angle.FromDegrees(row.Number("threshold_alt_deg")));

    private static double Nearest(Instant expected, IEnumerable<Instant> found, double tolerance, Row row)
    {
        double off = found.Select(f => Math.Abs((f - expected).TotalSeconds)).DefaultIfEmpty(double.PositiveInfinity).Min();
        Assert.True(off <= tolerance, $"{row["id"]} {row["event"]}: off by {off} s");
        return off;
    }

    private static SunDay Day(int year, int month, int day, double offsetHours, double latitude, double longitude) => SunDay.Of(
        new LocalDate(year, month, day), DateTimeZone.ForOffset(Offset.FromSeconds((int)(offsetHours * 3600))), Place.FromDegrees(latitude, longitude));

    private static LocalTime Local(SunDay day, SunEventKind kind)
    {
        SunEvent found = Assert.Single(day.Events(SkyLine.Level), e => e.Kind == kind);
        return found.Time!.Value.InZone(day.Zone).TimeOfDay;
    }

    private static void Near(LocalTime expected, LocalTime found, double seconds) =>
        Assert.InRange(Math.Abs(Period.Between(expected, found, PeriodUnits.Seconds).Seconds), 0, seconds);

    // Published: S-04, library A for the local days 17 and 16 Oct 2003 at UTC-7 (2 s); the published pair of [SPA] mixes them.
    [Theory]
    [InlineData(17, "06:12:44", "17:18:51")]
    [InlineData(16, "06:11:42", "17:20:18")]
    public void Sunset_is_that_of_the_local_evening_not_of_the_utc_date(int date, string rise, string set)
    {
        SunDay day = Day(2003, 10, date, -7, 39.742476, -105.1786);
        Near(Time(rise), Local(day, SunEventKind.Sunrise), 2);
        Near(Time(set), Local(day, SunEventKind.Sunset), 2);
    }

    // Published: S-05 and S-06, [SPA] via [PVL] (3 s, UT).
    [Theory]
    [InlineData(1996, 7, 5, -35, "07:08:15", "17:01:04")]
    [InlineData(1994, 1, 2, 35, "07:08:12", "16:59:55")]
    public void Published_rise_and_set_come_out(int year, int month, int date, double latitude, string rise, string set)
    {
        SunDay day = Day(year, month, date, 0, latitude, 0);
        Near(Time(rise), Local(day, SunEventKind.Sunrise), 3);
        Near(Time(set), Local(day, SunEventKind.Sunset), 3);
    }

    // Published: S-05, transit (3 s).
    [Fact]
    public void Published_transit_comes_out() => Near(Time("12:04:36"), Local(Day(1996, 7, 5, 0, -35, 0), SunEventKind.Transit), 3);

    // Published: S-07 and S-08, US Naval Observatory tables in whole minutes (60 s).
    [Theory]
    [InlineData(1, 2, -7, 39, -105, "07:19:00", "16:49:00")]
    [InlineData(8, 2, -7, 39, -105, "05:01:00", "19:10:00")]
    [InlineData(4, 2, 8, 39.917, 116.383, "05:58:00", "18:39:00")]
    [InlineData(12, 2, 8, 39.917, 116.383, "07:17:00", "16:50:00")]
    public void Tables_of_the_naval_observatory_come_out_to_the_minute(int month, int date, double offset, double latitude, double longitude, string rise, string set)
    {
        SunDay day = Day(2015, month, date, offset, latitude, longitude);
        Near(Time(rise), Local(day, SunEventKind.Sunrise), 60);
        Near(Time(set), Local(day, SunEventKind.Sunset), 60);
    }

    // Published: S-24, libraries A and B: transit 18:46:05 (2 s), highest 18:45:51 UTC (6 s).
    [Fact]
    public void Transit_is_not_the_highest_point()
    {
        SunDay day = Day(2003, 10, 17, -7, 39.742476, -105.1786);
        Assert.InRange((day.Transits.Single().Time - Instant.FromUtc(2003, 10, 17, 18, 46, 5)).TotalSeconds, -2, 2);
        Assert.InRange((day.Extremes.MaxBy(e => e.Altitude).Time - Instant.FromUtc(2003, 10, 17, 18, 45, 51)).TotalSeconds, -6, 6);
    }

    // Published: S-26 and S-27, libraries A and B: Quito 2026-03-20.
    [Fact]
    public void At_the_equator_civil_twilight_takes_20_minutes_40_and_the_sun_passes_the_zenith()
    {
        SunDay day = Day(2026, 3, 20, -5, -0.18, -78.47);
        Near(Time("05:57:20"), Local(day, SunEventKind.CivilDawn), 2);
        Near(Time("06:18:00"), Local(day, SunEventKind.Sunrise), 2);
        HeightExtreme transit = day.Transits.Single();
        Assert.InRange((transit.Time - Instant.FromUtc(2026, 3, 20, 17, 21, 15)).TotalSeconds, -1, 1);
        Assert.Equal(89.777, transit.Altitude.Degrees, 0.01);
    }

    // Published: S-23, libraries A and B: Tromsø misses sunrise by 0.027° and dips for a moment.
    [Fact]
    public void A_sun_that_only_just_stays_below_says_so()
    {
        SunDay dark = Day(2025, 11, 27, 1, 69.65, 18.96);
        Assert.Equal(-0.8605, dark.Extremes.MaxBy(e => e.Altitude).Altitude.Degrees, 0.01);
        SunEvent sunrise = Assert.Single(dark.Events(SkyLine.Level), e => e.Kind == SunEventKind.Sunrise);
        Assert.Equal((SunState.BelowAllDay, null, true), (sunrise.State, sunrise.Time, sunrise.IsGrazing));
    }

    // Derived: the hours of a local day where clocks change (IANA zone): 23 in spring, 25 in autumn.
    [Theory]
    [InlineData(2026, 3, 29, 23)]
    [InlineData(2026, 10, 25, 25)]
    [InlineData(2026, 10, 17, 24)]
    public void A_local_day_is_as_long_as_its_clock_makes_it(int year, int month, int date, double hours)
    {
        SunDay day = SunDay.Of(new LocalDate(year, month, date), DateTimeZoneProviders.Tzdb["Europe/London"], Place.FromDegrees(50.1, -3.2));
        Assert.Equal(hours, (day.End - day.Start).TotalHours);
        Assert.All(day.Events(SkyLine.Level).Where(e => e.Time is not null), e => Assert.Equal(day.Date, e.Time!.Value.InZone(day.Zone).Date));
    }

    // Derived: Samoa had no 30 December 2011 (IANA zone); the day before it is whole.
    [Fact]
    public void A_date_that_never_was_is_refused_and_its_neighbours_are_not()
    {
        DateTimeZone apia = DateTimeZoneProviders.Tzdb["Pacific/Apia"];
        Place place = Place.FromDegrees(-13.8, -171.8);
        Assert.Contains("went over that day", Assert.Throws<ArgumentException>(() => SunDay.Of(new LocalDate(2011, 12, 30), apia, place)).Message, StringComparison.Ordinal);
        Assert.Equal(24, (SunDay.Of(new LocalDate(2011, 12, 29), apia, place) is { } day ? day.End - day.Start : default).TotalHours);
    }

    // Derived: for any place and day, rising and setting take turns, heights at crossings are the height asked, and all lie inside the day.
    [Fact]
    public void Crossings_alternate_lie_in_the_day_and_are_at_the_height() =>
        Gen.Select(Gen.Double[-90, 90], Gen.Double[-180, 180], Gen.Int[1800, 2100], Gen.Int[0, 364], Gen.Double[-20, 30], Gen.Int[-12, 14])
            .Sample((latitude, longitude, year, date, height, offset) =>
            {
                Place place = Place.FromDegrees(latitude, longitude);
                SunDay day = SunDay.Of(new LocalDate(year, 1, 1).PlusDays(date), DateTimeZone.ForOffset(Offset.FromHours(offset)), place);
                ImmutableArray<HeightCrossing> crossings = day.Crossings(Angle.FromDegrees(height));
                for (int i = 0; i < crossings.Length; i++)
                {
                    Assert.True(i == 0 || (crossings[i].IsRising != crossings[i - 1].IsRising && crossings[i].Time > crossings[i - 1].Time));
                    Assert.InRange(crossings[i].Time, day.Start, day.End);
                    // The sun moves 15° an hour at most: a hundredth of a second is 0.00005°, and the path holds 0.0001°.
                    Assert.Equal(height, SunPosition.At(crossings[i].Time, place).Altitude.Degrees, 0.0003);
                }
                // Whole minutes of the day lie on the side that the crossings say.
                bool above = crossings.IsEmpty ? day.StateAt(Angle.FromDegrees(height)) == SunState.AboveAllDay : !crossings[0].IsRising;
                int next = 0;
                for (Instant when = day.Start; when < day.End; when += Duration.FromMinutes(7))
                {
                    for (; next < crossings.Length && crossings[next].Time <= when; next++)
                        above = crossings[next].IsRising;
                    double altitude = day.At(when).Altitude.Degrees;
                    Assert.True(Math.Abs(altitude - height) < 0.001 || altitude >= height == above);
                }
            }, iter: 200);

    [Fact]
    public void A_year_out_of_reach_is_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Day(1799, 12, 31, 0, 0, 0));

    private static LocalTime Time(string text) => NodaTime.Text.LocalTimePattern.ExtendedIso.Parse(text).Value;
}
