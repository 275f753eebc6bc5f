using System.Diagnostics;

namespace Leafstop.Testing;

/// <summary>What one call of the real program gave.</summary>
/// <param name="Code">Exit code.</param>
/// <param name="Out">All of stdout.</param>
/// <param name="Error">All of stderr.</param>
public sealed record Ended(int Code, string Out, string Error);

/// <summary>The built program, run as a process with a data folder of its own.</summary>
public sealed class RunningProgram : IDisposable
{
    public string Folder { get; } = Directory.CreateTempSubdirectory("leafstop-").FullName;

    public string Data => Path.Combine(Folder, "data");

    public Ended Run(params string[] args) => Run([], args);

    public Ended Run((string Name, string? Value)[] environment, params string[] args) => End(Start(environment, args));

    /// <summary>Runs it through another program, such as one that changes the user.</summary>
    public Ended RunThrough(string[] through, params string[] args) => End(Launch([], [.. through, .. Program, .. args]));

    public Process Start((string Name, string? Value)[] environment, params string[] args) => Launch(environment, [.. Program, .. args]);

    private static IReadOnlyList<string> Program => ["dotnet", Path.Combine(AppContext.BaseDirectory, "leafstop.dll")];

    private static Ended End(Process process)
    {
        using (process)
        {
            Task<string> error = process.StandardError.ReadToEndAsync();
            string output = process.StandardOutput.ReadToEnd();
            process.WaitForExit();
            return new Ended(process.ExitCode, output, error.Result);
        }
    }

    private Process Launch((string Name, string? Value)[] environment, IReadOnlyList<string> words)
    {
        ProcessStartInfo start = new(words[0], [.. words.Skip(1)])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            RedirectStandardInput = true,
            WorkingDirectory = Folder,
        };
        start.Environment["LEAFSTOP_DATA"] = Data;
        foreach ((string name, string? value) in environment)
            start.Environment[name] = value;
        Process process = Process.Start(start)!;
        process.StandardInput.Close();
        return process;
    }

    public void Dispose() => Directory.Delete(Folder, recursive: true);
}
