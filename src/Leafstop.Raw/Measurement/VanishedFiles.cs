using Leafstop.Core.Sensor;

namespace Leafstop.Raw.Measurement;

/// <summary>Files that were there when the folder was listed and are gone now, as when a card is pulled: told once, not once a file.</summary>
/// <param name="folder">The folder that is measured.</param>
public sealed class VanishedFiles(string folder)
{
    private readonly Lock _one = new();
    private bool _isTold;

    /// <summary>False for a file that is gone when one was told before.</summary>
    public bool IsNews(Finding finding)
    {
        if (!IsGone(finding))
            return true;
        lock (_one)
        {
            bool first = !_isTold;
            _isTold = true;
            return first;
        }
    }

    /// <summary>The answer with all files that are gone in one finding.</summary>
    public BenchAnswer Gathered(BenchAnswer answer)
    {
        Finding[] gone = [.. answer.Findings.Where(IsGone)];
        bool isThere = Directory.Exists(folder);
        if (gone.Length == 0 || (gone.Length == 1 && isThere))
            return answer;
        string text = isThere
            ? $"{gone.Length} files are no longer there: they were moved or taken away while they were read. Put them back and measure again."
            : $"The folder went away while it was read, and {gone.Length} of its files with it. Put it back, or the card or disk that it lies on, and measure again.";
        Finding all = gone[0] with { Code = isThere ? FindingCode.Unreadable : FindingCode.FolderGone, Frames = [.. gone.SelectMany(g => g.Frames)], Text = text };
        Finding[] told = [.. answer.Findings.Select(f => f == gone[0] ? all : f).Where(f => f == all || !IsGone(f))];
        return answer with { Findings = isThere ? [.. told] : [all, .. told.Where(f => f != all)] };
    }

    // A name with U+FFFD may stand for bytes that are no text; such a file is there, under a name that cannot be asked for.
    private static bool IsGone(Finding finding) =>
        finding is { Code: FindingCode.Unreadable, Frames: [string file] } && !file.Contains('\uFFFD', StringComparison.Ordinal) && !File.Exists(file);
}
