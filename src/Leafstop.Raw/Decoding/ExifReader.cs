using System.Globalization;

namespace Leafstop.Raw.Decoding;

/// <summary>Reads the few EXIF and DNG tags that the raw library does not give exactly.</summary>
internal static class ExifReader
{
    // Tag numbers: TIFF 6.0, Exif 2.32 and DNG 1.6 specifications.
    private const int Compression = 259, Photometric = 262, StripOffsets = 273, SamplesPerPixel = 277, StripByteCounts = 279, DateTimeTag = 306,
        TileOffsets = 324, TileByteCounts = 325, SubDirectories = 330, SampleFormat = 339, ExposureTime = 33434, FNumber = 33437,
        ExifDirectory = 34665, IsoRatings = 34855, StandardSensitivity = 34865, RecommendedIndex = 34866, IsoSpeed = 34867,
        TakenTag = 36867, DigitisedTag = 36868, ApexShutter = 37377, ApexAperture = 37378, BodyNumber = 42033, DngBodyNumber = 50735,
        BlackRepeat = 50713, BlackLevel = 50714, BlackDeltaAcross = 50715, BlackDeltaDown = 50716, WhiteLevel = 50717, AsShotNeutral = 50728, ActiveArea = 50829,
        ColourMatrix1 = 50721, ColourMatrix2 = 50722, ColourLight1 = 50778, ColourLight2 = 50779;

    private const int ColourFilterArray = 32803, LinearRaw = 34892;
    private const int FloatingFormat = 3;

    /// <summary>The value at which a 16-bit ISO entry is full; the true one then stands in a 32-bit entry.</summary>
    private const double FullIso = 65535;

    /// <summary>Reads the tags; null when the file is not built of TIFF directories and carries no such block near its start.</summary>
    public static ExifFacts? Read(Microsoft.Win32.SafeHandles.SafeFileHandle file)
    {
        var tiff = TiffDirectories.Find(file);
        if (tiff is null)
            return null;
        var all = tiff.ReadAll(SubDirectories, ExifDirectory);
        TiffEntry? Entry(int tag) => all.Select(d => d.GetValueOrDefault(tag)).FirstOrDefault(e => e is not null);
        double? Positive(int tag) => Entry(tag)?.Number(tiff) is { } value && double.IsFinite(value) && value > 0 ? value : null;

        // A file may also hold a mixed rendering of the same frame; the mosaic comes first.
        var raw = all.Where(d => d.GetValueOrDefault(Photometric)?.Number(tiff) is ColourFilterArray or LinearRaw)
            .OrderByDescending(d => d[Photometric].Number(tiff) == ColourFilterArray).ThenByDescending(d => End(tiff, d)).FirstOrDefault();
        double? apexShutter = Entry(ApexShutter)?.Number(tiff), apexAperture = Entry(ApexAperture)?.Number(tiff);
        double[] Raw(int tag) => raw?.GetValueOrDefault(tag)?.Numbers(tiff) ?? [];
        double[] active = Raw(ActiveArea), repeat = Raw(BlackRepeat), black = Raw(BlackLevel);
        var (blackRows, blackColumns) = repeat is [>= 1, >= 1] ? ((int)repeat[0], (int)repeat[1]) : (1, 1);
        bool plainBlack = black.Length == blackRows * blackColumns && black.All(double.IsFinite) && Raw(BlackDeltaAcross) is [] && Raw(BlackDeltaDown) is [];
        // Of two matrices the one for the bluer light: daylight is what most frames of the tool's subjects are lit by.
        var (matrix, light) = new[] { (Matrix(ColourMatrix1), Light(ColourLight1)), (Matrix(ColourMatrix2), Light(ColourLight2)) }
            .Where(m => m.Item1.Length == 9).OrderByDescending(m => CalibrationLight.Kelvin(m.Item2)).FirstOrDefault(([], 0));
        double[] Matrix(int tag) => Entry(tag)?.Numbers(tiff) is { Length: 9 } m && m.All(double.IsFinite) ? m : [];
        int Light(int tag) => Entry(tag)?.Number(tiff) is > 0 and < 65536 and var code ? (int)code : 0;
        return new ExifFacts
        {
            Iso = Iso(Positive(IsoRatings), Positive(RecommendedIndex) ?? Positive(IsoSpeed) ?? Positive(StandardSensitivity)),
            ShutterStated = Entry(ExposureTime) is not null || Entry(ApexShutter) is not null,
            ShutterSeconds = Positive(ExposureTime) ?? Apex(apexShutter, v => Math.Pow(2, -v)),
            ApertureStated = Entry(FNumber) is not null || Entry(ApexAperture) is not null,
            FNumber = Positive(FNumber) ?? Apex(apexAperture, v => Math.Pow(2, v / 2)),
            ClockStated = Entry(TakenTag) is not null || Entry(DigitisedTag) is not null || Entry(DateTimeTag) is not null,
            TakenAt = Clock(Entry(TakenTag)?.Text(tiff)) ?? Clock(Entry(DigitisedTag)?.Text(tiff)) ?? Clock(Entry(DateTimeTag)?.Text(tiff)),
            BodyNumber = Words(Entry(BodyNumber)?.Text(tiff)) ?? Words(Entry(DngBodyNumber)?.Text(tiff)),
            RawCompression = raw is null ? null : (int)(raw.GetValueOrDefault(Compression)?.Number(tiff) ?? 1),
            RawSamplesPerPixel = (int)(raw?.GetValueOrDefault(SamplesPerPixel)?.Number(tiff) ?? 1),
            RawIsFloating = raw?.GetValueOrDefault(SampleFormat)?.Number(tiff) == FloatingFormat,
            ActiveTop = active.Length == 4 ? (int)active[0] : 0,
            ActiveLeft = active.Length == 4 ? (int)active[1] : 0,
            Black = plainBlack ? black : [],
            BlackRows = blackRows,
            BlackColumns = blackColumns,
            White = Raw(WhiteLevel) is [> 0 and var white, ..] && double.IsFinite(white) ? white : null,
            Neutral = Entry(AsShotNeutral)?.Numbers(tiff) is [_, _, _] neutral && neutral.All(n => double.IsFinite(n) && n > 0) ? neutral : [],
            XyzToCamera = matrix,
            ColourLight = light,
            RawEnd = raw is null ? 0 : End(tiff, raw),
        };
    }

    private static double? Iso(double? ratings, double? precise) => ratings is null or >= FullIso ? precise ?? ratings : ratings;

    // An APEX value of zero is what cameras write when they do not know; one second and f/1 are stated by the plain entries when they are meant.
    private static double? Apex(double? value, Func<double, double> toPlain) =>
        value is { } apex && apex != 0 && double.IsFinite(apex) && toPlain(apex) is var plain && double.IsFinite(plain) && plain > 0 ? plain : null;

    private static DateTime? Clock(string? text) =>
        DateTime.TryParseExact(Words(text), "yyyy:MM:dd HH:mm:ss", CultureInfo.InvariantCulture, DateTimeStyles.None, out var taken) ? taken : null;

    private static string? Words(string? text) => text?.Trim(' ', '\0') is { Length: > 0 } words ? words : null;

    private static long End(TiffDirectories tiff, Dictionary<int, TiffEntry> directory)
    {
        long end = 0;
        foreach (var (offsetTag, countTag) in new[] { (StripOffsets, StripByteCounts), (TileOffsets, TileByteCounts) })
        {
            var offsets = directory.GetValueOrDefault(offsetTag)?.WholeNumbers(tiff) ?? [];
            var counts = directory.GetValueOrDefault(countTag)?.WholeNumbers(tiff) ?? [];
            for (int i = 0; i < Math.Min(offsets.Length, counts.Length); i++)
                end = Math.Max(end, offsets[i] + counts[i]);
        }
        return end;
    }
}
