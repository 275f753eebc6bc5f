namespace Leafstop.Raw.Decoding;

/// <summary>Looks at a file before the raw library does, because the library does not say why it could not open it.</summary>
internal static class FileProbe
{
    /// <summary>Checks that there is something to read and reads the exact tags.</summary>
    public static ExifFacts? Probe(string path, out long length)
    {
        try
        {
            using var file = File.OpenHandle(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
            length = RandomAccess.GetLength(file);
            if (length == 0)
                throw new UnreadableRawException(path, "The file is empty (0 bytes). Copy it again from the card.");
            return ExifReader.Read(file);
        }
        catch (UnreadableRawException)
        {
            throw;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or NotSupportedException)
        {
            throw new UnreadableRawException(path, WhyNotOpened(path, e), e);
        }
    }

    /// <summary>Reads a whole file that is known to be small enough.</summary>
    public static byte[] ReadWhole(string path)
    {
        try
        {
            return File.ReadAllBytes(path);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or NotSupportedException)
        {
            throw new UnreadableRawException(path, WhyNotOpened(path, e), e);
        }
    }

    private static string WhyNotOpened(string path, Exception e) => e switch
    {
        FileNotFoundException or DirectoryNotFoundException when path.Contains('\uFFFD', StringComparison.Ordinal) =>
            "Its name is not valid UTF-8, so it can not be opened by that name (\uFFFD stands for what is no text). Rename the file, plain letters and digits will do, and measure again.",
        FileNotFoundException or DirectoryNotFoundException => "The file is not there: it was moved, renamed or taken away with its card.",
        _ when Directory.Exists(path) => "This is a folder, not a file.",
        UnauthorizedAccessException => "You have no permission to read this file. Change its permissions or copy it to a folder of your own.",
        _ => $"The file can not be opened: {e.Message}",
    };

    /// <summary>Puts the raw library's error number into words.</summary>
    public static string Explain(string path, int error, bool unpacking) => error switch
    {
        RawLibrary.FileUnsupported => WhatItIs(path),
        RawLibrary.OutOfMemory or RawLibrary.TooBig => "The file asks for more memory than a frame can need: it is damaged, or of a kind that is not read.",
        RawLibrary.ReadError when !File.Exists(path) => "The file is not there: it was moved, renamed or taken away with its card.",
        RawLibrary.ReadError or RawLibrary.DataError when unpacking => "The samples break off: the file is cut short or damaged. Copy it again from the card.",
        RawLibrary.ReadError or RawLibrary.DataError => "The file breaks off before its samples: it is cut short or damaged. Copy it again from the card.",
        _ => $"The raw library can not read this file (its error {error}).",
    };

    private static string WhatItIs(string path)
    {
        Span<byte> head = stackalloc byte[12];
        try
        {
            using var file = File.OpenHandle(path);
            head = head[..RandomAccess.Read(file, head, 0)];
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return WhyNotOpened(path, e);
        }
        if (head is [0xff, 0xd8, 0xff, ..])
            return "This is a JPEG picture, whatever its name says: it holds no raw samples.";
        if (head is [0x89, (byte)'P', (byte)'N', (byte)'G', ..])
            return "This is a PNG picture, whatever its name says: it holds no raw samples.";
        if (head.StartsWith("II*\0"u8) || head.StartsWith("MM\0*"u8))
            return "The file is built like a TIFF but no raw samples were found in it: a finished picture, a damaged file, or a camera that is not known.";
        return "This is not a raw file that can be read: another kind of file, a damaged one, or a camera that is not known.";
    }
}
