using Leafstop.Core.Sensor;

namespace Leafstop.Cli.Telling;

/// <summary>Names of frames as they are told: without the folder that all share, with characters that would break a line made visible.</summary>
internal sealed class FrameNames
{
    private readonly string _folder;

    /// <summary>Finds the folder that all the files share.</summary>
    public FrameNames(IEnumerable<string> files)
    {
        string? shared = null;
        foreach (string file in files)
        {
            string folder = Path.GetDirectoryName(file) ?? "";
            shared = shared is null ? folder : Common(shared, folder);
        }

        _folder = shared ?? "";
    }

    /// <summary>The file name, after its sub-folder when the answer spans several.</summary>
    public string Of(string file) => file[_folder.Length..].TrimStart(Path.DirectorySeparatorChar);

    /// <summary>The name on one line: a line break or another control character is shown as U+FFFD.</summary>
    public string OnOneLine(string file) => OneLine.Of(Of(file));

    /// <summary>A few names, and how many more.</summary>
    public string Several(IReadOnlyCollection<string> files, int most = 6)
    {
        string named = string.Join(", ", files.Take(most).Select(OnOneLine));
        return files.Count > most ? $"{named} and {files.Count - most} more" : named;
    }

    /// <summary>The names that stand beside a finding; none where its words name the one file already, nor where nothing is to be done with the files.</summary>
    public string Beside(Finding finding) =>
        finding.Code == FindingCode.ClipNotAtTag || (finding.Frames is [string only] && finding.Text.StartsWith(Path.GetFileName(only), StringComparison.Ordinal)) ? "" : Several(finding.Frames);

    private static string Common(string one, string other)
    {
        while (one.Length > 0 && other != one && !other.StartsWith(one.EndsWith(Path.DirectorySeparatorChar) ? one : one + Path.DirectorySeparatorChar, StringComparison.Ordinal))
            one = Path.GetDirectoryName(one) ?? "";
        return one;
    }
}
