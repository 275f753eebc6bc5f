using System.Buffers.Binary;

namespace Leafstop.Cli.Tests.Verbs.Folders;

/// <summary>The picture that cameras embed, cut out of a DNG: from its start marker to its end marker.</summary>
internal static class SmallJpeg
{
    /// <summary>The JPEG preview inside a DNG of the small bench; a lossless JPEG (marker SOF3) is passed over.</summary>
    public static byte[] Of(byte[] dng)
    {
        for (int at = 0; at + 4 < dng.Length; at++)
        {
            if (dng[at] != 0xFF || dng[at + 1] != 0xD8 || dng[at + 2] != 0xFF)
                continue;
            if (End(dng, at) is { } end)
                return dng[at..end];
        }
        throw new InvalidDataException("There is no JPEG preview in this DNG.");
    }

    private static int? End(byte[] dng, int start)
    {
        for (int at = start + 2; at + 4 < dng.Length && dng[at] == 0xFF;)
        {
            byte marker = dng[at + 1];
            if (marker == 0xC3)
                return null;
            at += 2 + BinaryPrimitives.ReadUInt16BigEndian(dng.AsSpan(at + 2));
            if (marker != 0xDA)
                continue;
            while (at + 1 < dng.Length && !(dng[at] == 0xFF && dng[at + 1] == 0xD9))
                at++;
            return at + 2;
        }
        return null;
    }
}
