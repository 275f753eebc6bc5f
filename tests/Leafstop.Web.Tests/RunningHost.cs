using System.Net.Http.Headers;
using Leafstop.Raw.Decoding;
using Leafstop.Storage;
using Leafstop.Storage.Tests;
using Leafstop.Web.Features.Judgings;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;

namespace Leafstop.Web.Tests;

/// <summary>The real host on a free port of this machine, with a data folder of its own, or one that another host has left.</summary>
internal sealed class RunningHost : IAsyncDisposable
{
    private readonly TemporaryFolder _folder;
    private readonly bool _isOwner;
    private readonly WebApplication _host;

    private RunningHost(TemporaryFolder? left, Func<HostWishes, HostWishes>? change)
    {
        (_folder, _isOwner) = (left ?? new TemporaryFolder(), left is null);
        Wishes = new HostWishes(_folder.File.Folder, 0)
        {
            Folders = [_folder.Path],
            CropFolder = Path.Combine(_folder.Path, "crops"),
            PageFolder = Path.Combine(_folder.Path, "page"),
            Worker = new WorkerCommand(Path.Combine(AppContext.BaseDirectory, "Leafstop.Testing.Worker"), []),
        };
        Wishes = change?.Invoke(Wishes) ?? Wishes;
        _host = WorkbenchHost.Build(Wishes);
    }

    public HostWishes Wishes { get; }

    public string Folder => _folder.Path;

    public RunningJudgings Judgings => _host.Services.GetRequiredService<RunningJudgings>();

    public DecodingTurn Turn => _host.Services.GetRequiredService<DecodingTurn>();

    public IReadOnlyList<Endpoint> Endpoints => _host.Services.GetRequiredService<EndpointDataSource>().Endpoints;

    public DataFile File => _folder.File;

    public Uri Address => new(_host.Urls.Single());

    /// <summary>A program that has the key.</summary>
    public HttpClient Client { get; } = new();

    /// <param name="left">A folder that is used and left as it is; null for one that goes with the host.</param>
    /// <param name="change">What is started otherwise than usual.</param>
    public static async Task<RunningHost> Start(TemporaryFolder? left = null, Func<HostWishes, HostWishes>? change = null)
    {
        RunningHost running = new(left, change);
        await running._host.StartAsync(TestContext.Current.CancellationToken);
        running.Client.BaseAddress = running.Address;
        running.Client.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", running.Wishes.Key);
        return running;
    }

    public async ValueTask DisposeAsync()
    {
        Client.Dispose();
        await _host.DisposeAsync();
        if (_isOwner)
            _folder.Dispose();
    }
}
