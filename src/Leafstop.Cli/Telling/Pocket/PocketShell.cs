using Leafstop.Cli.CommandLine;

namespace Leafstop.Cli.Telling.Pocket;

/// <summary>The shell of the pocket page, which lies beside the program: everything but the data.</summary>
internal static class PocketShell
{
    private const string Name = "leafstop-pocket.html", Before = "<script id=\"leafstop-data\" type=\"application/json\">", After = "</script>";

    /// <summary>The page with its data part.</summary>
    /// <param name="data">JSON without any &lt;.</param>
    /// <exception cref="Refusal">The shell is not there, or is another one.</exception>
    public static string With(string data)
    {
        string path = Path.Combine(AppContext.BaseDirectory, Name);
        if (!File.Exists(path))
            throw new Refusal(ExitCode.OurFault, $"The shell of the pocket page, {Name}, is not beside the program: build it with scripts/build-pocket and build the program again.");
        string shell = File.ReadAllText(path);
        int from = shell.IndexOf(Before, StringComparison.Ordinal), to = from < 0 ? -1 : shell.IndexOf(After, from, StringComparison.Ordinal);
        return to >= 0 && !data.Contains('<', StringComparison.Ordinal)
            ? string.Concat(shell.AsSpan(0, from + Before.Length), data.AsSpan().Trim(), shell.AsSpan(to))
            : throw new Refusal(ExitCode.OurFault, $"{path} is no shell of a pocket page that this program can fill: build it anew with scripts/build-pocket.");
    }
}
