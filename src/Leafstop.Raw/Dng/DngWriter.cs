using System.Buffers.Binary;
using System.Globalization;
using System.Runtime.InteropServices;
using Leafstop.Core.Sensor;
using Leafstop.Raw.Frames;

namespace Leafstop.Raw.Dng;

/// <summary>Writes a mosaic frame as DNG 1.4: a small developed picture in the first directory, the samples in a sub-directory, EXIF beside them.</summary>
/// <remarks>Tag numbers: SEN-23 (DNG specification), TIFF 6.0 and EXIF 2.3. Little-endian, one strip, samples as 16 bits or lossless JPEG.</remarks>
public static class DngWriter
{
    private const int DataAlignment = 16;

    /// <summary>Writes one frame.</summary>
    /// <param name="target">A stream at its start that can be written.</param>
    /// <param name="frame">Samples, geometry and header. The whole frame must be stored without gaps between rows.</param>
    /// <param name="description">The rest of the tags.</param>
    /// <exception cref="ArgumentException">The frame has gaps between its rows, or no usable filter pattern.</exception>
    public static void Write(Stream target, MosaicFrame frame, DngDescription description)
    {
        int rawHeight = frame.Samples.Length / frame.Stride;
        if (frame.Samples.Length != frame.Stride * rawHeight)
            throw new ArgumentException("A frame is written whole: its samples must fill its rows.");
        ReadOnlySpan<byte> data = description.Lossless
            ? LosslessJpeg.Encode(frame.Samples.Span, frame.Stride, rawHeight, description.Bits)
            : MemoryMarshal.AsBytes(frame.Samples.Span);
        var preview = description.Preview?.Jpeg ?? ReadOnlyMemory<byte>.Empty;

        // The length of a directory does not depend on positions, so the first pass lays out and the second writes.
        var exif = Exif(frame.Header, description);
        uint mainAt = 8;
        uint exifAt = Even(mainAt + (uint)Main(frame, description, 0, 0, 0).Length);
        uint rawAt = Even(exifAt + (uint)exif.Length);
        uint previewAt = Even(rawAt + (uint)Raw(frame, description, rawHeight, 0, 0).Length);
        uint dataAt = (previewAt + (uint)preview.Length + DataAlignment - 1) / DataAlignment * DataAlignment;

        Span<byte> header = stackalloc byte[8];
        "II*\0"u8.CopyTo(header);
        BinaryPrimitives.WriteUInt32LittleEndian(header[4..], mainAt);
        target.Write(header);
        uint at = mainAt;
        Put(target, ref at, mainAt, Main(frame, description, exifAt, rawAt, previewAt).At(mainAt));
        Put(target, ref at, exifAt, exif.At(exifAt));
        Put(target, ref at, rawAt, Raw(frame, description, rawHeight, dataAt, (uint)data.Length).At(rawAt));
        Put(target, ref at, previewAt, preview.Span);
        Put(target, ref at, dataAt, data);
    }

    private static void Put(Stream target, ref uint at, uint position, ReadOnlySpan<byte> bytes)
    {
        for (; at < position; at++)
            target.WriteByte(0);
        target.Write(bytes);
        at += (uint)bytes.Length;
    }

    private static uint Even(uint position) => position + (position & 1);

    private static TiffDirectory Main(MosaicFrame frame, DngDescription description, uint exifAt, uint rawAt, uint previewAt)
    {
        var header = frame.Header;
        var main = new TiffDirectory()
            .Longs(254, 1)                                                              // NewSubfileType: a smaller version
            .Text(271, header.Make).Text(272, header.Model)
            .Shorts(274, (ushort)description.Orientation)
            .Text(305, description.Software)
            .Longs(330, rawAt)                                                          // SubIFDs
            .Longs(34665, exifAt)
            .Bytes(50706, 1, 4, 0, 0).Bytes(50707, 1, 1, 0, 0)                          // DNGVersion, DNGBackwardVersion
            .Text(50708, $"{header.Make} {header.Model}")                               // UniqueCameraModel
            .SignedRationals(50721, description.ColourMatrix.AsSpan())                  // ColorMatrix1
            .Rationals(50728, [.. description.Neutral.Select(Fraction)])                // AsShotNeutral
            .Text(50735, description.Serial)                                            // CameraSerialNumber
            .Shorts(50778, (ushort)description.Illuminant);                             // CalibrationIlluminant1
        if (header.TakenAt is { } taken)
            main.Text(306, Clock(taken));
        if (description.Preview is { } preview)
        {
            main.Longs(256, (uint)preview.Width).Longs(257, (uint)preview.Height)
                .Shorts(258, 8, 8, 8).Shorts(259, 7).Shorts(262, 6)                     // JPEG, YCbCr
                .Longs(273, previewAt).Shorts(277, 3).Longs(278, (uint)preview.Height)
                .Longs(279, (uint)preview.Jpeg.Length).Shorts(284, 1);
        }
        return main;
    }

    private static TiffDirectory Raw(MosaicFrame frame, DngDescription description, int rawHeight, uint dataAt, uint dataLength)
    {
        var mosaic = frame.Header.Mosaic;
        var raw = new TiffDirectory()
            .Longs(254, 0)
            .Longs(256, (uint)frame.Stride).Longs(257, (uint)rawHeight)
            .Shorts(258, (ushort)(description.Lossless ? description.Bits : 16))
            .Shorts(259, (ushort)(description.Lossless ? 7 : 1))
            .Shorts(262, 32803)                                                         // a colour filter mosaic
            .Longs(273, dataAt).Shorts(277, 1).Longs(278, (uint)rawHeight).Longs(279, dataLength).Shorts(284, 1)
            .Shorts(33421, (ushort)mosaic.Rows, (ushort)mosaic.Columns)                 // CFARepeatPatternDim
            .Bytes(33422, [.. mosaic.Letters.Select(ColourCode)])                       // CFAPattern
            .Bytes(50710, 0, 1, 2).Shorts(50711, 1)                                     // CFAPlaneColor, CFALayout
            .Longs(50829, (uint)frame.Top, (uint)frame.Left, (uint)(frame.Top + frame.Height), (uint)(frame.Left + frame.Width));
        if (!frame.TagBlackDn.IsDefaultOrEmpty)
        {
            bool same = frame.TagBlackDn.All(b => b == frame.TagBlackDn[0]);
            raw.Shorts(50713, (ushort)(same ? 1 : mosaic.Rows), (ushort)(same ? 1 : mosaic.Columns))
                .Rationals(50714, [.. (same ? frame.TagBlackDn[..1] : frame.TagBlackDn).Select(Fraction)]);
        }
        if (frame.Header.WhiteTagDn is { } white)
            raw.Longs(50717, (uint)white);
        if (!frame.MaskedAreas.IsDefaultOrEmpty)
            raw.Longs(50830, [.. frame.MaskedAreas.SelectMany(m => new[] { (uint)m.Top, (uint)m.Left, (uint)m.Bottom, (uint)m.Right })]);
        if (!description.NoiseProfile.IsDefaultOrEmpty)
            raw.Doubles(51041, description.NoiseProfile.AsSpan());
        return raw;
    }

    private static TiffDirectory Exif(FrameHeader header, DngDescription description)
    {
        var exif = new TiffDirectory()
            .Undefined(36864, "0230"u8)
            .Text(42033, description.Serial).Text(42036, description.Lens);
        if (header.ShutterSeconds is { } seconds)
            exif.Rationals(33434, ShutterFraction(seconds));
        if (header.FNumber is { } f)
            exif.Rationals(33437, Fraction(f));
        if (header.FocalMm is { } focal)
            exif.Rationals(37386, Fraction(focal));
        if (header.TakenAt is { } taken)
            exif.Text(36867, Clock(taken)).Text(36868, Clock(taken));
        if (header.Iso is { } iso)
        {
            // The old ISO tag ends at 65 535; the recommended exposure index goes on.
            exif.Shorts(34855, (ushort)Math.Min(Math.Round(iso), 65_535));
            exif.Shorts(34864, 2).Longs(34866, (uint)Math.Round(iso));
        }
        return exif;
    }

    private static byte ColourCode(char letter) => letter switch
    {
        'R' => 0,
        'G' => 1,
        'B' => 2,
        _ => throw new ArgumentException($"A filter called {letter} cannot be written to a DNG."),
    };

    private static string Clock(DateTime time) => time.ToString("yyyy:MM:dd HH:mm:ss", CultureInfo.InvariantCulture);

    /// <summary>1/30 as cameras write it below 0.3 s, tenths of a second above.</summary>
    private static (uint Over, uint Under) ShutterFraction(double seconds) =>
        seconds > 0 && seconds < 0.3 - 1e-6 ? (1, (uint)Math.Round(1 / seconds)) : Fraction(seconds);

    /// <summary>The shortest decimal fraction that keeps four places.</summary>
    private static (uint Over, uint Under) Fraction(double value)
    {
        uint under = 1;
        while (under < 10_000 && Math.Abs(value * under - Math.Round(value * under)) > 1e-9 * under)
            under *= 10;
        return ((uint)Math.Round(value * under), under);
    }
}
