using System.Globalization;
using Leafstop.Core.Light;
using Leafstop.Core.Quantities;
using NodaTime;

namespace Leafstop.Benchmarks;

/// <summary>How long the sun's day and the light of a day take.</summary>
internal static class LightSpeed
{
    private const int Repeats = 100;

    public static int Run()
    {
        Place place = Place.FromDegrees(50.1, -3.2);
        DateTimeZone zone = DateTimeZoneProviders.Tzdb["Europe/London"];
        LocalDate date = new(2026, 10, 17);
        Instant noon = Instant.FromUtc(2026, 10, 17, 12, 0);
        SkyConditions sky = new() { Cloud = CloudCover.FromOkta(6), Canopy = Canopy.FromShare(0.06), SkyLine = SkyLine.Level.WithRidge(Angle.FromDegrees(10)) };
        LightNote[] notes = [.. Enumerable.Range(0, 10).Select(i => new LightNote(noon - Duration.FromDays(i), ExposureValue.Of(8), CloudCover.FromOkta(8), Stops.Of(1.5)))];
        SunDay day = SunDay.Of(date, zone, place);
        Say("place of the sun", () => SunPosition.At(noon, place));
        Say("place of the moon", () => MoonPosition.At(noon, place));
        Say("a day with its events", () => SunDay.Of(date, zone, place).Events(sky.SkyLine));
        Say("light at one time, model", () => SkyLight.At(noon, place, sky));
        Say("light at one time, ten notes", () => SkyLight.At(noon, place, sky, notes));
        Say("table of a day, 96 rows, ten notes", () => new LightCurve(day.Start, day.End, place, sky, notes).Table(Duration.FromMinutes(15)).Count());
        Say("when a value is passed in a day", () => new LightCurve(day.Start, day.End, place, sky, []).Passes(ExposureValue.Of(9)));
        return 0;
    }

    private static void Say(string what, Func<object> work)
    {
        double seconds = Clock.Best(20, () =>
        {
            for (int i = 0; i < Repeats; i++)
                work();
        });
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{what,-36}{seconds / Repeats * 1e3,9:0.0000} ms"));
    }
}
