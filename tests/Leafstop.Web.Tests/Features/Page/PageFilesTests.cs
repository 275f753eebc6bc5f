using System.Net;
using System.Text.RegularExpressions;
using Leafstop.Storage.Tests;

namespace Leafstop.Web.Tests.Features.Page;

public sealed class PageFilesTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public PageFilesTests()
    {
        Directory.CreateDirectory(Path.Combine(_folder.Path, "page", "look"));
        File.WriteAllText(Path.Combine(_folder.Path, "page", "index.html"), "<!doctype html><!--sent-->not yet<!--sent--><script src=\"look/a.css?{mark}\"></script>");
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

    // Derived: what the page asks for under its mark is kept for good, so another content must have another address.
    [Fact]
    public async Task Files_are_kept_for_good_under_a_mark_that_changes_with_any_of_them()
    {
        string first = await Mark(), second = await Mark();
        Assert.Equal(first, second);
        File.WriteAllText(Path.Combine(_folder.Path, "page", "look", "a.css.br"), "packed anew");
        Assert.NotEqual(first, await Mark());

        async Task<string> Mark()
        {
            await using RunningHost host = await RunningHost.Start(_folder);
            using HttpResponseMessage page = await Ask(host, "/");
            Assert.True(page.Headers.CacheControl!.NoCache);
            string mark = Regex.Match(await page.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), @"a\.css\?([0-9a-f]{16})""").Groups[1].Value;
            using HttpResponseMessage kept = await Ask(host, $"/look/a.css?{mark}"), other = await Ask(host, "/look/a.css?0123456789abcdef");
            Assert.Equal("immutable, max-age=31536000, private", string.Join(", ", kept.Headers.CacheControl!.ToString().Split(", ").Order(StringComparer.Ordinal)));
            Assert.True(other.Headers.CacheControl!.NoCache);
            return mark;
        }
    }

    [Fact]
    public async Task Addresses_of_the_page_give_its_first_file_and_no_path_leads_out_of_the_folder()
    {
        await using RunningHost host = await RunningHost.Start(_folder);
        foreach (string address in new[] { "/", "/judging", "/a/b" })
        {
            using HttpResponseMessage page = await Ask(host, address);
            Assert.StartsWith("<!doctype html>", await page.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
        }
        foreach (string address in new[] { "/..%2Fsecret.txt", "/look/..%2f..%2fsecret.txt", "/%2e%2e/secret.txt", "/look/a.css.br", "/absent.js", "/index.html" })
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
