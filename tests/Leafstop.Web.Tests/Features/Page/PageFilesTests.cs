using System.Net;
using Leafstop.Storage.Tests;

namespace Leafstop.Web.Tests.Features.Page;

public sealed class PageFilesTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public PageFilesTests()
    {
        Directory.CreateDirectory(Path.Combine(_folder.Path, "page", "look"));
        File.WriteAllText(Path.Combine(_folder.Path, "page", "index.html"), "<!doctype html>");
        File.WriteAllText(Path.Combine(_folder.Path, "page", "look", "a.css"), "plain");
        File.WriteAllText(Path.Combine(_folder.Path, "page", "look", "a.css.br"), "packed");
        File.WriteAllText(Path.Combine(_folder.Path, "secret.txt"), "secret");
    }

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task Files_come_packed_to_whoever_takes_them_so_and_only_once()
    {
        await using RunningHost host = await RunningHost.Start(_folder);
        using HttpResponseMessage plain = await Ask(host, "/look/a.css");
        Assert.Equal("plain", await plain.Content.ReadAsStringAsync(TestContext.Current.CancellationToken));
        using HttpResponseMessage packed = await Ask(host, "/look/a.css", ("Accept-Encoding", "gzip, br"));
        Assert.Equal("packed", await packed.Content.ReadAsStringAsync(TestContext.Current.CancellationToken));
        Assert.Equal(["br"], packed.Content.Headers.ContentEncoding);
        Assert.Equal("text/css", packed.Content.Headers.ContentType!.MediaType);
        Assert.NotEqual(plain.Headers.ETag, packed.Headers.ETag);
        using HttpResponseMessage again = await Ask(host, "/look/a.css", ("Accept-Encoding", "gzip, br"), ("If-None-Match", packed.Headers.ETag!.Tag));
        Assert.Equal(HttpStatusCode.NotModified, again.StatusCode);
    }

    [Fact]
    public async Task Addresses_of_the_page_give_its_first_file_and_no_path_leads_out_of_the_folder()
    {
        await using RunningHost host = await RunningHost.Start(_folder);
        foreach (string address in new[] { "/", "/judging", "/a/b" })
        {
            using HttpResponseMessage page = await Ask(host, address);
            Assert.Equal("<!doctype html>", await page.Content.ReadAsStringAsync(TestContext.Current.CancellationToken));
        }
        foreach (string address in new[] { "/..%2Fsecret.txt", "/look/..%2f..%2fsecret.txt", "/%2e%2e/secret.txt", "/look/a.css.br", "/absent.js" })
        {
            using HttpResponseMessage nothing = await Ask(host, address);
            Assert.Equal(HttpStatusCode.NotFound, nothing.StatusCode);
        }
    }

    private static async Task<HttpResponseMessage> Ask(RunningHost host, string address, params (string Name, string Value)[] headers)
    {
        using HttpRequestMessage request = new(HttpMethod.Get, address);
        foreach ((string name, string value) in headers)
            request.Headers.TryAddWithoutValidation(name, value);
        return await host.Client.SendAsync(request, TestContext.Current.CancellationToken);
    }
}
