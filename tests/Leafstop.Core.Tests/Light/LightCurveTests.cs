using Leafstop.Core.Light;
using Leafstop.Core.Quantities;
using NodaTime;

namespace Leafstop.Core.Tests.Light;

public class LightCurveTests
{
    private static readonly Place Valley = Place.FromDegrees(50.1, -3.2);
    private static readonly Instant Morning = Instant.FromUtc(2026, 10, 17, 5, 0);

    private static LightCurve Curve(SkyConditions conditions, params LightNote[] notes) => new(Morning, Morning + Duration.FromHours(14), Valley, conditions, notes);

    private static SunDay Day => SunDay.Of(new LocalDate(2026, 10, 17), DateTimeZone.Utc, Valley);

    // Derived: the curve is the single answer at every moment of it.
    [Fact]
    public void The_curve_is_the_light_at_each_moment()
    {
        LightCurve curve = Curve(SkyConditions.OpenAndClear);
        foreach (LightEstimate row in curve.Table(Duration.FromMinutes(37)))
            Assert.Equal(SkyLight.At(row.When, Valley, SkyConditions.OpenAndClear).Light.Value, row.Light.Value, 0.001);
    }

    // Published (job map, A5; common practice): open sky gains a stop in 4 to 5 minutes before sunrise and in 10 to 15 minutes after. Checked as means over civil twilight
    // (its later part) and the first half hour, mid latitude; the band is widened by nothing but the model's own 1 %.
    [Fact]
    public void Light_grows_at_the_rates_that_photographers_know()
    {
        LightCurve curve = Curve(SkyConditions.OpenAndClear);
        Instant civil = Day.Crossings(SkyLine.CivilAltitude).First(c => c.IsRising).Time, sunrise = Day.Crossings(SkyLine.RiseAltitude).First(c => c.IsRising).Time;
        double stops = (curve.At(sunrise).Light - curve.At(civil).Light).Value;
        Assert.InRange((sunrise - civil).TotalMinutes / stops, 3.9, 5.1);
        Instant later = sunrise + Duration.FromMinutes(45), soon = sunrise + Duration.FromMinutes(10);
        Assert.InRange((later - soon).TotalMinutes / (curve.At(later).Light - curve.At(soon).Light).Value, 9.9, 15.2);
    }

    // Derived: the rate is the difference over a minute.
    [Fact]
    public void The_rate_is_stops_a_minute()
    {
        LightCurve curve = Curve(SkyConditions.OpenAndClear);
        Instant when = Instant.FromUtc(2026, 10, 17, 6, 0);
        double difference = (curve.At(when + Duration.FromSeconds(30)).Light - curve.At(when - Duration.FromSeconds(30)).Light).Value;
        Assert.Equal(difference, curve.StopsPerMinuteAt(when), 1e-9);
        Assert.True(difference > 0);
    }

    // Derived: at the moment found the light is the value asked, brightening in the morning and darkening in the evening.
    [Fact]
    public void The_moment_at_which_a_value_is_passed_is_found()
    {
        LightCurve curve = Curve(SkyConditions.OpenAndClear);
        ExposureValue wanted = ExposureValue.Of(9);
        Assert.Collection(curve.Passes(wanted),
            up =>
            {
                Assert.True(up.IsBrightening);
                Assert.Equal(9, curve.At(up.Time).Light.Value, 0.01);
            },
            down =>
            {
                Assert.False(down.IsBrightening);
                Assert.Equal(9, curve.At(down.Time).Light.Value, 0.01);
            });
        Assert.Empty(curve.Passes(ExposureValue.Of(20)));
    }

    // Derived: when a ridge frees the sun the light jumps by the sun's part within minutes.
    [Fact]
    public void Sun_over_a_ridge_adds_its_light_within_minutes()
    {
        SkyConditions ridge = new() { SkyLine = SkyLine.Level.WithRidge(Angle.FromDegrees(15)) };
        Instant over = Assert.Single(Day.Events(ridge.SkyLine), e => e.Kind == SunEventKind.SunOverRidge).Time!.Value;
        LightCurve curve = Curve(ridge);
        Stops jump = curve.At(over + Duration.FromMinutes(6)).Light - curve.At(over - Duration.FromMinutes(1)).Light;
        Assert.InRange(jump.Value, 0.5, 2.5);
    }

    // Derived: a note at its own moment and sky is itself, filter put back; at another moment it moves by the model's difference.
    [Fact]
    public void A_note_is_carried_by_the_models_difference_and_says_so()
    {
        Instant noted = Instant.FromUtc(2026, 10, 17, 7, 40);
        LightNote note = new(noted, ExposureValue.Parse("6 2/3"), CloudCover.FromOkta(8), Stops.Of(1.5), "polariser 1.5");
        SkyConditions grey = new() { Cloud = CloudCover.FromOkta(8), Canopy = Canopy.FromShare(0.06) };
        LightCurve with = Curve(grey, note), without = Curve(grey);
        LightEstimate same = with.At(noted);
        Assert.Equal(6 + (2 / 3.0) + 1.5, same.Light.Value, 1e-4);
        Assert.Equal((HowKnown.WorkedOut, note), (same.How, same.Note));
        Assert.Equal(1 / 3.0, same.Uncertainty.Value, 1e-4);
        Instant later = noted + Duration.FromMinutes(90);
        Assert.Equal((without.At(later).Light - without.At(noted).Light).Value, (with.At(later).Light - same.Light).Value, 1e-3);
        Assert.True(with.At(later).Uncertainty > same.Uncertainty);
    }

    // Derived: of two notes the one that needs the smaller correction speaks; no notes leave the model.
    [Fact]
    public void The_note_that_fits_best_speaks()
    {
        Instant noted = Instant.FromUtc(2026, 10, 17, 7, 40);
        LightNote clear = new(noted, ExposureValue.Of(11), CloudCover.FromOkta(0), Stops.Of(0));
        LightNote grey = new(noted - Duration.FromDays(7), ExposureValue.Of(8), CloudCover.FromOkta(8), Stops.Of(0));
        SkyConditions sky = new() { Cloud = CloudCover.FromOkta(8) };
        Assert.Equal(grey, SkyLight.At(noted, Valley, sky, [clear, grey]).Note);
        Assert.Equal(clear, SkyLight.At(noted, Valley, SkyConditions.OpenAndClear, [clear, grey]).Note);
        Assert.Null(SkyLight.At(noted, Valley, sky, []).Note);
    }

    // Derived: after dusk a full moon (0.2 lx against 0.002, some six stops; common practice, no source) is another light than the sun's; a reading that the model explains is not, nor any by day,
    // where a bright subject or a meter at the sky reads high too.
    [Theory]
    [InlineData(23, 0, 6, true)]
    [InlineData(23, 0, 2.5, false)]
    [InlineData(23, 0, -2, false)]
    [InlineData(12, 0, 6, false)]
    public void A_reading_after_dusk_that_the_sun_does_not_explain_is_of_another_light(int hour, int minute, double over, bool isOther)
    {
        Instant when = Instant.FromUtc(2026, 10, 17, hour, minute);
        SkyConditions sky = new() { Cloud = CloudCover.FromOkta(2) };
        // Through a filter: it is the light that counts, not what was shown.
        LightNote note = new(when, SkyLight.At(when, Valley, sky).Light + Stops.Of(over - 1.5), CloudCover.FromOkta(2), Stops.Of(1.5), "polariser 1.5");
        Stops? told = note.OtherLight(Valley, sky);
        Assert.Equal(isOther, told is not null);
        if (told is { } stops)
            Assert.Equal(over, stops.Value, 1e-9);
    }

    [Fact]
    public void A_span_that_is_none_is_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new LightCurve(Morning, Morning, Valley, SkyConditions.OpenAndClear, []));
}
