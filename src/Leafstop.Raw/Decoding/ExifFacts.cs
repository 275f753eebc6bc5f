namespace Leafstop.Raw.Decoding;

/// <summary>What the file's own tags say, in full precision, where the raw library rounds, saturates or fills in.</summary>
/// <remarks>"Stated" tells an entry that is there but empty (zero) from one that is missing: only in the second case is the library asked.</remarks>
internal sealed record ExifFacts
{
    public double? Iso { get; init; }

    public bool ShutterStated { get; init; }

    public double? ShutterSeconds { get; init; }

    public bool ApertureStated { get; init; }

    public double? FNumber { get; init; }

    public bool ClockStated { get; init; }

    public DateTime? TakenAt { get; init; }

    public string? BodyNumber { get; init; }

    /// <summary>The compression number of the directory that holds the raw samples; null when there is no such directory.</summary>
    public int? RawCompression { get; init; }

    /// <summary>Samples a pixel in that directory.</summary>
    public int RawSamplesPerPixel { get; init; } = 1;

    /// <summary>True when that directory says its samples are floating-point numbers.</summary>
    public bool RawIsFloating { get; init; }

    /// <summary>First row of the active area as tagged.</summary>
    public int ActiveTop { get; init; }

    /// <summary>First column of the active area as tagged.</summary>
    public int ActiveLeft { get; init; }

    /// <summary>Black level as tagged, row by row over <see cref="BlackRows"/> and <see cref="BlackColumns"/>, counted from the tagged active area;
    /// empty without a tag, or when further tags let it vary along rows or columns.</summary>
    public double[] Black { get; init; } = [];

    public int BlackRows { get; init; } = 1;

    public int BlackColumns { get; init; } = 1;

    /// <summary>White level as tagged.</summary>
    public double? White { get; init; }

    /// <summary>Raw value of a neutral tone in red, green and blue as tagged; empty without a tag of three values above zero.</summary>
    public double[] Neutral { get; init; } = [];

    /// <summary>XYZ to the camera's colours as tagged, row by row; empty without a tag of nine values.</summary>
    public double[] XyzToCamera { get; init; } = [];

    /// <summary>EXIF code of the light that <see cref="XyzToCamera"/> was measured in; 0 when not stated.</summary>
    public int ColourLight { get; init; }

    /// <summary>Where the last strip or tile of that directory ends, in bytes from the start of the file; 0 when unknown.</summary>
    public long RawEnd { get; init; }
}
