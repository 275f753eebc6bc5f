using System.Buffers.Binary;

namespace Leafstop.Cli.Paper;

/// <summary>The letters of the type, read from its own table: cmap, format 4, of ISO/IEC 14496-22. The PDF writer draws an empty box for any other.</summary>
/// <remarks>Roman, strong and hand are cut from one family to the same letters; the roman is read.</remarks>
internal static class TypeLetters
{
    /// <summary>Their code points.</summary>
    public static IReadOnlySet<int> All { get; } = Read(PaperType.FileOf("leafstop-book.ttf")!);

    private static HashSet<int> Read(byte[] font)
    {
        int tables = U16(font, 4), cmap = Enumerable.Range(0, tables).Select(i => 12 + 16 * i).Where(at => font.AsSpan(at, 4).SequenceEqual("cmap"u8)).Select(at => U32(font, at + 8)).Single();
        int table = Enumerable.Range(0, U16(font, cmap + 2)).Select(i => cmap + U32(font, cmap + 4 + 8 * i + 4)).First(at => U16(font, at) == 4);
        int segments = U16(font, table + 6) / 2, ends = table + 14, starts = ends + 2 * segments + 2, deltas = starts + 2 * segments, offsets = deltas + 2 * segments;
        HashSet<int> letters = [];
        for (int s = 0; s < segments; s++)
        {
            int start = U16(font, starts + 2 * s), end = U16(font, ends + 2 * s), delta = U16(font, deltas + 2 * s), at = offsets + 2 * s, offset = U16(font, at);
            for (int code = start; code <= end; code++)
            {
                // An offset counts from its own place in the table.
                int glyph = offset == 0 ? code + delta : U16(font, at + offset + 2 * (code - start)) is var listed and not 0 ? listed + delta : 0;
                if ((glyph & 0xFFFF) != 0)
                    letters.Add(code);
            }
        }
        return letters;
    }

    private static int U16(byte[] font, int at) => BinaryPrimitives.ReadUInt16BigEndian(font.AsSpan(at));

    private static int U32(byte[] font, int at) => (int)BinaryPrimitives.ReadUInt32BigEndian(font.AsSpan(at));
}
