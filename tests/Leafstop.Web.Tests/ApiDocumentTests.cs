using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using Leafstop.Web.Tests.Features.Judgings;
using Microsoft.AspNetCore.Routing;
using Microsoft.OpenApi;
using Microsoft.OpenApi.Reader;

namespace Leafstop.Web.Tests;

/// <summary>The OpenAPI document says what the host does: all of it, and nothing else.</summary>
public sealed class ApiDocumentTests(JudgingBench bench) : IClassFixture<JudgingBench>
{
    [Fact]
    public async Task It_is_sound_and_lists_every_route_with_its_method_and_nothing_more()
    {
        string text = await bench.Client.GetStringAsync(ApiDocument.Address, TestContext.Current.CancellationToken);
        ReadResult read = OpenApiDocument.Parse(text, "json");
        Assert.Empty(read.Diagnostic!.Errors);
        Assert.Empty(read.Diagnostic.Warnings);
        OpenApiDocument document = read.Document!;
        Assert.Empty(document.Validate(ValidationRuleSet.GetDefaultRuleSet()));
        Assert.Equal("Leafstop", document.Info.Title);

        string[] routes =
        [
            .. bench.Host.Endpoints.OfType<RouteEndpoint>().Where(e => e.RoutePattern.RawText != ApiDocument.Address)
                .SelectMany(e => e.Metadata.GetMetadata<HttpMethodMetadata>()!.HttpMethods.Select(m => $"{m} {e.RoutePattern.RawText!.TrimEnd('/')}")).Order(StringComparer.Ordinal),
        ];
        Assert.True(routes.Length >= 17, string.Join('\n', routes));
        Assert.Equal(routes, document.Paths.SelectMany(p => p.Value.Operations!.Keys.Select(m => $"{m.Method} {p.Key}")).Order(StringComparer.Ordinal));
        Assert.All(document.Paths.Values.SelectMany(p => p.Operations!.Values), operation =>
        {
            Assert.False(string.IsNullOrWhiteSpace(operation.Summary));
            Assert.Contains("403", operation.Responses!.Keys);
            Assert.Contains(operation.Responses.Keys, status => status[0] == '2');
            // What takes a body refuses one that is too large or no JSON.
            Assert.Equal(operation.RequestBody is not null, operation.Responses.ContainsKey("413"));
            Assert.Equal(operation.RequestBody is not null, operation.Responses.ContainsKey("415"));
        });
        Assert.Single(document.Paths.SelectMany(p => p.Value.Operations!.Values).GroupBy(o => o.OperationId).Select(g => g.Count()).Distinct());
    }

    // What really goes out and comes in, held against the document: state while waiting, ready and failed, trial, side-by-side check, kept judgings, refusals.
    [Fact]
    public async Task Real_answers_have_the_form_that_it_promises()
    {
        using JsonDocument parsed = JsonDocument.Parse(await bench.Client.GetStringAsync(ApiDocument.Address, TestContext.Current.CancellationToken));
        ApiForm api = new(parsed.RootElement);
        var wish = new { folder = bench.Folder, camera = "Body A", printWidthMm = 120, viewingDistanceMm = 600.5, screenPixelsPerCentimetre = 50, seed = 81, places = new[] { new { region = "dark", left = 20000, top = 10 } } };
        api.Takes("/api/judgings", "post", JsonSerializer.SerializeToElement(wish));
        string at = await Sent("/api/judgings", "/api/judgings", wish, HttpStatusCode.Accepted);
        Assert.Equal("failed", (await bench.Settled(at)).GetProperty("state").GetString());
        await Got(at, "/api/judgings/{id}");
        await Got($"{at}/trial", "/api/judgings/{id}/trial", HttpStatusCode.Conflict);
        await bench.End(at);

        at = await bench.Ready(82);
        await Got(at, "/api/judgings/{id}");
        await Got("/api/judgings", "/api/judgings");
        JsonElement trial = await Got($"{at}/trial", "/api/judgings/{id}/trial");
        var answer = new { token = trial.GetProperty("token").GetString(), reply = "unsure" };
        api.Takes("/api/judgings/{id}/answers", "post", JsonSerializer.SerializeToElement(answer));
        await Sent($"{at}/answers", "/api/judgings/{id}/answers", answer, HttpStatusCode.OK);
        await Sent($"{at}/answers", "/api/judgings/{id}/answers", answer, HttpStatusCode.Conflict);
        await Sent($"{at}/answers", "/api/judgings/{id}/answers", new { token = "" }, HttpStatusCode.BadRequest);
        await Got("/api/cameras/Body%20A/judgings", "/api/cameras/{camera}/judgings");
        await Got("/api/cameras/Body%20B/judgings", "/api/cameras/{camera}/judgings", HttpStatusCode.NotFound);

        var check = new { cleanerIso = 100, noisierIso = 1600, trials = 10 };
        api.Takes("/api/judgings/{id}/side-by-side", "post", JsonSerializer.SerializeToElement(check));
        await Sent($"{at}/side-by-side", "/api/judgings/{id}/side-by-side", check, HttpStatusCode.Created);
        for (int i = 0; i < 10; i++)
        {
            JsonElement pair = await Got($"{at}/side-by-side/trial", "/api/judgings/{id}/side-by-side/trial");
            await Sent($"{at}/side-by-side/answers", "/api/judgings/{id}/side-by-side/answers", new { token = pair.GetProperty("token").GetString(), reply = "left" }, HttpStatusCode.OK);
        }
        Assert.Equal(JsonValueKind.Object, (await Got($"{at}/side-by-side", "/api/judgings/{id}/side-by-side")).GetProperty("result").ValueKind);
        await bench.End(at);
        Assert.ThrowsAny<Xunit.Sdk.XunitException>(() => api.Takes("/api/judgings/{id}/answers", "post", JsonSerializer.SerializeToElement(new { token = 7, reply = "yes" })));
        Assert.ThrowsAny<Xunit.Sdk.XunitException>(() => api.Takes("/api/judgings/{id}/answers", "post", JsonSerializer.SerializeToElement(new { token = "7", answer = "yes" })));

        async Task<JsonElement> Got(string address, string path, HttpStatusCode status = HttpStatusCode.OK)
        {
            using HttpResponseMessage response = await bench.Client.GetAsync(address, TestContext.Current.CancellationToken);
            return await Held(response, path, "get", status);
        }

        async Task<string> Sent(string address, string path, object body, HttpStatusCode status)
        {
            using HttpResponseMessage response = await bench.Client.PostAsJsonAsync(address, body, TestContext.Current.CancellationToken);
            await Held(response, path, "post", status);
            return response.Headers.Location?.OriginalString ?? "";
        }

        async Task<JsonElement> Held(HttpResponseMessage response, string path, string method, HttpStatusCode status)
        {
            Assert.Equal(status, response.StatusCode);
            using JsonDocument body = JsonDocument.Parse(await response.Content.ReadAsStringAsync(TestContext.Current.CancellationToken));
            api.Gives(path, method, (int)status, response.Content.Headers.ContentType!.MediaType!, body.RootElement);
            return body.RootElement.Clone();
        }
    }
}
