using Leafstop.Core.Colour;
using Leafstop.Core.Sensor;
using Leafstop.Raw.Decoding;
using Leafstop.Raw.Frames;
using SkiaSharp;

namespace Leafstop.Raw.Jpegs;

/// <summary>A JPEG that a camera made, open to be looked at. Only a decoding process opens one: its file may be damaged.</summary>
internal sealed class JpegFile : IDisposable
{
    /// <summary>No camera picture is larger; four bytes each stay below what a worker may hold.</summary>
    private const int MostPixels = 200_000_000;

    /// <summary>No JPEG of that many pixels is longer, bytes.</summary>
    private const long LongestFile = 512L << 20;

    /// <summary>Light of a white pixel on the scale of <see cref="Luminance"/>.</summary>
    public const int White = ushort.MaxValue;

    private const int BytesPerPixel = 4;
    private static readonly MosaicPattern Plain = new() { Rows = 1, Columns = 1, Letters = "M" };

    private readonly string _path;
    private readonly SKBitmap _pixels;

    private JpegFile(string path, SKBitmap pixels) => (_path, _pixels) = (path, pixels);

    public int Width => _pixels.Width;

    public int Height => _pixels.Height;

    /// <summary>Reads what the file says of itself, without its pixels.</summary>
    /// <exception cref="UnreadableRawException">It is missing, empty, shut, damaged, too large or no JPEG.</exception>
    public static JpegReply Describe(string path)
    {
        ExifFacts? exif = FileProbe.Probe(path, out long length);
        using SKCodec codec = CodecOf(path, length);
        return new JpegReply { Iso = exif?.Iso, Width = codec.Info.Width, Height = codec.Info.Height };
    }

    /// <summary>Decodes the pixels, as sRGB.</summary>
    /// <exception cref="UnreadableRawException">As for <see cref="Describe"/>, or the pixels break off.</exception>
    public static JpegFile Open(string path)
    {
        FileProbe.Probe(path, out long length);
        using SKCodec codec = CodecOf(path, length);
        using var srgb = SKColorSpace.CreateSrgb();
        var info = new SKImageInfo(codec.Info.Width, codec.Info.Height, SKColorType.Rgba8888, SKAlphaType.Opaque, srgb);
        var pixels = new SKBitmap();
        if (pixels.TryAllocPixels(info) && codec.GetPixels(info, pixels.GetPixels()) == SKCodecResult.Success)
            return new JpegFile(path, pixels);
        pixels.Dispose();
        throw new UnreadableRawException(path, "The picture breaks off or is damaged. Copy it again from the card.");
    }

    /// <summary>The light of each pixel, linear, as a frame without filters: places are looked for in it as in a raw frame.</summary>
    public MosaicFrame Luminance()
    {
        var samples = new ushort[Width * Height];
        double[] light = [.. Enumerable.Range(0, 256).Select(code => SrgbCurve.Decode(code / 255.0) * White)];
        // The luminance of a primary of sRGB: the middle row of its matrix.
        double[] red = [.. light.Select(v => RgbSpace.Srgb.ToXyz(new LinearRgb(v, 0, 0)).Y)],
            green = [.. light.Select(v => RgbSpace.Srgb.ToXyz(new LinearRgb(0, v, 0)).Y)],
            blue = [.. light.Select(v => RgbSpace.Srgb.ToXyz(new LinearRgb(0, 0, v)).Y)];
        ReadOnlySpan<byte> pixels = _pixels.GetPixelSpan();
        for (int y = 0; y < Height; y++)
        {
            ReadOnlySpan<byte> row = pixels.Slice(y * _pixels.RowBytes, Width * BytesPerPixel);
            for (int x = 0; x < Width; x++)
                samples[y * Width + x] = (ushort)Math.Min(White, Math.Round(red[row[x * BytesPerPixel]] + green[row[x * BytesPerPixel + 1]] + blue[row[x * BytesPerPixel + 2]]));
        }

        return new MosaicFrame
        {
            Header = new FrameHeader { File = _path, Make = "", Model = "", Width = Width, Height = Height, Mosaic = Plain },
            Samples = samples,
            Stride = Width,
            Left = 0,
            Top = 0,
            LibraryBlackDn = [0],
        };
    }

    /// <summary>A square of pixels as they are: red, green and blue, row by row.</summary>
    public byte[] Square(int left, int top, int side)
    {
        var square = new byte[side * side * 3];
        ReadOnlySpan<byte> pixels = _pixels.GetPixelSpan();
        for (int y = 0; y < side; y++)
        {
            ReadOnlySpan<byte> row = pixels.Slice((top + y) * _pixels.RowBytes + left * BytesPerPixel, side * BytesPerPixel);
            for (int x = 0; x < side; x++)
                row.Slice(x * BytesPerPixel, 3).CopyTo(square.AsSpan((y * side + x) * 3));
        }

        return square;
    }

    public void Dispose() => _pixels.Dispose();

    private static SKCodec CodecOf(string path, long length)
    {
        if (length > LongestFile)
            throw new UnreadableRawException(path, "The file is larger than a camera's JPEG can be.");
        using SKData data = SKData.CreateCopy(FileProbe.ReadWhole(path));
        SKCodec? codec = SKCodec.Create(data);
        if (codec is null || codec.EncodedFormat != SKEncodedImageFormat.Jpeg)
        {
            codec?.Dispose();
            throw new UnreadableRawException(path, "This is no JPEG that can be read: another kind of file, or a damaged one.");
        }

        if ((long)codec.Info.Width * codec.Info.Height is > 0 and <= MostPixels)
            return codec;
        codec.Dispose();
        throw new UnreadableRawException(path, "The picture states a size that no camera has: it is damaged.");
    }
}
