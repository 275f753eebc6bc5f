using System.Diagnostics;
using System.Globalization;
using Leafstop.Cli.CommandLine;

namespace Leafstop.Cli.Serving;

/// <summary>How the workbench is opened.</summary>
/// <param name="DataFolder">Folder of the data file.</param>
/// <param name="Folders">Folders that the page may open.</param>
internal sealed record WorkbenchWish(string DataFolder, IReadOnlyList<string> Folders)
{
    /// <summary>Port; 0 takes a free one.</summary>
    public int Port { get; init; }

    /// <summary>True to answer other machines of the network too.</summary>
    public bool IsForNetwork { get; init; }

    /// <summary>The page to begin with, without a slash before it.</summary>
    public string Page { get; init; } = "";

    /// <summary>True to open the browser.</summary>
    public bool OpensBrowser { get; init; } = true;

    /// <summary>True to write the address as JSON.</summary>
    public bool IsJson { get; init; }

    /// <summary>True to leave out remarks.</summary>
    public bool IsQuiet { get; init; }
}

/// <summary>The workbench from its start to Ctrl-C.</summary>
internal static class Workbench
{
    // Less than the patience of the stop signal, after which this process is ended with what it holds.
    private const int MillisecondsToEnd = 700;

    /// <summary>Starts the host, tells its address and waits for Ctrl-C.</summary>
    /// <exception cref="Refusal">A folder is not there, or the host does not start.</exception>
    public static int Serve(WorkbenchWish wish, Surroundings say)
    {
        if (wish.Folders.FirstOrDefault(f => !Directory.Exists(f)) is { } absent)
            throw Refusal.WrongCall($"There is no folder '{absent}'.");
        using Process host = HostProgram.Start(
        [
            wish.DataFolder, wish.Port.ToString(CultureInfo.InvariantCulture),
            .. wish.Folders.SelectMany(f => new[] { "--folder", Path.GetFullPath(f) }),
            .. wish.IsForNetwork ? ["--lan"] : Array.Empty<string>(),
        ]);
        try
        {
            string address = Address(host);
            if (wish.Page.Length > 0)
                address = address.Replace("/?", $"/{wish.Page}{(wish.Page.Contains('?') ? "&" : "?")}", StringComparison.Ordinal);
            Tell(wish, address, say);
            if (wish.OpensBrowser)
                OpenBrowser(address);
            host.WaitForExitAsync(say.Stop).GetAwaiter().GetResult();
            throw new Refusal(ExitCode.OurFault, $"The host of the workbench ended by itself: {OneLine.Of(host.StandardError.ReadToEnd().Trim())}");
        }
        catch (OperationCanceledException) when (say.Stop.IsCancellationRequested)
        {
            // Ctrl-C is how this is meant to end.
            return ExitCode.Done;
        }
        finally
        {
            End(host);
        }
    }

    private static void Tell(WorkbenchWish wish, string address, Surroundings say)
    {
        if (wish.IsJson)
        {
            say.Out.Write(JsonText.Of(json =>
            {
                json.WriteStartObject();
                json.WriteString("address", address);
                json.WriteStartArray("folders");
                foreach (string folder in wish.Folders)
                    json.WriteStringValue(Path.GetFullPath(folder));
                json.WriteEndArray();
                json.WriteEndObject();
            }));
        }
        else
        {
            say.Out.WriteLine($"The workbench is at {address}");
            say.Out.WriteLine("The key in this address opens it; Ctrl-C ends it.");
        }
        say.Out.Flush();
        if (wish.IsForNetwork && !wish.IsQuiet)
            say.Error.WriteLine("leafstop: --lan: every machine in this network that has this address sees your frames and can answer for you, and what is sent can be read on the way. Leave it on no longer than you need it.");
        if (wish.Folders.Count == 0 && !wish.IsQuiet)
            say.Error.WriteLine("leafstop: no folder is named, so the page can open none. leafstop serve DIR names one.");
    }

    private static string Address(Process host)
    {
        // "Leafstop answers at http://127.0.0.1:40123/?key=…; Ctrl-C ends it."
        if (host.StandardOutput.ReadLine() is { } line && line.Split(' ') is [_, _, _, var address, ..])
            return address.TrimEnd(';');
        string why = OneLine.Of(host.StandardError.ReadToEnd().Trim());
        host.WaitForExit();
        throw new Refusal(host.ExitCode == ExitCode.WrongCall ? ExitCode.WrongCall : ExitCode.OurFault, why.Length > 0 ? why : "The host of the workbench did not start.");
    }

    /// <summary>Best effort: where there is no desktop, the address is there to be opened by hand.</summary>
    private static void OpenBrowser(string address)
    {
        bool hasDesktop = !OperatingSystem.IsLinux() || Environment.GetEnvironmentVariable("DISPLAY") is { Length: > 0 } || Environment.GetEnvironmentVariable("WAYLAND_DISPLAY") is { Length: > 0 };
        if (!hasDesktop)
            return;
        try
        {
            ProcessStartInfo start = OperatingSystem.IsWindows() ? new(address) { UseShellExecute = true }
                : new(OperatingSystem.IsMacOS() ? "open" : "xdg-open", [address]) { RedirectStandardOutput = true, RedirectStandardError = true };
            Process.Start(start)?.Dispose();
        }
        catch (Exception fault) when (fault is System.ComponentModel.Win32Exception or InvalidOperationException)
        {
            // There is no such program here.
        }
    }

    private static void End(Process host)
    {
        if (host.HasExited)
            return;
        host.StandardInput.Close();
        if (!host.WaitForExit(MillisecondsToEnd))
            host.Kill(entireProcessTree: true);
    }
}
