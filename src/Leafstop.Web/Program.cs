using Leafstop.Raw.Decoding;
using Leafstop.Web;

if (args is [HostWishes.WorkerWord])
    return DecodingWorker.RunAsProcess();
await using WebApplication host = WorkbenchHost.Build(HostWishes.From(args));
await host.StartAsync();
Console.WriteLine($"Leafstop answers at {host.Urls.Single()}; Ctrl-C ends it.");
await host.WaitForShutdownAsync();
return 0;
