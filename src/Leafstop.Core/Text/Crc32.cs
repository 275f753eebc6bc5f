namespace Leafstop.Core.Text;

/// <summary>The cyclic redundancy check of 32 bits that archives and networks use: finds any slip of up to four characters in a row, and all but one in four thousand million others.</summary>
/// <remarks>Polynomial 0x04C11DB7 of IEEE 802.3, bits reversed, begun and ended with all ones; its published check value, of "123456789", is CBF43926. Tells damage, not forgery.</remarks>
internal static class Crc32
{
    private const uint ReversedPolynomial = 0xEDB88320;

    /// <summary>The check of some bytes.</summary>
    public static uint Of(ReadOnlySpan<byte> bytes)
    {
        uint check = uint.MaxValue;
        foreach (byte one in bytes)
        {
            check ^= one;
            for (int bit = 0; bit < 8; bit++)
                check = (check & 1) == 0 ? check >> 1 : check >> 1 ^ ReversedPolynomial;
        }
        return ~check;
    }
}
