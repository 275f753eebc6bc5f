using System.Net;
using System.Text.Json;
using Leafstop.Core.Sensor;
using Leafstop.Look.Bench;
using Leafstop.Storage.Cameras;
using Leafstop.Testing;

namespace Leafstop.Web.Tests.Features.Measurings;

/// <summary>Derived: what is done with an answer: keeping, setting beside an earlier test, printing.</summary>
public sealed class MeasuredAnswerTests(MeasuringBench bench) : IClassFixture<MeasuringBench>
{
    [Fact]
    public async Task It_is_kept_once_and_set_beside_earlier_tests_of_the_same_body()
    {
        string at = await bench.Done();
        Assert.Empty((await bench.Get($"{at}/earlier")).EnumerateArray());
        Assert.StartsWith("name: A camera's name has", MeasuringBench.Why(await bench.Post($"{at}/save", new { name = " " }, HttpStatusCode.BadRequest)), StringComparison.Ordinal);
        JsonElement saved = await bench.Post($"{at}/save", new { name = "Kitchen body" });
        Assert.Equal(("Kitchen body", 1, false), (saved.GetProperty("camera").GetString(), saved.GetProperty("history").GetInt32(), saved.GetProperty("wasThere").GetBoolean()));
        Assert.True((await bench.Post($"{at}/save", new { name = "kitchen BODY" })).GetProperty("wasThere").GetBoolean());
        KeptCamera kept = new CameraStore(bench.Host.File).Find("Kitchen body")!;
        Assert.Single(kept.Measurements);
        // The test that was saved from here is no earlier test.
        Assert.Empty((await bench.Get($"{at}/earlier")).EnumerateArray());

        // A test of last year: half the read noise at ISO 400.
        KeptMeasurement now = kept.Newest!;
        KeptMeasurement before = now with
        {
            MeasuredAt = now.MeasuredAt.AddYears(-1),
            Levels = [.. now.Levels.Select(l => l.Iso.Speed != 400 ? l : l with { ReadNoiseElectrons = Half(l.ReadNoiseElectrons!.Value) })],
        };
        CameraStore cameras = new(bench.Host.File);
        cameras.Keep("Kitchen body", [before]);
        cameras.Keep("Another body", [now with { Camera = now.Camera with { Model = "Body B" } }]);
        JsonElement earlier = Assert.Single((await bench.Get($"{at}/earlier")).EnumerateArray());
        Assert.Equal("Kitchen body", earlier.GetProperty("camera").GetString());
        string measuredAt = Uri.EscapeDataString(earlier.GetProperty("measuredAt").GetString()!);
        JsonElement compared = await bench.Get($"{at}/comparison?camera=Kitchen%20body&measuredAt={measuredAt}");
        Assert.Contains("there is a difference in read noise at ISO\u00A0400.", compared.GetProperty("sentence").GetString(), StringComparison.Ordinal);
        JsonElement[] rows = [.. compared.GetProperty("rows").EnumerateArray()];
        Assert.Equal(["100", "400", "800"], rows.Select(r => r.GetProperty("iso").GetString()));
        Assert.StartsWith("higher by 100\u00A0%", rows[1].GetProperty("readNoise").GetString(), StringComparison.Ordinal);
        Assert.Matches("^[0-9.]+\u00a0% lower to [0-9.]+\u00a0% higher$", rows[0].GetProperty("readNoise").GetString());
        Assert.Matches("^[0-9.]+\u00a0% lower to [0-9.]+\u00a0% higher$", rows[1].GetProperty("gain").GetString());
        Assert.Contains("Where a range stands alone, no difference is seen.", compared.GetProperty("howSure").GetString(), StringComparison.Ordinal);

        // The same folder measured again on another day: not two tests that agree, but one.
        cameras.Keep("Kitchen body", [now with { MeasuredAt = now.MeasuredAt.AddYears(-2) }]);
        string again = Uri.EscapeDataString((await bench.Get($"{at}/earlier")).EnumerateArray().Single(e => e.GetProperty("measuredAt").GetDateTimeOffset() < now.MeasuredAt.AddYears(-1)).GetProperty("measuredAt").GetString()!);
        JsonElement same = await bench.Get($"{at}/comparison?camera=Kitchen%20body&measuredAt={again}");
        Assert.StartsWith("These are the frames of ", same.GetProperty("sentence").GetString(), StringComparison.Ordinal);
        Assert.Empty(same.GetProperty("rows").EnumerateArray());

        await bench.Get($"{at}/comparison?camera=Another%20body&measuredAt={measuredAt}", HttpStatusCode.NotFound);
        await bench.Get($"{at}/comparison?camera=Kitchen%20body", HttpStatusCode.BadRequest);
        Assert.Contains("is another body", MeasuringBench.Why(await bench.Post($"{at}/save", new { name = "Another body" }, HttpStatusCode.Conflict)), StringComparison.Ordinal);

        static Estimate Half(Estimate of) => new(of.Value / 2, of.Low / 2, of.High / 2);
    }

    [Fact]
    public async Task The_report_is_one_page_that_may_do_nothing_but_show_itself()
    {
        string at = await bench.Done();
        using HttpResponseMessage response = await bench.Client.GetAsync($"{at}/report", MeasuringBench.Patience);
        Assert.Equal("text/html", response.Content.Headers.ContentType!.MediaType);
        string policy = Assert.Single(response.Headers.GetValues("Content-Security-Policy")), page = await response.Content.ReadAsStringAsync(MeasuringBench.Patience);
        Assert.StartsWith("default-src 'none';", policy, StringComparison.Ordinal);
        Assert.Contains("frame-ancestors 'none'", policy, StringComparison.Ordinal);
        using JsonDocument answer = JsonDocument.Parse(await bench.Client.GetStringAsync($"{at}/answer", MeasuringBench.Patience));
        Assert.Contains(answer.RootElement.GetProperty("verdict").GetProperty("sentence").GetString()!, page, StringComparison.Ordinal);
        Assert.Contains("The crops that show it", page, StringComparison.Ordinal);
        Assert.Contains("data:image/png;base64,", page, StringComparison.Ordinal);

        // The answer read back says what was measured, word by word.
        using JsonDocument again = JsonDocument.Parse(BenchJson.Of(BenchReading.Answer(answer.RootElement)));
        Assert.True(JsonElement.DeepEquals(answer.RootElement, again.RootElement));
    }

    [Fact]
    public async Task The_report_of_JPEGs_alone_shows_them_to_the_eye()
    {
        string folder = Path.Combine(Path.GetDirectoryName(bench.Folder)!, "jpegs");
        CameraJpegs.Write(folder, 100, 6400);
        string page = await bench.Client.GetStringAsync($"{await bench.Done(folder)}/report", MeasuringBench.Patience);
        Assert.Contains("To look at, not to measure", page, StringComparison.Ordinal);
        Assert.Equal(6, page.Split("data:image/png;base64,").Length - 1);
        Assert.DoesNotContain("Limits by", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_folder_is_found_by_its_name_alone()
    {
        JsonElement found = Assert.Single((await bench.Get("/api/folders/find?name=BENCH")).EnumerateArray());
        Assert.Equal(bench.Folder, found.GetProperty("path").GetString());
        Assert.Empty((await bench.Get("/api/folders/find?name=nowhere")).EnumerateArray());
        await bench.Get("/api/folders/find?name=..%2Fbench", HttpStatusCode.BadRequest);
    }
}
