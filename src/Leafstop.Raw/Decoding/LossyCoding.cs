namespace Leafstop.Raw.Decoding;

/// <summary>Tells raw files whose compression throws information away.</summary>
/// <remarks>Known by the library's unpacking routine, by a maker's own note, or by the compression number of a DNG. A coding that can be either
/// and does not say which (the wavelet coding of some newer files) is not recognised: the honesty tests on the samples have to catch it.</remarks>
internal static class LossyCoding
{
    /// <summary>JPEG with loss, as the DNG specification numbers it.</summary>
    private const int LossyJpeg = 34892;

    /// <summary>JPEG XL in DNG 1.7: with or without loss, not told apart here, and so not trusted.</summary>
    private const int JpegXl = 52546;

    // The library's own names of routines that undo: baseline JPEG, predictors with coarse steps, deltas with dropped bits, wavelets.
    private static readonly HashSet<string> LosingRoutines = new(StringComparer.Ordinal)
    {
        "kodak_jpeg_load_raw()", "kodak_radc_load_raw()", "quicktake_100_load_raw()", "lossy_dng_load_raw()",
        "sony_arw2_load_raw()", "panasonic_load_raw()", "redcine_load_raw()", "vc5_dng_load_raw_placeholder()",
    };

    public static bool Loses(in RawFacts facts, ExifFacts? exif) =>
        LosingRoutines.Contains(facts.Decoder) || facts.LosesBySetting != 0 || exif?.RawCompression is LossyJpeg or JpegXl;
}
