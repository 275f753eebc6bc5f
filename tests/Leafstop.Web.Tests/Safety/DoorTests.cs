using System.Net;
using System.Net.Http.Headers;

namespace Leafstop.Web.Tests.Safety;

/// <summary>Derived: who has the key of the printed address comes in, nobody else does.</summary>
public sealed class DoorTests
{
    [Fact]
    public async Task The_key_is_exchanged_for_a_cookie_that_scripts_and_other_sites_cannot_use_and_leaves_the_address()
    {
        await using RunningHost host = await RunningHost.Start();
        using HttpClientHandler handler = new() { AllowAutoRedirect = false, UseCookies = false };
        using HttpClient browser = new(handler) { BaseAddress = host.Address };
        using HttpResponseMessage shown = await browser.GetAsync($"/judging?folder=%2Fa%20b&key={host.Wishes.Key}", TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.SeeOther, shown.StatusCode);
        Assert.Equal("/judging?folder=%2Fa%20b", shown.Headers.Location!.OriginalString);
        string cookie = Assert.Single(shown.Headers.GetValues("Set-Cookie"));
        Assert.Contains("httponly", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("samesite=strict", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain(host.Wishes.Key, cookie, StringComparison.Ordinal);

        using HttpRequestMessage known = new(HttpMethod.Get, "/api/cameras");
        known.Headers.Add("Cookie", cookie.Split(';')[0]);
        using HttpResponseMessage answered = await browser.SendAsync(known, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.OK, answered.StatusCode);
    }

    [Theory]
    [InlineData("/api/cameras", null)]
    [InlineData("/api/openapi.json", null)]
    [InlineData("/api/cameras", "Bearer wrong")]
    [InlineData("/api/cameras?key=wrong", null)]
    [InlineData("/", null)]
    public async Task Without_the_key_nothing_is_told(string address, string? authorization)
    {
        await using RunningHost host = await RunningHost.Start();
        using HttpClient stranger = new() { BaseAddress = host.Address };
        using HttpRequestMessage request = new(HttpMethod.Get, address);
        request.Headers.Accept.Add(new MediaTypeWithQualityHeaderValue("text/html"));
        if (authorization is not null)
            request.Headers.TryAddWithoutValidation("Authorization", authorization);
        using HttpResponseMessage response = await stranger.SendAsync(request, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.Unauthorized, response.StatusCode);
        Assert.False(response.Headers.Contains("Set-Cookie"));
        Assert.Contains("ends with a key", await response.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Every_answer_forbids_inline_script_and_other_origins()
    {
        await using RunningHost host = await RunningHost.Start();
        using HttpResponseMessage response = await host.Client.GetAsync("/api/cameras", TestContext.Current.CancellationToken);
        string policy = Assert.Single(response.Headers.GetValues("Content-Security-Policy"));
        Assert.Contains("default-src 'none'", policy, StringComparison.Ordinal);
        Assert.Contains("script-src 'self' 'wasm-unsafe-eval';", policy, StringComparison.Ordinal);
        Assert.DoesNotContain("http", policy, StringComparison.Ordinal);
    }
}
