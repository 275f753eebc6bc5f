using System.Buffers.Binary;
using System.Globalization;
using SkiaSharp;

namespace Leafstop.Testing;

/// <summary>JPEGs as a helpful camera makes them: grain grows with ISO, and at ISO 6400 the camera smooths it away.</summary>
public static class CameraJpegs
{
    /// <summary>Pictures are 480 × 240: a dark, a mid-grey and a textured third.</summary>
    public const int Width = 480, Height = 240;

    /// <summary>Codes of sRGB: three stops below mid-grey, and mid-grey (linear 0.0225 and 0.18).</summary>
    private const int DarkCode = 41, MidCode = 118;

    /// <summary>The ISO from which the camera smooths.</summary>
    private const int SmoothedFrom = 6400;

    /// <summary>Writes two JPEGs an ISO.</summary>
    /// <returns>Full paths, by ISO.</returns>
    public static string[] Write(string folder, params int[] isos)
    {
        Directory.CreateDirectory(folder);
        return
        [
            .. isos.SelectMany(iso => new[] { 1, 2 }.Select(frame =>
            {
                string file = Path.Combine(folder, string.Create(CultureInfo.InvariantCulture, $"B{iso:00000}_{frame}.JPG"));
                File.WriteAllBytes(file, WithIso(Picture(iso, seed: iso + frame), iso));
                return file;
            })),
        ];
    }

    /// <summary>One picture without EXIF.</summary>
    /// <param name="iso">How much grain it has.</param>
    /// <param name="seed">Another draw of the grain.</param>
    /// <param name="width">Columns.</param>
    public static byte[] Picture(int iso, int seed, int width = Width)
    {
        var noise = new Gaussian(seed);
        double deviation = 0.2 * Math.Sqrt(iso);
        var codes = new double[Height, width];
        for (int y = 0; y < Height; y++)
        {
            for (int x = 0; x < width; x++)
            {
                int third = 3 * x / width;
                double texture = third == 2 ? 30 * Math.Sin(x * 1.1) * Math.Sin(y * 0.9) : 0;
                codes[y, x] = (third == 0 ? DarkCode : MidCode) + texture + deviation * noise.Next();
            }
        }

        using var bitmap = new SKBitmap(width, Height, SKColorType.Rgba8888, SKAlphaType.Opaque);
        int reach = iso >= SmoothedFrom ? 3 : 0;
        for (int y = 0; y < Height; y++)
        {
            for (int x = 0; x < width; x++)
            {
                double sum = 0;
                int count = 0;
                for (int v = Math.Max(0, y - reach); v <= Math.Min(Height - 1, y + reach); v++)
                {
                    for (int u = Math.Max(0, x - reach); u <= Math.Min(width - 1, x + reach); u++, count++)
                        sum += codes[v, u];
                }

                byte code = (byte)Math.Clamp(Math.Round(sum / count), 0, 255);
                bitmap.SetPixel(x, y, new SKColor(code, code, code));
            }
        }

        using SKData jpeg = bitmap.Encode(SKEncodedImageFormat.Jpeg, 95);
        return jpeg.ToArray();
    }

    /// <summary>The same JPEG with the EXIF block that states its ISO, 1/30 s and f/8.</summary>
    public static byte[] WithIso(byte[] jpeg, int iso)
    {
        byte[] block = new byte[4 + 6 + 84];
        (block[0], block[1]) = (0xFF, 0xE1);
        BinaryPrimitives.WriteUInt16BigEndian(block.AsSpan(2), (ushort)(block.Length - 2));
        "Exif\0\0"u8.CopyTo(block.AsSpan(4));
        Span<byte> tiff = block.AsSpan(10);
        "II*\0"u8.CopyTo(tiff);
        Long(tiff, 4, 8);
        Short(tiff, 8, 1);
        Entry(tiff, 10, 34665, 4, 26);
        Short(tiff, 26, 3);
        Entry(tiff, 28, 33434, 5, 68);
        Entry(tiff, 40, 33437, 5, 76);
        Entry(tiff, 52, 34855, 3, (uint)iso);
        Long(tiff, 68, 1);
        Long(tiff, 72, 30);
        Long(tiff, 76, 8);
        Long(tiff, 80, 1);
        return [.. jpeg[..2], .. block, .. jpeg[2..]];

        static void Entry(Span<byte> tiff, int at, ushort tag, ushort type, uint value)
        {
            Short(tiff, at, tag);
            Short(tiff, at + 2, type);
            Long(tiff, at + 4, 1);
            Long(tiff, at + 8, value);
        }

        static void Short(Span<byte> tiff, int at, ushort value) => BinaryPrimitives.WriteUInt16LittleEndian(tiff[at..], value);
        static void Long(Span<byte> tiff, int at, uint value) => BinaryPrimitives.WriteUInt32LittleEndian(tiff[at..], value);
    }
}
