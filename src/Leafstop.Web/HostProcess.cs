using Leafstop.Web.Safety;

namespace Leafstop.Web;

/// <summary>The host as a program of its own.</summary>
internal static class HostProcess
{
    /// <summary>Runs the host until it is told to end.</summary>
    /// <returns>0 for a normal end, 2 when it cannot be started as asked; the reason goes to standard error.</returns>
    public static async Task<int> RunAsync(string[] args)
    {
        HostWishes wishes;
        try
        {
            wishes = HostWishes.From(args);
        }
        catch (ArgumentException wrong)
        {
            await Console.Error.WriteLineAsync(wrong.Message.Split(" (Parameter", StringSplitOptions.None)[0]).ConfigureAwait(false);
            return 2;
        }
        await using WebApplication host = WorkbenchHost.Build(wishes);
        try
        {
            await host.StartAsync().ConfigureAwait(false);
        }
        catch (IOException) when (wishes.Port != 0)
        {
            await Console.Error.WriteLineAsync($"Port {wishes.Port} is in use or may not be used: name another, or none to take a free one.").ConfigureAwait(false);
            return 2;
        }
        Console.WriteLine($"Leafstop answers at {OwnNames.Address(host)}?{Door.KeyWord}={wishes.Key}; Ctrl-C ends it.");
        if (wishes.EndsWithInput)
            _ = EndWithInput(host);
        await host.WaitForShutdownAsync().ConfigureAwait(false);
        return 0;
    }

    private static async Task EndWithInput(WebApplication host)
    {
        await Console.OpenStandardInput().CopyToAsync(Stream.Null).ConfigureAwait(false);
        host.Lifetime.StopApplication();
    }
}
