using System.Diagnostics;
using Leafstop.Cli.CommandLine;

namespace Leafstop.Cli.Serving;

/// <summary>The host of the workbench, which is a program of its own beside this one and needs the ASP.NET Core runtime of the machine.</summary>
internal static class HostProgram
{
    private static readonly string Name = OperatingSystem.IsWindows() ? "Leafstop.Web.exe" : "Leafstop.Web";

    /// <summary>Starts it. It ends when its standard input does, so that it does not outlive this program however that ends.</summary>
    /// <exception cref="Refusal">It is not there or cannot be started.</exception>
    public static Process Start(IReadOnlyList<string> arguments)
    {
        string program = Path.Combine(AppContext.BaseDirectory, "host", Name);
        if (!File.Exists(program))
            throw new Refusal(ExitCode.OurFault, $"The host of the workbench is not beside this program ({program}). ./leafstop builds both.");
        ProcessStartInfo start = new(program, [.. arguments, "--until-input-ends"]) { RedirectStandardInput = true, RedirectStandardOutput = true, RedirectStandardError = true };
        // The program looks for the runtime in a few known places only; where the SDK was put elsewhere, "dotnet" on the path tells.
        if (Environment.GetEnvironmentVariable("DOTNET_ROOT") is null && RuntimeFolder() is { } root)
            start.Environment["DOTNET_ROOT"] = root;
        try
        {
            return Process.Start(start)!;
        }
        catch (System.ComponentModel.Win32Exception fault)
        {
            throw new Refusal(ExitCode.OurFault, $"The host of the workbench cannot be started: {fault.Message}");
        }
    }

    private static string? RuntimeFolder() => (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator)
        .Where(Path.IsPathFullyQualified)
        .Select(folder => new FileInfo(Path.Combine(folder, OperatingSystem.IsWindows() ? "dotnet.exe" : "dotnet")))
        .Where(file => file.Exists)
        .Select(file => Path.GetDirectoryName(file.ResolveLinkTarget(returnFinalTarget: true)?.FullName ?? file.FullName))
        .FirstOrDefault(folder => folder is not null && Directory.Exists(Path.Combine(folder, "shared", "Microsoft.AspNetCore.App")));
}
