namespace Leafstop.Raw.Crops;

/// <summary>The transfer curve of sRGB.</summary>
internal static class SrgbCurve
{
    /// <summary>Encoded value of linear light, both 0 to 1; what lies outside is cut.</summary>
    /// <remarks>Source: IEC 61966-2-1, as checked by PER-25 and PER-26.</remarks>
    public static double Encode(double linear) => linear switch
    {
        <= 0 or double.NaN => 0,
        >= 1 => 1,
        <= 0.0031308 => 12.92 * linear,
        _ => 1.055 * Math.Pow(linear, 1 / 2.4) - 0.055,
    };

    /// <summary>The encoded value as a byte.</summary>
    public static byte Byte(double linear) => (byte)Math.Round(255 * Encode(linear));
}
