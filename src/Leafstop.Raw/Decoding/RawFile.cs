using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Leafstop.Core.Colour;
using Leafstop.Core.Sensor;
using Leafstop.Raw.Frames;

namespace Leafstop.Raw.Decoding;

/// <summary>Opens raw files, read-only, in this process.</summary>
/// <remarks>A damaged file can take the process down with it: folders of unknown files go through <see cref="DecodingPool"/>. Reads every mosaic that
/// LibRaw unpacks to one 16-bit sample a pixel; what it refuses, and what is known to mislead, is in docs/method/reading-raws.md.</remarks>
public static class RawFile
{
    private const string SeveralSamples =
        "The file holds several colour samples for each pixel, already mixed or stacked; only files with one sample a pixel can be measured.";

    private const string Floating =
        "The samples are floating-point numbers, as after merging frames; only samples as the sensor gave them can be measured.";

    /// <summary>Reads what the file says of its frame without unpacking the samples.</summary>
    /// <param name="path">The file.</param>
    /// <returns>The header; <see cref="FrameHeader.WhiteTagDn"/> is null where only unpacking tells it (most files that are not DNG).</returns>
    /// <exception cref="UnreadableRawException">The file is missing, empty, shut, cut short, not a raw file or of a kind that is not read.</exception>
    public static FrameHeader ReadHeader(string path)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        var exif = FileProbe.Probe(path, out long length);
        RefuseTagged(path, exif);
        using var file = OpenHandle(path);
        var facts = file.Describe();
        return Header(path, facts, exif, length, facts.IsDng != 0 ? WhiteOf(facts, exif) : null);
    }

    /// <summary>Unpacks the samples of a file.</summary>
    /// <param name="path">The file.</param>
    /// <returns>A frame whose samples lie in the raw library's own memory until it is disposed.</returns>
    /// <exception cref="UnreadableRawException">As for <see cref="ReadHeader"/>, or the samples do not unpack.</exception>
    public static unsafe MosaicFrame Open(string path)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        var exif = FileProbe.Probe(path, out long length);
        RefuseTagged(path, exif);
        var file = OpenHandle(path);
        try
        {
            Header(path, file.Describe(), exif, length, null);
            int error = RawLibrary.Unpack(file);
            if (error != 0)
                throw new UnreadableRawException(path, FileProbe.Explain(path, error, unpacking: true));
            var facts = file.Describe();
            RefuseOtherLayouts(path, facts);
            var header = Header(path, facts, exif, length, WhiteOf(facts, exif));
            ushort* first = RawLibrary.Samples(file);
            int stride = facts.PitchBytes / sizeof(ushort);
            if (first == null || stride < facts.RawWidth || facts.Left < 0 || facts.Top < 0
                || facts.Left + facts.Width > facts.RawWidth || facts.Top + facts.Height > facts.RawHeight)
                throw new UnreadableRawException(path, "The file states a frame size that does not fit its samples: it is damaged. Copy it again.");
            int damage = RawLibrary.DataErrors(file) + (exif is not null && exif.RawEnd > length ? 1 : 0);
            var samples = new LibrarySamples(file, first, checked(stride * facts.RawHeight));
            return new MosaicFrame(samples)
            {
                Header = header,
                Samples = samples.Memory,
                Stride = stride,
                Left = facts.Left,
                Top = facts.Top,
                MaskedAreas = MosaicGeometry.Masked(facts),
                TagBlackDn = MosaicGeometry.TaggedBlack(facts, exif),
                LibraryBlackDn = MosaicGeometry.LibraryBlack(facts),
                AsShotNeutral = StatedColour.Neutral(facts, exif),
                XyzToCamera = StatedColour.XyzToCamera(facts, exif),
                ColourLight = facts.IsDng != 0 && exif is { XyzToCamera.Length: 9 } ? CalibrationLight.White(exif.ColourLight) : Chromaticity.D65,
                DataErrors = damage,
            };
        }
        catch
        {
            file.Dispose();
            throw;
        }
    }

    private static RawHandle OpenHandle(string path)
    {
        var file = RawHandle.Open(path, out int error);
        if (!file.IsInvalid)
            return file;
        file.Dispose();
        throw new UnreadableRawException(path, FileProbe.Explain(path, error, unpacking: false));
    }

    private static double? WhiteOf(in RawFacts facts, ExifFacts? exif) =>
        facts.IsDng != 0 && exif?.White is { } white ? white : facts.Maximum > 0 ? facts.Maximum : null;

    private static FrameHeader Header(string path, in RawFacts facts, ExifFacts? exif, long length, double? white)
    {
        if (facts.IsLayered != 0 || (facts.CellRows == 0 && facts.Colours >= 3))
            throw new UnreadableRawException(path, SeveralSamples);
        if (facts.Width <= 0 || facts.Height <= 0 || MosaicGeometry.Pattern(facts) is not { } pattern)
            throw new UnreadableRawException(path, "The colour filter pattern of this file is of a kind that is not read.");
        if (facts.IsDng != 0 && exif is not null && exif.RawEnd > length)
            throw new UnreadableRawException(path, string.Create(CultureInfo.InvariantCulture,
                $"The file is cut short: {length} of {exif.RawEnd} bytes are there. Copy it again from the card."));
        return new FrameHeader
        {
            File = path,
            Make = facts.Make,
            Model = facts.Model,
            BodyFingerprint = Fingerprint(facts, exif),
            Iso = Positive(facts.Iso) is { } iso && iso < 65535 ? iso : exif?.Iso ?? Positive(facts.Iso),
            ShutterSeconds = exif is { ShutterStated: true } ? exif.ShutterSeconds : Positive(facts.ShutterSeconds),
            // The library fills in f/1 when it is told nothing, so that figure counts only where a tag states it.
            FNumber = exif is { ApertureStated: true } ? exif.FNumber : Positive(facts.FNumber) is { } f && f != 1 ? f : null,
            FocalMm = Positive(facts.FocalMm),
            TakenAt = exif is { ClockStated: true } ? exif.TakenAt : Clock(facts),
            Width = facts.Width,
            Height = facts.Height,
            Mosaic = pattern,
            WhiteTagDn = white,
            IsLossy = LossyCoding.Loses(facts, exif),
            Decoder = facts.Decoder,
        };
    }

    // The library only says that it can not read such files; the tags say why.
    private static void RefuseTagged(string path, ExifFacts? exif)
    {
        if (exif is { RawIsFloating: true })
            throw new UnreadableRawException(path, Floating);
        if (exif is { RawSamplesPerPixel: > 1, RawCompression: not null })
            throw new UnreadableRawException(path, SeveralSamples);
    }

    private static void RefuseOtherLayouts(string path, in RawFacts facts)
    {
        string? why = facts switch
        {
            { Layout: RawFacts.LayoutFloating } => Floating,
            { Layout: not RawFacts.LayoutOneSample } => SeveralSamples,
            { Slanted: not 0 } => "The sensor's pixels stand at 45 degrees, and its neighbours in the file are not neighbours on the sensor; this layout is not read.",
            _ => null,
        };
        if (why is not null)
            throw new UnreadableRawException(path, why);
    }

    private static string? Fingerprint(in RawFacts facts, ExifFacts? exif)
    {
        string number = facts.BodyNumber is { Length: > 0 } stated ? stated : exif?.BodyNumber ?? "";
        if (number.Trim('0', ' ').Length == 0)
            return null;
        byte[] digest = SHA256.HashData(Encoding.UTF8.GetBytes($"{facts.Make}|{facts.Model}|{number}"));
        return Convert.ToHexStringLower(digest)[..8];
    }

    // A float such as 0.01f is meant as 0.01: go through its shortest decimal text.
    private static double? Positive(float value) =>
        float.IsFinite(value) && value > 0 ? double.Parse(value.ToString("R", CultureInfo.InvariantCulture), CultureInfo.InvariantCulture) : null;

    private static unsafe DateTime? Clock(in RawFacts facts)
    {
        int year = facts.Clock[0], month = facts.Clock[1], day = facts.Clock[2];
        return year is > 1900 and < 10000 && month is >= 1 and <= 12 && day >= 1 && day <= DateTime.DaysInMonth(year, month)
            ? new DateTime(year, month, day, facts.Clock[3], facts.Clock[4], Math.Min(59, facts.Clock[5]))
            : null;
    }
}
