using System.Collections.Immutable;
using Leafstop.Core.Sensor;
using Leafstop.Raw.Crops;

namespace Leafstop.Raw.Developed;

/// <summary>What developed crops are asked for.</summary>
public sealed record CropWish
{
    /// <summary>Sides that can be asked for, sensor pixels.</summary>
    public const int LeastSide = 48, MostSide = 1024;

    /// <summary>Sensor pixels along a crop, 48 to 1024; a small frame gives crops of at most an eighth of its shorter side, so that smooth places of a bench scene fill them. Default 384.</summary>
    public int SidePixels { get; init; } = 384;

    /// <summary>A crop is at most one over this of the shorter side.</summary>
    internal const int SideShare = 8;

    /// <summary>Sensor pixels along a crop of a frame of this camera: as asked, or as much as a small frame gives.</summary>
    public int SideOn(CameraIdentity camera)
    {
        ArgumentNullException.ThrowIfNull(camera);
        return Math.Min(SidePixels, Math.Min(camera.Width, camera.Height) / SideShare);
    }

    /// <summary>Places that the photographer chose; subjects without one are looked for.</summary>
    public ImmutableArray<CropPosition> Moved { get; init; } = [];

    /// <summary>How much brighter than a plain development the dark is shown, stops; null lifts it until it can be seen (the third of a stop nearest to linear light 0.045). Mid tone and texture are never lifted.</summary>
    public double? DarkLiftStops { get; init; }

    /// <summary>True to take the mid tone at the reference level for grey even when the file states a neutral.</summary>
    public bool GreyFromMidTone { get; init; }

    /// <summary>Says what is wrong with the wish itself.</summary>
    /// <exception cref="ArgumentException">A value is out of its range.</exception>
    internal void Validate()
    {
        if (SidePixels is < LeastSide or > MostSide) throw new ArgumentException($"A crop has 48 to 1024 sensor pixels a side, not {SidePixels}.");
        if (DarkLiftStops is { } lift && lift is not (>= -2 and <= 10)) throw new ArgumentException("The dark is lifted by −2 to 10 stops.");
        if (Moved.Any(m => m.Subject is not (CropSubject.Dark or CropSubject.MidTone or CropSubject.Texture)) || Moved.DistinctBy(m => m.Subject).Count() != Moved.Length)
            throw new ArgumentException("A place is given once for each of dark, mid tone and texture.");
    }
}
