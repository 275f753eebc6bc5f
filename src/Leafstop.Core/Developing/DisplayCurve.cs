using Leafstop.Core.Colour;

namespace Leafstop.Core.Developing;

/// <summary>How linear light is shown: the curve of sRGB and nothing else.</summary>
/// <remarks>No contrast is added. A curve that steepens a tone shows its grain stronger by its slope, so whoever prints with one judges a print made with it. Mid-grey 0.18 becomes 118 of 255 (PER-25).</remarks>
public static class DisplayCurve
{
    /// <summary>[byte]: the least linear light that is shown as this byte; nothing reaches the last entry.</summary>
    private static readonly float[] LeastOfByte = [0, .. Enumerable.Range(1, byte.MaxValue).Select(LeastShownAs), float.NaN];

    /// <summary>Steps of light to a byte that is never too high: where the search for the byte begins.</summary>
    private static readonly byte[] FirstOfStep = [.. Enumerable.Range(0, 4096).Select(step => Byte((step - 0.5) / 4095))];

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

    /// <summary>The shown values as bytes; the same as <see cref="Byte"/> one by one, looked up.</summary>
    /// <param name="linear">Linear light, 1 = white.</param>
    /// <param name="shown">As many bytes, <paramref name="step"/> apart from the first on.</param>
    /// <param name="step">From one byte to the next.</param>
    internal static void Bytes(ReadOnlySpan<float> linear, Span<byte> shown, int step)
    {
        for (int i = 0, at = 0; i < linear.Length; i++, at += step)
        {
            float light = linear[i];
            // Written so that what is no number becomes black.
            int value = light > 0 ? FirstOfStep[light < 1 ? (int)(light * 4095) : 4095] : 0;
            while (light >= LeastOfByte[value + 1]) value++;
            shown[at] = (byte)value;
        }
    }

    /// <summary>Found by halving: the curve rises, and what its rounding does at the border is for <see cref="Byte"/> alone to say.</summary>
    private static float LeastShownAs(int value)
    {
        int below = 0, least = BitConverter.SingleToInt32Bits(1f);
        while (least - below > 1)
        {
            int middle = below + (least - below) / 2;
            if (Byte(BitConverter.Int32BitsToSingle(middle)) >= value) least = middle;
            else below = middle;
        }

        return BitConverter.Int32BitsToSingle(least);
    }

    /// <summary>The shown value in 16 bits, to the nearest.</summary>
    public static ushort Word(double linear) => (ushort)Math.Round(ushort.MaxValue * Encode(linear));
}
