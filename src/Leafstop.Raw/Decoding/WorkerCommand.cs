using System.Reflection;

namespace Leafstop.Raw.Decoding;

/// <summary>How to start a program that calls <see cref="DecodingWorker.RunAsProcess"/>.</summary>
/// <param name="Executable">Path of the program.</param>
/// <param name="Arguments">What it is given, for instance the hidden word that makes it a worker.</param>
public sealed record WorkerCommand(string Executable, IReadOnlyList<string> Arguments)
{
    /// <summary>Environment variables to add or change for the worker.</summary>
    public IReadOnlyDictionary<string, string> Environment { get; init; } = new Dictionary<string, string>();

    /// <summary>A worker lives for seconds: code that was compiled ahead, or well at its first call, is not compiled again beside the decoding, and nobody traces it.</summary>
    private static readonly Dictionary<string, string> CompiledOnce = new() { ["DOTNET_TieredCompilation"] = "0", ["DOTNET_LTTng"] = "0", ["DOTNET_ThreadPool_UnfairSemaphoreSpinLimit"] = "0" };

    /// <summary>Starts the running program once more, with other arguments.</summary>
    /// <param name="arguments">What the copy is given.</param>
    /// <exception cref="InvalidOperationException">The system does not tell where the running program lies.</exception>
    public static WorkerCommand ThisProgram(params IReadOnlyList<string> arguments)
    {
        string program = System.Environment.ProcessPath
            ?? throw new InvalidOperationException("The system does not tell where this program lies, so that it can not start its own workers.");
        bool underHost = Path.GetFileNameWithoutExtension(program).Equals("dotnet", StringComparison.OrdinalIgnoreCase);
        string? assembly = Assembly.GetEntryAssembly()?.Location;
        IReadOnlyList<string> all = underHost && !string.IsNullOrEmpty(assembly) ? [assembly, .. arguments] : arguments;
        return Of(program, all);
    }

    /// <summary>Starts a program in the way that suits a worker.</summary>
    /// <param name="executable">Path of the program.</param>
    /// <param name="arguments">What it is given.</param>
    public static WorkerCommand Of(string executable, params IReadOnlyList<string> arguments) => new(executable, arguments) { Environment = CompiledOnce };
}
