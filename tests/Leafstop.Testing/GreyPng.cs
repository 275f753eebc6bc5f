using System.Buffers.Binary;
using System.IO.Compression;

namespace Leafstop.Testing;

/// <summary>Reads the one kind of PNG that the sensor samples are: 16-bit grey, not interlaced (W3C PNG specification, filters 0 to 4).</summary>
public static class GreyPng
{
    /// <summary>All samples, row by row.</summary>
    public static (ushort[] Samples, int Width, int Height) Read(string path)
    {
        byte[] file = File.ReadAllBytes(path);
        using var packed = new MemoryStream();
        int width = 0, height = 0;
        for (int at = 8; at < file.Length;)
        {
            int length = BinaryPrimitives.ReadInt32BigEndian(file.AsSpan(at));
            ReadOnlySpan<byte> kind = file.AsSpan(at + 4, 4), body = file.AsSpan(at + 8, length);
            if (kind.SequenceEqual("IHDR"u8))
            {
                (width, height) = (BinaryPrimitives.ReadInt32BigEndian(body), BinaryPrimitives.ReadInt32BigEndian(body[4..]));
                if (body[8] != 16 || body[9] != 0 || body[12] != 0) throw new InvalidDataException($"{path}: not 16-bit grey.");
            }
            else if (kind.SequenceEqual("IDAT"u8))
            {
                packed.Write(body);
            }

            at += 12 + length;
        }

        packed.Position = 0;
        using var unpacked = new ZLibStream(packed, CompressionMode.Decompress);
        var samples = new ushort[width * height];
        byte[] row = new byte[2 * width], above = new byte[2 * width];
        for (int y = 0; y < height; y++)
        {
            int filter = unpacked.ReadByte();
            unpacked.ReadExactly(row);
            for (int i = 0; i < row.Length; i++)
            {
                int left = i >= 2 ? row[i - 2] : 0, up = above[i], corner = i >= 2 ? above[i - 2] : 0;
                row[i] += (byte)(filter switch { 0 => 0, 1 => left, 2 => up, 3 => (left + up) / 2, 4 => Paeth(left, up, corner), _ => throw new InvalidDataException() });
            }

            for (int x = 0; x < width; x++) samples[y * width + x] = BinaryPrimitives.ReadUInt16BigEndian(row.AsSpan(2 * x));
            (row, above) = (above, row);
        }

        return (samples, width, height);
    }

    private static int Paeth(int left, int up, int corner)
    {
        int p = left + up - corner, a = Math.Abs(p - left), b = Math.Abs(p - up), c = Math.Abs(p - corner);
        return a <= b && a <= c ? left : b <= c ? up : corner;
    }
}
