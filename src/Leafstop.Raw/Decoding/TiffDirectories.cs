using System.Buffers.Binary;
using System.Text;
using Microsoft.Win32.SafeHandles;

namespace Leafstop.Raw.Decoding;

/// <summary>Walks the directories of a TIFF structure, bounded against files that are damaged or hostile.</summary>
internal sealed class TiffDirectories
{
    private const int MostDirectories = 64, MostEntries = 2000, SearchBytes = 64 * 1024;

    private readonly SafeFileHandle _file;
    private readonly long _start;
    private readonly bool _bigEndian;

    private TiffDirectories(SafeFileHandle file, long start, bool bigEndian)
    {
        _file = file;
        _start = start;
        _bigEndian = bigEndian;
    }

    /// <summary>Finds the structure at the start of the file, or in an EXIF block near it.</summary>
    public static TiffDirectories? Find(SafeFileHandle file)
    {
        var head = new byte[SearchBytes];
        int got = RandomAccess.Read(file, head, 0);
        var seen = head.AsSpan(0, got);
        if (IsHeader(seen))
            return new TiffDirectories(file, 0, seen[0] == 'M');
        int block = seen.IndexOf("Exif\0\0"u8);
        if (block < 0 || !IsHeader(seen[(block + 6)..]))
            return null;
        return new TiffDirectories(file, block + 6, seen[block + 6] == 'M');
    }

    private static bool IsHeader(ReadOnlySpan<byte> bytes) =>
        bytes.Length >= 8 && (bytes.StartsWith("II*\0"u8) || bytes.StartsWith("MM\0*"u8));

    /// <summary>All directories: the chain from the header and what its entries of the given tags point to, in the order found.</summary>
    public List<Dictionary<int, TiffEntry>> ReadAll(params int[] pointingTags)
    {
        var all = new List<Dictionary<int, TiffEntry>>();
        var visited = new HashSet<long>();
        var waiting = new Queue<long>();
        Span<byte> header = stackalloc byte[8];
        if (!Fill(0, header))
            return all;
        waiting.Enqueue(Unsigned(header[4..], 4));
        while (waiting.TryDequeue(out long at) && all.Count < MostDirectories)
        {
            if (at < 8 || !visited.Add(at) || Directory(at, out long next) is not { } directory)
                continue;
            all.Add(directory);
            foreach (int tag in pointingTags)
                foreach (long target in directory.GetValueOrDefault(tag)?.WholeNumbers(this) ?? [])
                    waiting.Enqueue(target);
            waiting.Enqueue(next);
        }
        return all;
    }

    private Dictionary<int, TiffEntry>? Directory(long at, out long next)
    {
        next = 0;
        Span<byte> count = stackalloc byte[2];
        if (!Fill(at, count) || (int)Unsigned(count, 2) is var entries && entries > MostEntries)
            return null;
        var bytes = new byte[12 * entries + 4];
        bool whole = Fill(at + 2, bytes);
        if (!whole && !Fill(at + 2, bytes.AsSpan(0, 12 * entries)))
            return null;
        var directory = new Dictionary<int, TiffEntry>();
        for (int i = 0; i < entries; i++)
        {
            var entry = bytes.AsSpan(12 * i, 12);
            directory.TryAdd((int)Unsigned(entry, 2),
                new TiffEntry((int)Unsigned(entry[2..], 2), Unsigned(entry[4..], 4), entry[8..].ToArray()));
        }
        next = whole ? Unsigned(bytes.AsSpan(12 * entries), 4) : 0;
        return directory;
    }

    /// <summary>Reads bytes at a place counted from the start of the structure; false when they are not all there.</summary>
    public bool Fill(long at, Span<byte> bytes) => at >= 0 && RandomAccess.Read(_file, bytes, _start + at) == bytes.Length;

    /// <summary>A whole number of 1, 2 or 4 bytes in the structure's byte order.</summary>
    public long Unsigned(ReadOnlySpan<byte> bytes, int width) => (width, _bigEndian) switch
    {
        (1, _) => bytes[0],
        (2, true) => BinaryPrimitives.ReadUInt16BigEndian(bytes),
        (2, false) => BinaryPrimitives.ReadUInt16LittleEndian(bytes),
        (_, true) => BinaryPrimitives.ReadUInt32BigEndian(bytes),
        _ => BinaryPrimitives.ReadUInt32LittleEndian(bytes),
    };
}

/// <summary>One entry of a directory: its type number, how many values, and the four bytes that hold or point to them.</summary>
internal sealed record TiffEntry(int Type, long Count, byte[] Field)
{
    private const int MostValues = 1 << 20;

    private int Width => Type switch { 1 or 2 or 6 or 7 => 1, 3 or 8 => 2, 4 or 9 or 11 or 13 => 4, 5 or 10 or 12 => 8, _ => 0 };

    private byte[]? Bytes(TiffDirectories tiff, long most)
    {
        long size = Math.Min(Count, most) * Width;
        if (size <= 0)
            return null;
        if (Count * Width <= 4)
            return Field;
        var bytes = new byte[size];
        return tiff.Fill(tiff.Unsigned(Field, 4), bytes) ? bytes : null;
    }

    /// <summary>The first value; null when it is missing, not a number or a fraction over zero.</summary>
    public double? Number(TiffDirectories tiff) => Numbers(tiff, 1) is [var first, ..] && !double.IsNaN(first) ? first : null;

    /// <summary>All values; a fraction over zero is NaN; empty for text and types of other shapes.</summary>
    public double[] Numbers(TiffDirectories tiff, long most = MostValues)
    {
        if (Type is 2 or 7 or 12 || Bytes(tiff, most) is not { } bytes)
            return [];
        var values = new double[Math.Min(Math.Min(Count, most), bytes.Length / Width)];
        for (int i = 0; i < values.Length; i++)
            values[i] = Value(tiff, bytes.AsSpan(i * Width));
        return values;
    }

    private double Value(TiffDirectories tiff, ReadOnlySpan<byte> bytes)
    {
        if (Type == 11)
            return BitConverter.UInt32BitsToSingle((uint)tiff.Unsigned(bytes, 4));
        if (Type is not (5 or 10))
            return tiff.Unsigned(bytes, Width);
        long above = tiff.Unsigned(bytes, 4), below = tiff.Unsigned(bytes[4..], 4);
        if (below == 0)
            return double.NaN;
        return Type == 5 ? above / (double)below : unchecked((int)above) / (double)unchecked((int)below);
    }

    /// <summary>All values of an entry of whole numbers; empty for other types.</summary>
    public long[] WholeNumbers(TiffDirectories tiff)
    {
        if (Type is not (3 or 4 or 13) || Bytes(tiff, MostValues) is not { } bytes)
            return [];
        var values = new long[Math.Min(Count, bytes.Length / Width)];
        for (int i = 0; i < values.Length; i++)
            values[i] = tiff.Unsigned(bytes.AsSpan(i * Width), Width);
        return values;
    }

    /// <summary>The text of an entry of text; null for other types.</summary>
    public string? Text(TiffDirectories tiff) =>
        Type == 2 && Bytes(tiff, 256) is { } bytes ? Encoding.UTF8.GetString(bytes.AsSpan(0, (int)Math.Min(Count, bytes.Length))).TrimEnd('\0') : null;
}
