using System.Buffers.Binary;
using System.Runtime.InteropServices;
using SkiaSharp;

namespace Leafstop.Raw.Crops;

/// <summary>Square pictures as PNG files, each pixel shown several times over.</summary>
internal static class EnlargedPng
{
    /// <summary>Enlarges by <see cref="CropGrid.Enlargement"/> without smoothing and encodes.</summary>
    /// <param name="pixels">Encoded values, one byte a channel, row by row.</param>
    /// <param name="side">Pixels along the picture before it is enlarged.</param>
    /// <param name="channels">1 for grey, 3 for red, green and blue.</param>
    /// <exception cref="ArgumentOutOfRangeException">The picture would be larger than <see cref="CropPicture.MostSide"/>.</exception>
    public static byte[] Of(ReadOnlySpan<byte> pixels, int side, int channels)
    {
        int large = side * CropGrid.Enlargement;
        ArgumentOutOfRangeException.ThrowIfGreaterThan(large, CropPicture.MostSide, nameof(side));
        using var picture = new SKBitmap(large, large, channels == 1 ? SKColorType.Gray8 : SKColorType.Rgba8888, SKAlphaType.Opaque);
        int step = channels == 1 ? 1 : 4;
        byte[] line = new byte[picture.RowBytes];
        for (int y = 0; y < large; y++)
        {
            for (int x = 0; x < large; x++)
            {
                int from = (y / CropGrid.Enlargement * side + x / CropGrid.Enlargement) * channels;
                for (int c = 0; c < channels; c++) line[x * step + c] = pixels[from + c];
                if (step == 4) line[x * step + 3] = 255;
            }

            Marshal.Copy(line, 0, picture.GetPixels() + y * picture.RowBytes, line.Length);
        }

        using SKPixmap map = picture.PeekPixels();
        using SKData png = map.Encode(new SKPngEncoderOptions(SKPngEncoderFilterFlags.AllFilters, 9))
            ?? throw new InvalidOperationException("A picture could not be encoded as PNG.");
        return png.ToArray();
    }

    /// <summary>Width and height by the header of a PNG file; null when it has none.</summary>
    /// <remarks>W3C PNG specification: eight bytes of signature, then the header chunk with width and height first.</remarks>
    public static (int Width, int Height)? SizeOf(ReadOnlySpan<byte> png) =>
        png.Length > 24 && png[..8].SequenceEqual((ReadOnlySpan<byte>)[0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A]) && png[12..16].SequenceEqual("IHDR"u8)
            ? (BinaryPrimitives.ReadInt32BigEndian(png[16..]), BinaryPrimitives.ReadInt32BigEndian(png[20..]))
            : null;
}
