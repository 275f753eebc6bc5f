using System.Globalization;
using System.IO.Hashing;
using System.Security.Cryptography;
using System.Text;

namespace Leafstop.Raw.Developed;

/// <summary>Keeps crops on disk, so that they are not decoded again. Everything in it can be made again: it may be emptied at any time.</summary>
/// <remarks>An entry is named by what it was made from (path, length and time of the file, place, size), so that a changed file is cut anew. When the entries together are
/// larger than allowed, those that were not used for longest go first. A damaged entry is removed and made again. Nothing outside the folder and nothing but *.crop is ever touched. A cache that can not be
/// written is no error: crops are then decoded each time.</remarks>
public sealed class CropCache
{
    private const string Extension = ".crop";
    private static readonly byte[] Mark = "leafstop crop 1\n"u8.ToArray();

    private readonly Lock _one = new();

    /// <summary>Opens or makes a cache.</summary>
    /// <param name="folder">Its folder; made when it is not there.</param>
    /// <param name="mostBytes">Largest size of all entries together; default 512 MiB.</param>
    /// <exception cref="ArgumentOutOfRangeException">A size below zero.</exception>
    public CropCache(string folder, long mostBytes = 512L << 20)
    {
        ArgumentException.ThrowIfNullOrEmpty(folder);
        ArgumentOutOfRangeException.ThrowIfNegative(mostBytes);
        (Folder, MostBytes) = (Path.GetFullPath(folder), mostBytes);
    }

    /// <summary>Where the entries lie.</summary>
    public string Folder { get; }

    /// <summary>Largest size of all entries together, bytes.</summary>
    public long MostBytes { get; }

    /// <summary>Size of all entries together, bytes.</summary>
    public long Bytes() => Entries().Sum(e => e.Length);

    /// <summary>Removes all entries.</summary>
    public void Empty()
    {
        lock (_one)
        {
            foreach (FileInfo entry in Entries()) Remove(entry);
        }
    }

    /// <summary>The name of what is made from a file; null when the file is not there.</summary>
    internal static string? Key(string file, string what)
    {
        var info = new FileInfo(file);
        return info.Exists ? string.Create(CultureInfo.InvariantCulture, $"{info.FullName}|{info.Length}|{info.LastWriteTimeUtc.Ticks}|{what}") : null;
    }

    /// <summary>Reads an entry; null when there is none, or a damaged one, which is removed.</summary>
    internal byte[]? Read(string? key)
    {
        if (key is null) return null;
        var entry = new FileInfo(PathOf(key));
        try
        {
            byte[] all = File.ReadAllBytes(entry.FullName);
            int head = Mark.Length + 16;
            if (all.Length >= head && all.AsSpan(0, Mark.Length).SequenceEqual(Mark) && XxHash128.Hash(all.AsSpan(head)).AsSpan().SequenceEqual(all.AsSpan(Mark.Length, 16)))
            {
                entry.LastWriteTimeUtc = DateTime.UtcNow;
                return all[head..];
            }

            Remove(entry);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // Not there, or not ours to read: it is made again.
        }

        return null;
    }

    /// <summary>Removes an entry that turned out to be of no use.</summary>
    internal void Forget(string key) => Remove(new FileInfo(PathOf(key)));

    /// <summary>Writes an entry, and removes old ones when there are too many bytes.</summary>
    internal void Write(string? key, byte[] content)
    {
        if (key is null || content.Length + Mark.Length + 16 > MostBytes) return;
        string path = PathOf(key), passing = $"{path}.{Guid.NewGuid():N}.new";
        lock (_one)
        {
            try
            {
                Directory.CreateDirectory(Folder);
                using (var file = new FileStream(passing, FileMode.CreateNew, FileAccess.Write, FileShare.None))
                {
                    file.Write(Mark);
                    file.Write(XxHash128.Hash(content));
                    file.Write(content);
                }

                // Whole or not at all: a reader never sees half an entry.
                File.Move(passing, path, overwrite: true);
                Trim();
            }
            catch (Exception e) when (e is IOException or UnauthorizedAccessException)
            {
                Remove(new FileInfo(passing));
            }
        }
    }

    private void Trim()
    {
        // What a program left behind that ended while it wrote.
        foreach (FileInfo left in new DirectoryInfo(Folder).EnumerateFiles("*" + Extension + ".*.new").Where(f => f.LastWriteTimeUtc < DateTime.UtcNow.AddHours(-1))) Remove(left);
        long total = Bytes();
        foreach (FileInfo entry in Entries().OrderBy(e => e.LastWriteTimeUtc))
        {
            if (total <= MostBytes) return;
            total -= entry.Length;
            Remove(entry);
        }
    }

    private FileInfo[] Entries()
    {
        try
        {
            return [.. new DirectoryInfo(Folder).EnumerateFiles("*" + Extension)];
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return [];
        }
    }

    private static void Remove(FileInfo entry)
    {
        try
        {
            entry.Delete();
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // In use, or gone already.
        }
    }

    private string PathOf(string key) => Path.Combine(Folder, Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(key)).AsSpan(0, 16)) + Extension);
}
