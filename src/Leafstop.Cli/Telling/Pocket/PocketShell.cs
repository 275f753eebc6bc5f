using Leafstop.Cli.CommandLine;

namespace Leafstop.Cli.Telling.Pocket;

/// <summary>The shell of the pocket page, which lies beside the program: everything but the data.</summary>
internal static class PocketShell
{
    private const string Name = "leafstop-pocket.html", After = "</script>";

    /// <summary>The page with its data part and the answer that it opens with.</summary>
    /// <param name="data">JSON without any &lt;.</param>
    /// <exception cref="Refusal">The shell is not there, or is another one.</exception>
    public static string With(string data)
    {
        string path = Path.Combine(AppContext.BaseDirectory, Name);
        if (!File.Exists(path))
            throw new Refusal(ExitCode.OurFault, $"The shell of the pocket page, {Name}, is not beside the program: build it with scripts/build-pocket and build the program again.");
        return Filled(Filled(File.ReadAllText(path), "leafstop-data", data), "leafstop-opening", PocketOpening.Of(data));

        string Filled(string shell, string part, string json)
        {
            string before = $"<script id=\"{part}\" type=\"application/json\">";
            int from = shell.IndexOf(before, StringComparison.Ordinal), to = from < 0 ? -1 : shell.IndexOf(After, from, StringComparison.Ordinal);
            return to >= 0 && !json.Contains('<', StringComparison.Ordinal)
                ? string.Concat(shell.AsSpan(0, from + before.Length), json.AsSpan().Trim(), shell.AsSpan(to))
                : throw new Refusal(ExitCode.OurFault, $"{path} is no shell of a pocket page that this program can fill: build it anew with scripts/build-pocket.");
        }
    }
}
