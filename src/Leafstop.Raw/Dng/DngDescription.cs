using System.Collections.Immutable;

namespace Leafstop.Raw.Dng;

/// <summary>What a DNG says beside the samples and the header of its frame.</summary>
public sealed record DngDescription
{
    /// <summary>Body number.</summary>
    public required string Serial { get; init; }

    /// <summary>Lens name.</summary>
    public required string Lens { get; init; }

    /// <summary>Raw value of a neutral tone in red, green, blue, the largest being 1 (AsShotNeutral).</summary>
    public required ImmutableArray<double> Neutral { get; init; }

    /// <summary>XYZ to raw colours, row by row, nine values (ColorMatrix1).</summary>
    public required ImmutableArray<double> ColourMatrix { get; init; }

    /// <summary>EXIF code of the light that <see cref="ColourMatrix"/> belongs to: 17 is a tungsten lamp, 21 daylight.</summary>
    public int Illuminant { get; init; } = 21;

    /// <summary>Pairs (S, O) of NoiseProfile, one pair or one a colour; empty leaves the tag out.</summary>
    public ImmutableArray<double> NoiseProfile { get; init; } = [];

    /// <summary>The picture that cameras embed for their screen; null leaves it out.</summary>
    public PreviewPicture? Preview { get; init; }

    /// <summary>True to compress the samples by lossless JPEG.</summary>
    public bool Lossless { get; init; } = true;

    /// <summary>Bits that a sample needs, 2 to 15; only lossless JPEG states it.</summary>
    public int Bits { get; init; } = 14;

    /// <summary>EXIF orientation, 1 to 8; 1 is upright.</summary>
    public int Orientation { get; init; } = 1;

    /// <summary>Which program wrote the file.</summary>
    public string Software { get; init; } = "Leafstop sample";
}
