using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using Leafstop.Storage.Places;
using Leafstop.Web.Tests.Features.Judgings;

namespace Leafstop.Web.Tests.Features.Places;

/// <summary>Places and light notes over the wire are kept, changed and taken out as by leafstop places, and every act can be taken back.</summary>
public sealed class PlaceKeepingTests : IAsyncLifetime
{
    private static readonly object Spout = new { name = " Dimble  Spout ", lat = "50.1", lon = "-3.2", elevation = "180 m", zone = "europe/london", ridge = "15", canopy = "0.5", valley = "40" };

    private RunningHost _host = null!;

    private PlaceStore Store => new(_host.File);

    public async ValueTask InitializeAsync() => _host = await RunningHost.Start();

    public ValueTask DisposeAsync() => _host.DisposeAsync();

    [Fact]
    public async Task A_place_is_kept_as_it_is_written_and_changed_value_by_value()
    {
        HttpResponseMessage kept = await Sent(HttpMethod.Post, "/api/places", Spout);
        Assert.Equal((HttpStatusCode.Created, "/api/places/Dimble%20Spout"), (kept.StatusCode, kept.Headers.Location!.OriginalString));
        JsonElement told = await JudgingBench.Said(kept);
        Assert.Equal(("Dimble Spout", "Europe/London", 180.0, 15.0, "0.5", 40.0),
            (told.GetProperty("name").GetString(), told.GetProperty("zone").GetString(), Number("elevationM"), Number("ridgeDeg"), told.GetProperty("canopy").GetString(), Number("valleyDeg")));

        // A basin takes the valley out; what is not said stays; an empty text takes out.
        told = await JudgingBench.Said(await Sent(HttpMethod.Patch, "/api/places/dimble%20spout", new { basin = "20", canopy = "" }));
        Assert.Equal((20.0, 15.0, 50.1), (Number("basinDeg"), Number("ridgeDeg"), Number("latitudeDeg")));
        Assert.Equal((JsonValueKind.Null, JsonValueKind.Null), (told.GetProperty("valleyDeg").ValueKind, told.GetProperty("canopy").ValueKind));
        told = await JudgingBench.Said(await Sent(HttpMethod.Patch, "/api/places/Dimble%20Spout", new { valley = "40", basin = "" }));
        Assert.Equal(40.0, Number("valleyDeg"));
        told = await JudgingBench.Said(await Sent(HttpMethod.Patch, "/api/places/Dimble%20Spout", new { name = "A/B %2F" }));
        Assert.Equal("A/B %2F", Assert.Single(Store.List()).Name);
        Assert.Equal(HttpStatusCode.NoContent, (await Sent(HttpMethod.Delete, $"/api/places/{Uri.EscapeDataString("A/B %2F")}")).StatusCode);
        Assert.Empty(Store.List());

        double Number(string member) => told.GetProperty(member).GetDouble();
    }

    [Fact]
    public async Task A_note_is_kept_taken_out_and_put_back_under_its_number()
    {
        await Sent(HttpMethod.Post, "/api/places", Spout);
        HttpResponseMessage kept = await Sent(HttpMethod.Post, "/api/places/Dimble%20Spout/notes", new { at = "2026-10-17 08:40", ev = "6 2/3", okta = "8", filter = "polariser 1.5", remark = "wet rock" });
        Assert.Equal((HttpStatusCode.Created, "/api/places/Dimble%20Spout/notes/1"), (kept.StatusCode, kept.Headers.Location!.OriginalString));
        JsonElement note = await JudgingBench.Said(kept);
        Assert.Equal(("2026-10-17T08:40:00+01:00", 20 / 3.0, 1.5), (note.GetProperty("time").GetString(), note.GetProperty("meteredEv100").GetDouble(), note.GetProperty("filterStops").GetDouble()));
        NumberedNote before = Assert.Single(Store.Find("Dimble Spout")!.Notes);
        await Sent(HttpMethod.Post, "/api/places/Dimble%20Spout/notes", new { at = "2026-10-18T08:40:00+01:00", ev = "7" });

        Assert.Equal(HttpStatusCode.NoContent, (await Sent(HttpMethod.Delete, "/api/places/Dimble%20Spout/notes/1")).StatusCode);
        Assert.Contains("no note 1", await JudgingBench.Refused(await Sent(HttpMethod.Delete, "/api/places/Dimble%20Spout/notes/1"), HttpStatusCode.NotFound), StringComparison.Ordinal);
        await JudgingBench.Refused(await Sent(HttpMethod.Delete, "/api/places/Dimble%20Spout/notes/one"), HttpStatusCode.NotFound);
        // As the page writes it back.
        object again = new { at = note.GetProperty("time").GetString(), ev = "6.666666666666667", okta = "8", filter = "polariser 1.5", remark = "wet rock", number = 1 };
        Assert.Equal(HttpStatusCode.Created, (await Sent(HttpMethod.Post, "/api/places/Dimble%20Spout/notes", again)).StatusCode);
        Assert.Equal(before, Store.Find("Dimble Spout")!.Notes.Single(n => n.Number == 1));
        Assert.Contains("another note", await JudgingBench.Refused(await Sent(HttpMethod.Post, "/api/places/Dimble%20Spout/notes", again), HttpStatusCode.Conflict), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_place_goes_out_without_its_whereabouts_unless_asked_and_comes_back_whole_from_its_file()
    {
        await Sent(HttpMethod.Post, "/api/places", Spout);
        await Sent(HttpMethod.Post, "/api/places/Dimble%20Spout/notes", new { at = "2026-10-17 08:40", ev = "6 2/3" });
        string secret = await _host.Client.GetStringAsync("/api/places/Dimble%20Spout/file", TestContext.Current.CancellationToken);
        Assert.DoesNotContain("50.1", secret, StringComparison.Ordinal);
        using HttpResponseMessage exported = await Sent(HttpMethod.Get, "/api/places/Dimble%20Spout/file?withLocation=true");
        Assert.Equal(("application/json", "dimble-spout.json"), (exported.Content.Headers.ContentType!.MediaType, exported.Content.Headers.ContentDisposition!.FileName));
        string text = await exported.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        Assert.Contains("remove it first", await JudgingBench.Refused(await Sent(HttpMethod.Post, "/api/places", new { text }), HttpStatusCode.Conflict), StringComparison.Ordinal);
        await Sent(HttpMethod.Delete, "/api/places/Dimble%20Spout");
        Assert.Contains("--with-location", await JudgingBench.Refused(await Sent(HttpMethod.Post, "/api/places", new { text = secret }), HttpStatusCode.BadRequest), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.Created, (await Sent(HttpMethod.Post, "/api/places", new { text })).StatusCode);
        Assert.Equal(text, PlaceFile.Write(Store.Find("Dimble Spout")!, withLocation: true));
    }

    [Theory]
    [InlineData("POST", "/api/places", """{"lat":"50.1","lon":"-3.2","zone":"UTC"}""", 400, "1 to 80 characters")]
    [InlineData("POST", "/api/places", """{"name":"A","lon":"-3.2","zone":"UTC"}""", 400, "Say where with Latitude and Longitude")]
    [InlineData("POST", "/api/places", """{"name":"A","lat":"50,1","lon":"-3.2","zone":"UTC"}""", 400, "Latitude: '50,1' is no number")]
    [InlineData("POST", "/api/places", """{"name":"A","lat":"91","lon":"-3.2","zone":"UTC"}""", 400, "A latitude is from")]
    [InlineData("POST", "/api/places", """{"name":"A","lat":"50.1","lon":"-3.2"}""", 400, "whose clock counts")]
    [InlineData("POST", "/api/places", """{"name":"A","lat":"50.1","lon":"-3.2","zone":"Londn"}""", 400, "Clock: There is no time zone 'Londn'")]
    [InlineData("POST", "/api/places", """{"name":"A","lat":"50.1","lon":"-3.2","zone":"UTC","canopy":"jungle"}""", 400, "Trees: ")]
    [InlineData("POST", "/api/places", """{"name":"A","lat":"50.1","lon":"-3.2","zone":"UTC","valley":"1","basin":"1"}""", 400, "not both")]
    [InlineData("POST", "/api/places", """{"name":"dimble spout","lat":"50.1","lon":"-3.2","zone":"UTC"}""", 409, "kept already")]
    [InlineData("POST", "/api/places", """{"name":"A","latitude":"50.1"}""", 400, "no such member")]
    [InlineData("PATCH", "/api/places/Dimble%20Spout", """{"ridge":"steep"}""", 400, "Ridge: 'steep' is no number")]
    [InlineData("PATCH", "/api/places/Dimble%20Spout", """{"lat":""}""", 400, "Say where")]
    [InlineData("PATCH", "/api/places/Dimble%20Spout", """{"name":"Brackenhush Wood"}""", 409, "kept already")]
    [InlineData("PATCH", "/api/places/Dimble%20Spout", """{"text":"{}"}""", 400, "a file makes a new place")]
    [InlineData("PATCH", "/api/places/Elsewhere", "{}", 404, "No place named \"Elsewhere\" is kept.")]
    [InlineData("DELETE", "/api/places/%20", "", 404, "is kept")]
    [InlineData("POST", "/api/places/Dimble%20Spout/notes", """{"at":"2026-10-17 08:40"}""", 400, "what the meter showed is missing")]
    [InlineData("POST", "/api/places/Dimble%20Spout/notes", """{"at":"2026-10-17 08:40","ev":"bright"}""", 400, "Light: ")]
    [InlineData("POST", "/api/places/Dimble%20Spout/notes", """{"ev":"6"}""", 400, "say when it was metered")]
    [InlineData("POST", "/api/places/Dimble%20Spout/notes", """{"at":"2026-10-25 01:30","ev":"6"}""", 400, "comes twice")]
    [InlineData("POST", "/api/places/Dimble%20Spout/notes", """{"at":"2026-10-17 08:40","ev":"6","okta":"9"}""", 400, "eighths")]
    [InlineData("POST", "/api/places/Dimble%20Spout/notes", """{"at":"2026-10-17 08:40","ev":"6","number":0}""", 400, "counted from 1")]
    public async Task What_cannot_be_kept_is_refused_in_a_sentence_and_changes_nothing(string method, string address, string body, int status, string told)
    {
        await Sent(HttpMethod.Post, "/api/places", Spout);
        await Sent(HttpMethod.Post, "/api/places", new { name = "Brackenhush Wood", lat = "50.2", lon = "-3.1", zone = "Europe/London" });
        string[] before = Files();
        using HttpRequestMessage request = new(HttpMethod.Parse(method), address);
        if (body.Length > 0)
            request.Content = new StringContent(body, System.Text.Encoding.UTF8, "application/json");
        string why = await JudgingBench.Refused(await _host.Client.SendAsync(request, TestContext.Current.CancellationToken), (HttpStatusCode)status);
        Assert.Contains(told, why, StringComparison.Ordinal);
        Assert.Equal(before, Files());

        string[] Files() => [.. Store.List().Select(p => PlaceFile.Write(p, withLocation: true))];
    }

    private async Task<HttpResponseMessage> Sent(HttpMethod method, string address, object? body = null)
    {
        using HttpRequestMessage request = new(method, address) { Content = body is null ? null : JsonContent.Create(body) };
        return await _host.Client.SendAsync(request, TestContext.Current.CancellationToken);
    }
}
