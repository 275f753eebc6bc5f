using Leafstop.Core.Sensor;

namespace Leafstop.Raw.Crops;

/// <summary>A small picture of the bench scene at one level, to be looked at: nothing is measured from it.</summary>
/// <remarks>Made without interpolating colours, noise reduction or sharpening; what was done is in docs/decisions/0003-crops-for-the-report.md.</remarks>
public sealed record BenchPicture
{
    /// <summary>The level that it was taken from, usable or not.</summary>
    public required Level Level { get; init; }

    /// <summary>What it shows.</summary>
    public required CropSubject Subject { get; init; }

    /// <summary>The picture as a PNG file, sRGB, at most 512 × 512.</summary>
    public required ReadOnlyMemory<byte> Png { get; init; }

    /// <summary>Width and height in pixels of the PNG file.</summary>
    public required int Side { get; init; }

    /// <summary>How much brighter than a plain development (mid-grey shown as mid-grey) all pictures of this subject are, stops; 0 for <see cref="CropSubject.Difference"/>.</summary>
    public double LiftStops { get; init; }

    /// <summary>How much this picture was brightened against the reference level in linear light, stops; negative = darkened.</summary>
    public double CorrectionStops { get; init; }

    /// <summary>What ISO, shutter and aperture do not explain of the difference in brightness: positive = the frame is darker than they say, stops; null when it holds no light to tell it by.</summary>
    public double? UnexplainedStops { get; init; }

    /// <summary>True when its mean was brought to that of the other levels; false when it was only brightened by what the settings explain.</summary>
    public bool IsMatched { get; init; }

    /// <summary>Share of its samples that are clipped, 0 to 1.</summary>
    public double ClippedShare { get; init; }
}
