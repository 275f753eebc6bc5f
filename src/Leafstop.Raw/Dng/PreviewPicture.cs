using System.Collections.Immutable;
using System.Runtime.InteropServices;
using Leafstop.Raw.Frames;
using SkiaSharp;

namespace Leafstop.Raw.Dng;

/// <summary>A small developed JPEG of a frame, as a camera would embed it.</summary>
/// <param name="Jpeg">The JPEG stream.</param>
/// <param name="Width">Columns.</param>
/// <param name="Height">Rows.</param>
public sealed record PreviewPicture(ReadOnlyMemory<byte> Jpeg, int Width, int Height)
{
    // Neutral tones stay neutral (rows add up to 1); colours become as strong as the scene meant them.
    private static readonly float[] ToScreen = [1.50f, -0.40f, -0.10f, -0.15f, 1.30f, -0.15f, -0.05f, -0.35f, 1.40f];

    /// <summary>Develops blocks of 4×4 pixels (6×6 on a 6×6 mosaic): black off, white balance, colour, tone curve.</summary>
    /// <param name="frame">The frame; its tagged black is used.</param>
    /// <param name="clipDn">The code at which samples clip, DN.</param>
    /// <param name="neutral">Raw value of a neutral tone in red, green, blue.</param>
    public static PreviewPicture Develop(MosaicFrame frame, double clipDn, ImmutableArray<double> neutral)
    {
        var mosaic = frame.Header.Mosaic;
        int block = mosaic.Rows == 6 ? 6 : 4, width = frame.Width / block, height = frame.Height / block;
        var colour = mosaic.Letters.Select(c => c switch { 'R' => 0, 'B' => 2, _ => 1 }).ToArray();
        double black = frame.TagBlackDn[0];
        var scale = new float[3];
        for (int c = 0; c < 3; c++)
            scale[c] = (float)(1 / ((clipDn - black) * neutral[c] * block * block * colour.Count(k => k == c) / colour.Length));
        float dark = (float)black;
        using var picture = new SKBitmap(width, height, SKColorType.Rgba8888, SKAlphaType.Opaque);
        byte[] pixels = new byte[picture.RowBytes * height];
        int rowBytes = picture.RowBytes;
        var curve = Curve();
        Parallel.For(0, height, y =>
        {
            var sums = new float[3 * width];
            for (int dy = 0; dy < block; dy++)
            {
                var row = frame.Row(y * block + dy);
                int line = (y * block + dy) % mosaic.Rows * mosaic.Columns;
                for (int x = 0; x < width * block; x++)
                    sums[x / block * 3 + colour[line + x % mosaic.Columns]] += row[x] - dark;
            }
            for (int x = 0; x < width; x++)
            {
                // What clips is white: no colour is left in it.
                float r = Math.Min(sums[3 * x] * scale[0], 1), g = Math.Min(sums[3 * x + 1] * scale[1], 1), b = Math.Min(sums[3 * x + 2] * scale[2], 1);
                for (int c = 0; c < 3; c++)
                {
                    float linear = ToScreen[3 * c] * r + ToScreen[3 * c + 1] * g + ToScreen[3 * c + 2] * b;
                    pixels[y * rowBytes + 4 * x + c] = curve[(int)Math.Clamp(linear * 4095, 0, 4095)];
                }
                pixels[y * rowBytes + 4 * x + 3] = 255;
            }
        });
        Marshal.Copy(pixels, 0, picture.GetPixels(), pixels.Length);
        using var jpeg = picture.Encode(SKEncodedImageFormat.Jpeg, 88);
        return new(jpeg.ToArray(), width, height);
    }

    /// <summary>A tone curve that shows mid-grey (an eighth of the clip level) as mid-grey and rolls off towards white.</summary>
    private static byte[] Curve()
    {
        var curve = new byte[4096];
        for (int i = 0; i < curve.Length; i++)
        {
            double x = 2 * i / 4095.0, rolled = x * (1 + x / 4) / (1 + x);
            double shown = rolled <= 0.0031308 ? 12.92 * rolled : 1.055 * Math.Pow(rolled, 1 / 2.4) - 0.055;
            curve[i] = (byte)Math.Clamp(Math.Round(255 * shown), 0, 255);
        }
        return curve;
    }
}
