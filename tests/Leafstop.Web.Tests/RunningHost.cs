using Leafstop.Raw.Decoding;
using Leafstop.Storage;
using Leafstop.Storage.Tests;
using Leafstop.Web.Features.Judgings;
using Microsoft.AspNetCore.Builder;
using Microsoft.Extensions.DependencyInjection;

namespace Leafstop.Web.Tests;

/// <summary>The real host on a free port of this machine, with a data folder of its own.</summary>
internal sealed class RunningHost : IAsyncDisposable
{
    private readonly TemporaryFolder _folder = new();
    private readonly WebApplication _host;

    private RunningHost() => _host = WorkbenchHost.Build(new HostWishes(_folder.File.Folder, 0)
    {
        CropFolder = Path.Combine(_folder.Path, "crops"),
        Worker = new WorkerCommand(Path.Combine(AppContext.BaseDirectory, "Leafstop.Testing.Worker"), []),
    });

    public string Folder => _folder.Path;

    public RunningJudgings Judgings => _host.Services.GetRequiredService<RunningJudgings>();

    public DataFile File => _folder.File;

    public Uri Address => new(_host.Urls.Single());

    public HttpClient Client { get; } = new();

    public static async Task<RunningHost> Start()
    {
        RunningHost running = new();
        await running._host.StartAsync(TestContext.Current.CancellationToken);
        running.Client.BaseAddress = running.Address;
        return running;
    }

    public async ValueTask DisposeAsync()
    {
        Client.Dispose();
        await _host.DisposeAsync();
        _folder.Dispose();
    }
}
