using System.Net;
using System.Net.Http.Headers;
using System.Text.Json;

namespace Leafstop.Web.Tests.Safety;

public sealed class OwnOriginOnlyTests
{
    [Fact]
    public async Task The_host_listens_on_the_loopback_address_only()
    {
        await using RunningHost host = await RunningHost.Start();
        Assert.Equal("127.0.0.1", host.Address.Host);
    }

    // Derived: opened to the network it answers under the machine's addresses, and still under no other name and to nobody without the key.
    [Fact]
    public async Task Opened_to_the_network_it_refuses_foreign_names_all_the_same()
    {
        await using RunningHost host = await RunningHost.Start(change: wishes => wishes with { IsForNetwork = true });
        Assert.Equal("0.0.0.0", host.Address.Host);
        Uri loopback = new($"http://127.0.0.1:{host.Address.Port}/api/cameras");
        Assert.Equal(HttpStatusCode.OK, await Status(loopback, null, host.Wishes.Key));
        Assert.Equal(HttpStatusCode.Forbidden, await Status(loopback, "elsewhere.example", host.Wishes.Key));
        Assert.Equal(HttpStatusCode.Unauthorized, await Status(loopback, null, "wrong"));

        async Task<HttpStatusCode> Status(Uri address, string? name, string key)
        {
            using HttpRequestMessage request = new(HttpMethod.Get, address);
            request.Headers.Host = name;
            request.Headers.Authorization = new AuthenticationHeaderValue("Bearer", key);
            using HttpResponseMessage response = await host.Client.SendAsync(request, TestContext.Current.CancellationToken);
            return response.StatusCode;
        }
    }

    [Theory]
    [InlineData("Host", "elsewhere.example")]
    [InlineData("Host", "127.0.0.1:1")]
    [InlineData("Origin", "http://elsewhere.example")]
    [InlineData("Origin", "null")]
    [InlineData("Sec-Fetch-Site", "cross-site")]
    [InlineData("Sec-Fetch-Site", "same-site")]
    public async Task Whoever_is_not_the_own_page_is_refused_in_one_sentence(string header, string value)
    {
        (HttpStatusCode status, string type, JsonElement body) = await Ask(header, value);
        Assert.Equal(HttpStatusCode.Forbidden, status);
        Assert.Equal("application/problem+json", type);
        Assert.StartsWith("This host answers only", body.GetProperty("detail").GetString(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("Sec-Fetch-Site", "same-origin")]
    [InlineData("Sec-Fetch-Site", "none")]
    public async Task The_own_page_is_let_through_and_told_when_nothing_is_there(string header, string value) =>
        Assert.Equal(HttpStatusCode.NotFound, (await Ask(header, value)).Status);

    private static async Task<(HttpStatusCode Status, string Type, JsonElement Body)> Ask(string header, string value)
    {
        await using RunningHost host = await RunningHost.Start();
        using HttpRequestMessage request = new(HttpMethod.Get, "/api/nothing");
        request.Headers.TryAddWithoutValidation(header, value);
        using HttpResponseMessage response = await host.Client.SendAsync(request, TestContext.Current.CancellationToken);
        Assert.False(response.Headers.Contains("Access-Control-Allow-Origin"));
        using JsonDocument body = JsonDocument.Parse(await response.Content.ReadAsStringAsync(TestContext.Current.CancellationToken));
        return (response.StatusCode, response.Content.Headers.ContentType!.MediaType!, body.RootElement.Clone());
    }
}
