using Leafstop.Core.Colour;

namespace Leafstop.Raw.Decoding;

/// <summary>The lights that DNG files name by the numbers of Exif's LightSource.</summary>
/// <remarks>Numbers: Exif 2.32, LightSource; chromaticities of A, D50, D55, D65 and D75: CIE 15, from memory, to four digits.</remarks>
internal static class CalibrationLight
{
    /// <summary>White of a light; D65 for daylight, cloud and what is not known.</summary>
    public static Chromaticity White(int code) => code switch
    {
        3 or 17 => Chromaticity.Of(0.4476, 0.4074),
        4 or 20 => Chromaticity.Of(0.3324, 0.3474),
        22 => Chromaticity.Of(0.2990, 0.3149),
        14 or 23 => Chromaticity.D50,
        _ => Chromaticity.D65,
    };

    /// <summary>Its colour temperature, roughly; 6500 for what is not known.</summary>
    public static double Kelvin(int code) => code switch { 3 or 17 => 2856, 4 or 20 => 5500, 22 => 7500, 14 or 23 => 5000, _ => 6500 };
}
