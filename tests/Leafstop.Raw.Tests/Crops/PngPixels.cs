using SkiaSharp;

namespace Leafstop.Raw.Tests.Crops;

/// <summary>The pixels of a PNG file, for tests.</summary>
internal sealed class PngPixels : IDisposable
{
    private readonly SKBitmap _picture;

    public PngPixels(byte[] png) => _picture = SKBitmap.Decode(png);

    public int Width => _picture.Width;

    public int Height => _picture.Height;

    public (int R, int G, int B) this[int x, int y] => _picture.GetPixel(x, y) is var p ? (p.Red, p.Green, p.Blue) : default;

    public void Dispose() => _picture.Dispose();
}
