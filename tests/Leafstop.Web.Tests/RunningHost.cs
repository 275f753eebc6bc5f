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

    private RunningHost(TemporaryFolder? left)
    {
        (_folder, _isOwner) = (left ?? new TemporaryFolder(), left is null);
        _host = WorkbenchHost.Build(new HostWishes(_folder.File.Folder, 0)
        {
            CropFolder = Path.Combine(_folder.Path, "crops"),
            Worker = new WorkerCommand(Path.Combine(AppContext.BaseDirectory, "Leafstop.Testing.Worker"), []),
        });
    }

    public string Folder => _folder.Path;

    public RunningJudgings Judgings => _host.Services.GetRequiredService<RunningJudgings>();

    public IReadOnlyList<Endpoint> Endpoints => _host.Services.GetRequiredService<EndpointDataSource>().Endpoints;

    public DataFile File => _folder.File;

    public Uri Address => new(_host.Urls.Single());

    public HttpClient Client { get; } = new();

    /// <param name="left">A folder that is used and left as it is; null for one that goes with the host.</param>
    public static async Task<RunningHost> Start(TemporaryFolder? left = null)
    {
        RunningHost running = new(left);
        await running._host.StartAsync(TestContext.Current.CancellationToken);
        running.Client.BaseAddress = running.Address;
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
