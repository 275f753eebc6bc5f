using Leafstop.Core.Colour;

namespace Leafstop.Core.Developing;

/// <summary>How linear light is shown: the curve of sRGB and nothing else.</summary>
/// <remarks>No contrast is added. A curve that steepens a tone shows its grain stronger by its slope, so whoever prints with one judges a print made with it. Mid-grey 0.18 becomes 118 of 255 (PER-25).</remarks>
public static class DisplayCurve
{
    /// <summary>The shown value, 0 to 1; light outside 0 to 1 is cut.</summary>
    /// <param name="linear">Linear light, 1 = white.</param>
    public static double Encode(double linear) => double.IsNaN(linear) ? 0 : SrgbCurve.Encode(Math.Clamp(linear, 0, 1));

    /// <summary>Change of the shown value for a small change of light: what grain in linear light is multiplied by. 0 where light is cut.</summary>
    /// <param name="linear">Linear light, 1 = white.</param>
    public static double Slope(double linear) => linear switch
    {
        < 0 or > 1 or double.NaN => 0,
        <= SrgbCurve.LinearKnee => 12.92,
        _ => 1.055 / 2.4 * Math.Pow(linear, 1 / 2.4 - 1),
    };

    /// <summary>The shown value as a byte, to the nearest; not dithered.</summary>
    public static byte Byte(double linear) => (byte)Math.Round(byte.MaxValue * Encode(linear));

    /// <summary>The shown value in 16 bits, to the nearest.</summary>
    public static ushort Word(double linear) => (ushort)Math.Round(ushort.MaxValue * Encode(linear));
}
