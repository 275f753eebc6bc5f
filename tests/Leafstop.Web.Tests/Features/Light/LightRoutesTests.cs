using System.Net;
using System.Text.Json;
using Leafstop.Core.Light;
using Leafstop.Core.Quantities;
using Leafstop.Storage.Places;
using Leafstop.Web.Tests.Features.Judgings;
using NodaTime;

namespace Leafstop.Web.Tests.Features.Light;

/// <summary>The light over the wire is that of Core, an hour before the time and three after it.</summary>
public sealed class LightRoutesTests
{
    private const string Asked = "/api/light?light=17:40&lat=50.1&lon=-3.2&zone=Europe/London&date=2026-10-17&okta=8&canopy=0.5";

    // Derived: the same Core; numbers go through JSON in full.
    [Fact]
    public async Task Every_minute_is_that_of_the_light_curve()
    {
        await using RunningHost host = await RunningHost.Start();
        JsonElement told = await JudgingBench.Said(await host.Client.GetAsync(new Uri(host.Address, Asked), TestContext.Current.CancellationToken));
        Instant when = Instant.FromUtc(2026, 10, 17, 16, 40);
        Assert.True(Canopy.TryParse("0.5", out Canopy canopy, out _));
        SkyConditions sky = new() { Cloud = CloudCover.FromOkta(8), Canopy = canopy };
        LightCurve curve = new(when - Duration.FromHours(1), when + Duration.FromHours(3), Place.FromDegrees(50.1, -3.2), sky, []);
        double[] expected = [.. curve.Table(Duration.FromMinutes(1)).Select(e => e.Light.Value)], actual = [.. told.GetProperty("ev100").EnumerateArray().Select(e => e.GetDouble())];
        Assert.Equal(241, actual.Length);
        Assert.All(expected.Zip(actual), p => Assert.Equal(p.First, p.Second, 1e-9));
        // Another span draws the sun's way through other nodes, within 0.0001°.
        Assert.Equal(curve.At(when).Light.Value, told.GetProperty("openEv100").GetDouble(), 1e-4);
        Assert.Equal("2026-10-17T16:40:00+01:00", told.GetProperty("from").GetString());
        Assert.Contains("Sunset", told.GetProperty("day").GetString(), StringComparison.OrdinalIgnoreCase);
        Assert.NotEmpty(told.GetProperty("why").EnumerateArray());
    }

    // Derived: a place's own note goes before the model.
    [Fact]
    public async Task A_kept_place_brings_its_notes()
    {
        await using RunningHost host = await RunningHost.Start();
        Instant noted = Instant.FromUtc(2026, 10, 17, 16, 40);
        new PlaceStore(host.File).Add(new KeptPlace
        {
            Name = "Dimble Spout",
            Place = Place.FromDegrees(50.1, -3.2),
            Zone = "Europe/London",
            Notes = [new NumberedNote(1, new LightNote(noted, ExposureValue.Of(20 / 3.0), CloudCover.FromOkta(8), Stops.Of(1.5), "polariser 1.5"))],
        });
        JsonElement told = await JudgingBench.Said(await host.Client.GetAsync(new Uri(host.Address, "/api/light?light=17:40&place=dimble%20spout&date=2026-10-17&okta=8"), TestContext.Current.CancellationToken));
        Assert.Equal((20 / 3.0) + 1.5, told.GetProperty("openEv100").GetDouble(), 1e-9);
        Assert.Contains("your own light note", told.GetProperty("sentence").GetString(), StringComparison.Ordinal);
        JsonElement place = Assert.Single((await JudgingBench.Said(await host.Client.GetAsync(new Uri(host.Address, "/api/places"), TestContext.Current.CancellationToken))).EnumerateArray());
        Assert.Equal("Dimble Spout", place.GetProperty("name").GetString());
        JsonElement note = Assert.Single(place.GetProperty("notes").EnumerateArray());
        Assert.Equal(("2026-10-17T17:40:00+01:00", "polariser 1.5"), (note.GetProperty("time").GetString(), note.GetProperty("filter").GetString()));
    }

    // Derived: at the time of the reading the light is what the meter showed and its filter took; other times differ by the model, and a place's own notes do not count against a reading of the day.
    [Fact]
    public async Task What_a_meter_showed_is_carried_on_by_the_difference_of_the_model()
    {
        await using RunningHost host = await RunningHost.Start();
        new PlaceStore(host.File).Add(new KeptPlace
        {
            Name = "Dimble Spout",
            Place = Place.FromDegrees(50.1, -3.2),
            Zone = "Europe/London",
            Notes = [new NumberedNote(1, new LightNote(Instant.FromUtc(2026, 10, 17, 17, 0), ExposureValue.Of(3), CloudCover.FromOkta(8), default))],
        });
        JsonElement model = await JudgingBench.Said(await host.Client.GetAsync(new Uri(host.Address, Asked), TestContext.Current.CancellationToken));
        string metered = "/api/light?light=17:40&place=dimble%20spout&canopy=0.5&date=2026-10-17&okta=8&ev=9&filter=polariser%201.5";
        JsonElement told = await JudgingBench.Said(await host.Client.GetAsync(new Uri(host.Address, metered), TestContext.Current.CancellationToken));
        Assert.Equal(10.5, told.GetProperty("openEv100").GetDouble(), 1e-3);
        Assert.Equal(1 / 3.0, told.GetProperty("uncertaintyStops").GetDouble(), 1e-3);
        double[] carried = [.. told.GetProperty("ev100").EnumerateArray().Select(e => e.GetDouble())], alone = [.. model.GetProperty("ev100").EnumerateArray().Select(e => e.GetDouble())];
        double apart = 10.5 - model.GetProperty("openEv100").GetDouble();
        // The curves are drawn through the same nodes; the reading's own moment is worked out apart from them, within 0.0001°.
        Assert.All(carried.Zip(alone), p => Assert.Equal(p.Second + apart, p.First, 1e-3));
        foreach (string wrong in new[] { "&ev=bright", "&ev=9&filter=moss" })
            Assert.Contains(wrong.Contains("filter", StringComparison.Ordinal) ? "filter: " : "ev: ", await JudgingBench.Refused(await host.Client.GetAsync(new Uri(host.Address, Asked + wrong), TestContext.Current.CancellationToken), HttpStatusCode.BadRequest), StringComparison.Ordinal);
    }

    // Derived: what is left of the sun at ten at night is starlight; a lit street at EV 5 is some fifteen stops over it, and by day no reading is refused its hours.
    [Fact]
    public async Task A_reading_of_the_moon_or_of_lamps_is_told()
    {
        await using RunningHost host = await RunningHost.Start();
        JsonElement lamp = await JudgingBench.Said(await host.Client.GetAsync(new Uri(host.Address, Asked.Replace("17:40", "22:00", StringComparison.Ordinal) + "&ev=5"), TestContext.Current.CancellationToken));
        Assert.InRange(lamp.GetProperty("otherLightStops").GetDouble(), 12, 20);
        foreach (string own in new[] { Asked + "&ev=9", Asked, Asked.Replace("17:40", "22:00", StringComparison.Ordinal) })
            Assert.Equal(JsonValueKind.Null, (await JudgingBench.Said(await host.Client.GetAsync(new Uri(host.Address, own), TestContext.Current.CancellationToken))).GetProperty("otherLightStops").ValueKind);
    }

    [Theory]
    [InlineData("/api/light", 400, "lat")]
    [InlineData("/api/light?lat=50.1&lon=-3.2&zone=UTC", 400, "time is missing")]
    [InlineData("/api/light?light=25:00&lat=50.1&lon=-3.2&zone=UTC", 400, "no time of day")]
    [InlineData("/api/light?light=12:00&lat=91&lon=-3.2&zone=UTC", 400, "latitude")]
    [InlineData("/api/light?light=12:00&lat=NaN&lon=-3.2&zone=UTC", 400, "no number")]
    [InlineData("/api/light?light=12:00&lat=50&lon=3&zone=Nowhere/There", 400, "no time zone")]
    [InlineData("/api/light?light=12:00&lat=50&lon=3&zone=UTC&date=2300-01-01", 400, "out of reach")]
    [InlineData("/api/light?light=12:00&lat=50&lon=3&zone=UTC&okta=9", 400, "eighths")]
    [InlineData("/api/light?light=12:00&lat=50&lon=3&zone=UTC&valley=10&basin=10", 400, "not both")]
    [InlineData("/api/light?light=01:30&lat=50&lon=3&zone=Europe/London&date=2026-03-29", 400, "does not exist")]
    [InlineData("/api/light?light=12:00&place=Nowhere", 404, "Nowhere")]
    public async Task What_cannot_be_read_is_refused_in_a_sentence(string address, int status, string word)
    {
        await using RunningHost host = await RunningHost.Start();
        using HttpResponseMessage response = await host.Client.GetAsync(new Uri(host.Address, address), TestContext.Current.CancellationToken);
        Assert.Equal((HttpStatusCode)status, response.StatusCode);
        Assert.Contains(word, JsonDocument.Parse(await response.Content.ReadAsStringAsync(TestContext.Current.CancellationToken)).RootElement.GetProperty("detail").GetString(), StringComparison.Ordinal);
    }
}
