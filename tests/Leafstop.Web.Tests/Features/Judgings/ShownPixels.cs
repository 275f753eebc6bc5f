using SkiaSharp;

namespace Leafstop.Web.Tests.Features.Judgings;

/// <summary>What an eye has to go by: the pixels of a picture that was sent, and nothing else.</summary>
internal static class ShownPixels
{
    /// <summary>Strength of the fine grain in steps of 8 bits: the root mean square of the differences of neighbours across and down together (each pixel less its right and lower ones, plus the one between),
    /// which a smooth shade leaves at nothing.</summary>
    public static double Grain(byte[] png)
    {
        using SKBitmap picture = SKBitmap.Decode(png);
        double sum = 0;
        for (int y = 0; y + 1 < picture.Height; y++)
        {
            for (int x = 0; x + 1 < picture.Width; x++)
            {
                double d = picture.GetPixel(x, y).Green - picture.GetPixel(x + 1, y).Green - picture.GetPixel(x, y + 1).Green + picture.GetPixel(x + 1, y + 1).Green;
                sum += d * d;
            }
        }
        return Math.Sqrt(sum / 4 / ((picture.Width - 1) * (picture.Height - 1)));
    }
}
