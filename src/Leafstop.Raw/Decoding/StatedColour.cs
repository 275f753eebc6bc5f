using System.Collections.Immutable;
using Leafstop.Core.Colour;

namespace Leafstop.Raw.Decoding;

/// <summary>What a file, or else the raw library, says of a camera's colours.</summary>
internal static unsafe class StatedColour
{
    /// <summary>Raw value of a neutral tone in red, green and blue: the tag of a DNG, or one over the camera's own factors; empty when not stated.</summary>
    public static ImmutableArray<double> Neutral(in RawFacts facts, ExifFacts? exif)
    {
        if (facts.IsDng != 0) return [.. exif?.Neutral ?? []];
        double red = facts.AsShot[0], green = facts.AsShot[1], blue = facts.AsShot[2];
        return red > 0 && green > 0 && blue > 0 && double.IsFinite(red + green + blue) ? [green / red, 1, green / blue] : [];
    }

    /// <summary>XYZ to camera: the tag of a DNG, or the library's table; null when neither has one.</summary>
    public static ColourMatrix? XyzToCamera(in RawFacts facts, ExifFacts? exif)
    {
        double[] values = facts.IsDng != 0 && exif is { XyzToCamera.Length: 9 } ? exif.XyzToCamera : Table(facts);
        return values.Any(v => v != 0) && values.All(double.IsFinite)
            ? new ColourMatrix(values[0], values[1], values[2], values[3], values[4], values[5], values[6], values[7], values[8])
            : null;
    }

    private static double[] Table(in RawFacts facts)
    {
        var values = new double[9];
        for (int i = 0; i < values.Length; i++) values[i] = facts.XyzToCamera[i];
        return values;
    }
}
