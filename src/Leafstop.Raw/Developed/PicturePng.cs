using System.Buffers.Binary;
using System.IO.Compression;
using System.IO.Hashing;
using Leafstop.Core.Developing;

namespace Leafstop.Raw.Developed;

/// <summary>Developed pictures as PNG files, eight bits, sRGB, not compressed: the length of a file tells the size of its picture and nothing about the noise in it.</summary>
/// <remarks>Noise hardly compresses, and so the length of a compressed picture would tell the level to whoever judges it blind. It is also the quickest way, and somebody waits. Chunks after the PNG
/// specification (third edition): the rendering of sRGB is stated, no other metadata.</remarks>
internal static class PicturePng
{
    private static readonly byte[] Mark = [0x89, (byte)'P', (byte)'N', (byte)'G', 0x0D, 0x0A, 0x1A, 0x0A];

    /// <summary>Encodes a picture.</summary>
    /// <param name="picture">Linear sRGB.</param>
    public static byte[] Of(LinearPicture picture)
    {
        byte[] shown = picture.Bytes();
        int line = 3 * picture.Width;
        using var png = new MemoryStream(shown.Length + picture.Height + 1024);
        png.Write(Mark);
        Span<byte> head = stackalloc byte[13];
        BinaryPrimitives.WriteInt32BigEndian(head, picture.Width);
        BinaryPrimitives.WriteInt32BigEndian(head[4..], picture.Height);
        // Eight bits of red, green and blue; deflate, the one set of filters, no interlacing.
        (head[8], head[9]) = (8, 2);
        Chunk(png, "IHDR"u8, head);
        // Perceptual rendering.
        Chunk(png, "sRGB"u8, [0]);
        using var packed = new MemoryStream(shown.Length + picture.Height + 512);
        using (var zip = new ZLibStream(packed, CompressionLevel.NoCompression, leaveOpen: true))
        {
            byte[] rows = new byte[picture.Height * (line + 1)];
            // Each row begins with its filter: none.
            for (int y = 0; y < picture.Height; y++) shown.AsSpan(y * line, line).CopyTo(rows.AsSpan(y * (line + 1) + 1));
            zip.Write(rows);
        }

        Chunk(png, "IDAT"u8, packed.GetBuffer().AsSpan(0, (int)packed.Length));
        Chunk(png, "IEND"u8, []);
        return png.ToArray();
    }

    private static void Chunk(MemoryStream png, ReadOnlySpan<byte> name, ReadOnlySpan<byte> content)
    {
        Span<byte> number = stackalloc byte[4];
        BinaryPrimitives.WriteInt32BigEndian(number, content.Length);
        png.Write(number);
        png.Write(name);
        png.Write(content);
        var check = new Crc32();
        check.Append(name);
        check.Append(content);
        BinaryPrimitives.WriteUInt32BigEndian(number, check.GetCurrentHashAsUInt32());
        png.Write(number);
    }
}
