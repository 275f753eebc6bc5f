using Leafstop.Core.Sensor;

namespace Leafstop.Raw.Measurement;

/// <summary>The files of a bench folder: what may be a raw, and what lies beside it.</summary>
internal sealed class FolderContents
{
    private static readonly HashSet<string> Jpegs = new(StringComparer.OrdinalIgnoreCase) { ".jpg", ".jpeg", ".jpe" };

    /// <summary>Endings of files that lie beside raws without being one; they are set aside without a fuss when they hold no raw.</summary>
    private static readonly HashSet<string> Beside = new(StringComparer.OrdinalIgnoreCase)
    {
        ".jpg", ".jpeg", ".jpe", ".png", ".tif", ".tiff", ".webp", ".gif", ".bmp", ".heic", ".heif", ".avif",
        ".xmp", ".xml", ".json", ".txt", ".md", ".csv", ".html", ".htm", ".pdf", ".log", ".ini", ".db", ".zip",
        ".mov", ".mp4", ".avi", ".mts", ".wav", ".thm",
    };

    private const int MostFoldersNamed = 3;

    private readonly string _directory;
    private int _jpegs, _unreadable;

    private FolderContents(string directory, IReadOnlyList<string> files)
    {
        _directory = directory;
        Files = files;
    }

    /// <summary>True for a name that a JPEG has.</summary>
    public static bool IsNamedJpeg(string file) => Jpegs.Contains(Path.GetExtension(file));

    /// <summary>Full paths in the order of their names; hidden files are not looked at.</summary>
    public IReadOnlyList<string> Files { get; }

    public static FolderContents Of(string directory)
    {
        if (!Directory.Exists(directory))
        {
            throw new DirectoryNotFoundException(File.Exists(directory)
                ? $"{directory} is a file. Name the folder that holds the raw files."
                : $"There is no folder {directory}.");
        }

        string[] files = [.. Directory.EnumerateFiles(Path.GetFullPath(directory)).Where(f => !Path.GetFileName(f).StartsWith('.')).Order(StringComparer.Ordinal)];
        return new FolderContents(directory, files);
    }

    /// <summary>Tells strays from raws that are broken.</summary>
    public void Sort(IEnumerable<UnreadFile> unread, Action<Finding> tell)
    {
        var aside = new List<string>();
        foreach (UnreadFile file in unread)
        {
            if (Beside.Contains(Path.GetExtension(file.File)) && HasContent(file.File))
            {
                aside.Add(file.File);
                if (IsNamedJpeg(file.File)) _jpegs++;
            }
            else
            {
                _unreadable++;
                tell(Unreadable(file));
            }
        }

        if (aside.Count > 0)
        {
            tell(new Finding(FindingCode.NotRaw, [.. aside], aside.Count == 1
                ? $"{Path.GetFileName(aside[0])} holds no raw samples and is set aside."
                : $"{aside.Count} files hold no raw samples and are set aside."));
        }
    }

    /// <summary>Says why there is nothing to measure, when there is nothing.</summary>
    public void Conclude(int frames, Action<Finding> tell)
    {
        if (frames > 0) return;
        if (_jpegs > 0)
        {
            tell(new Finding(FindingCode.JpegOnly, [],
                "There are only JPEGs here. The camera has smoothed and toned them, so no limit can be set from them. The report shows those that state their ISO side by side, to look at only; for limits, shoot the ladder again with raw files."));
            return;
        }

        if (RawsBelow() is { Length: > 0 } below)
        {
            string which = string.Join(", ", below.Take(MostFoldersNamed).Select(f => $"'{f}'")) + (below.Length > MostFoldersNamed ? $" and {below.Length - MostFoldersNamed} more" : "");
            tell(new Finding(FindingCode.NoLadder, [],
                $"{_directory} holds no raw files itself, and folders inside it are not looked into. Files that may be raws lie in {which}: measure {(below.Length == 1 ? "that folder" : "one of these")}, such as {Path.Combine(_directory, below[0])}."));
            return;
        }

        tell(new Finding(FindingCode.NoLadder, [], Files.Count == 0
            ? $"{_directory} holds no files. Copy the raw files of the bench test there."
            : _unreadable > 0
                ? $"{_directory} holds no raw file that could be read; the reason stands beside each file's name. Allow reading them, or copy them again from the card."
                : $"{_directory} holds no raw file that could be read. Copy the raw files of the bench test there."));
    }

    public static Finding Unreadable(UnreadFile file) => new(FindingCode.Unreadable, [file.File], $"{Path.GetFileName(file.File)}: {file.Why}");

    /// <summary>Names of the folders inside this one that hold files which may be raws.</summary>
    private string[] RawsBelow()
    {
        if (_unreadable > 0) return [];
        try
        {
            var rules = new EnumerationOptions { IgnoreInaccessible = true, AttributesToSkip = FileAttributes.Hidden | FileAttributes.System };
            return
            [
                .. Directory.EnumerateDirectories(_directory, "*", rules)
                    .Where(d => Directory.EnumerateFiles(d, "*", rules).Any(f => !Path.GetFileName(f).StartsWith('.') && !Beside.Contains(Path.GetExtension(f)) && HasContent(f)))
                    .Select(d => Path.GetFileName(d)).Order(StringComparer.Ordinal),
            ];
        }
        catch (Exception gone) when (gone is IOException or UnauthorizedAccessException)
        {
            return [];
        }
    }

    private static bool HasContent(string file)
    {
        try
        {
            return new FileInfo(file).Length > 0;
        }
        catch (IOException)
        {
            return false;
        }
    }
}
