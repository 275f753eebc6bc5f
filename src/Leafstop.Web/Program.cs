using Leafstop.Web;

await using WebApplication host = WorkbenchHost.Build(HostWishes.From(args));
await host.StartAsync();
Console.WriteLine($"Leafstop answers at {host.Urls.Single()}; Ctrl-C ends it.");
await host.WaitForShutdownAsync();
