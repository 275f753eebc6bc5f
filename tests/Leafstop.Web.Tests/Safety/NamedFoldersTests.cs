using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using Leafstop.Storage.Tests;
using Leafstop.Web.Safety;
using Leafstop.Web.Tests.Features.Judgings;

namespace Leafstop.Web.Tests.Safety;

/// <summary>Derived: nothing outside the folders that the person named is opened, on whatever way.</summary>
public sealed class NamedFoldersTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();
    private readonly string _named;
    private readonly NamedFolders _folders;

    public NamedFoldersTests()
    {
        _named = Path.Combine(_folder.Path, "named");
        Directory.CreateDirectory(Path.Combine(_named, "bench"));
        Directory.CreateDirectory(Path.Combine(_folder.Path, "named-not"));
        Directory.CreateDirectory(Path.Combine(_folder.Path, "secret", "inside"));
        Directory.CreateSymbolicLink(Path.Combine(_named, "out"), Path.Combine("..", "secret"));
        Directory.CreateSymbolicLink(Path.Combine(_folder.Path, "in"), Path.Combine(_named, "bench"));
        Directory.CreateSymbolicLink(Path.Combine(_named, "circle"), Path.Combine(_named, "circle"));
        _folders = new NamedFolders([_named, Path.Combine(_folder.Path, "not there")]);
    }

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void A_folder_in_a_named_one_is_found_under_its_real_path()
    {
        Assert.Equal([_named], _folders.All);
        Assert.Equal(_named, _folders.Find(_named + "/"));
        Assert.Equal(Path.Combine(_named, "bench"), _folders.Find(Path.Combine(_named, "bench", "..", "bench")));
        Assert.Equal(Path.Combine(_named, "bench"), _folders.Find(Path.Combine(_folder.Path, "in")));
    }

    [Theory]
    [InlineData("named/../secret")]
    [InlineData("named/out")]
    [InlineData("named/out/inside")]
    [InlineData("named/circle")]
    [InlineData("named-not")]
    [InlineData("named/absent")]
    [InlineData("named/\0")]
    [InlineData("")]
    public void All_others_are_not(string path) => Assert.Null(_folders.Find(path.Length == 0 ? path : _folder.Path + "/" + path));

    [Fact]
    public async Task The_host_lists_and_judges_only_there_and_says_so()
    {
        await using RunningHost host = await RunningHost.Start(_folder, wishes => wishes with { Folders = [_named] });
        JsonElement first = await host.Client.GetFromJsonAsync<JsonElement>("/api/folders", TestContext.Current.CancellationToken);
        Assert.Equal(_named, Assert.Single(first.GetProperty("folders").EnumerateArray()).GetProperty("path").GetString());
        JsonElement within = await host.Client.GetFromJsonAsync<JsonElement>($"/api/folders?path={Uri.EscapeDataString(_named)}", TestContext.Current.CancellationToken);
        Assert.Equal(["bench"], within.GetProperty("folders").EnumerateArray().Select(f => f.GetProperty("name").GetString()));
        Assert.Equal(JsonValueKind.Null, within.GetProperty("above").ValueKind);

        string secret = Path.Combine(_folder.Path, "secret");
        Assert.Contains("is not a folder in", await JudgingBench.Refused(
            await host.Client.GetAsync($"/api/folders?path={Uri.EscapeDataString(secret)}", TestContext.Current.CancellationToken), HttpStatusCode.BadRequest), StringComparison.Ordinal);
        Assert.Contains("is not a folder in", await JudgingBench.Refused(
            await host.Client.PostAsJsonAsync(
                "/api/judgings", new { folder = Path.Combine(_named, "out"), camera = "Body A", printWidthMm = 120, viewingDistanceMm = 600, screenPixelsPerCentimetre = 50 }, TestContext.Current.CancellationToken),
            HttpStatusCode.BadRequest), StringComparison.Ordinal);
    }
}
