namespace Leafstop.Web.Safety;

/// <summary>The folders that the person named when the host was started. Nothing outside them is listed or opened, whatever way a path takes there.</summary>
internal sealed class NamedFolders(IEnumerable<string> named)
{
    // As many as Linux follows.
    private const int MostLinks = 40;

    /// <summary>Their real paths, in the order they were named; those that are not there are left out.</summary>
    public IReadOnlyList<string> All { get; } = [.. named.Where(Directory.Exists).Select(Real).OfType<string>().Distinct(StringComparer.Ordinal)];

    /// <summary>The real path of a folder that is there, links followed, when it is one of these or lies in one; else null.</summary>
    /// <param name="path">A full path, as it came in.</param>
    public string? Find(string? path)
    {
        if (string.IsNullOrWhiteSpace(path) || path.Contains('\0') || !Path.IsPathFullyQualified(path))
            return null;
        // What is not below a named folder by its name is not even looked for, unless a link leads to it from there.
        return Real(path) is { } real && All.Any(n => IsIn(real, n)) && Directory.Exists(real) ? real : null;
    }

    /// <summary>The sentence for a folder that may not be opened.</summary>
    public string Refusal(string? folder) => All.Count == 0
        ? "folder: no folder was named when this was started: start it with leafstop serve DIR, DIR being a folder that holds your raw files."
        : $"folder: \"{folder}\" is not a folder in {string.Join(" or ", All.Select(a => $"\"{a}\""))}: choose one there, or start this again with leafstop serve DIR.";

    private static bool IsIn(string path, string folder) =>
        path == folder || path.StartsWith(Path.EndsInDirectorySeparator(folder) ? folder : folder + Path.DirectorySeparatorChar, StringComparison.Ordinal);

    /// <summary>A path with every link in it followed; null when links lead in a circle or cannot be read.</summary>
    private static string? Real(string path)
    {
        try
        {
            string full = Path.GetFullPath(path), at = Path.GetPathRoot(full)!;
            Queue<string> left = new(Parts(full));
            for (int links = 0; left.TryDequeue(out string? part);)
            {
                string next = Path.Combine(at, part);
                if (new DirectoryInfo(next).LinkTarget is not { } target)
                {
                    at = next;
                    continue;
                }
                if (++links > MostLinks)
                    return null;
                string led = Path.GetFullPath(target, at);
                at = Path.GetPathRoot(led)!;
                left = new([.. Parts(led), .. left]);
            }
            return Path.TrimEndingDirectorySeparator(at);
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }

    private static string[] Parts(string full) =>
        full[Path.GetPathRoot(full)!.Length..].Split(Path.DirectorySeparatorChar, StringSplitOptions.RemoveEmptyEntries);
}
