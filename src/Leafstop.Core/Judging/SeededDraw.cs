namespace Leafstop.Core.Judging;

/// <summary>Draws that depend on a seed and on what they are for, never on what was drawn before: taking an answer back changes nothing else.</summary>
/// <remarks>The finaliser of the SplitMix64 generator (Steele, Lea and Flood 2014), used as a hash.</remarks>
internal static class SeededDraw
{
    /// <summary>A number for this seed, purpose and position.</summary>
    public static ulong Bits(long seed, string purpose, int position)
    {
        ulong state = Mixed(unchecked((ulong)seed));
        foreach (char letter in purpose)
            state = Mixed(state ^ letter);
        return Mixed(state ^ unchecked((ulong)position));
    }

    /// <summary>A whole number from 0 to one below <paramref name="count"/>.</summary>
    // Sixty-four bits over a handful of choices: the unevenness of the remainder is below 1e-17.
    public static int Below(int count, long seed, string purpose, int position) => (int)(Bits(seed, purpose, position) % (ulong)count);

    /// <summary>The items in a drawn order (Fisher and Yates).</summary>
    public static T[] Shuffled<T>(IEnumerable<T> items, long seed, string purpose)
    {
        T[] all = [.. items];
        for (int i = all.Length - 1; i > 0; i--)
        {
            int j = Below(i + 1, seed, purpose, i);
            (all[i], all[j]) = (all[j], all[i]);
        }
        return all;
    }

    private static ulong Mixed(ulong value)
    {
        unchecked
        {
            value += 0x9E3779B97F4A7C15;
            value = (value ^ (value >> 30)) * 0xBF58476D1CE4E5B9;
            value = (value ^ (value >> 27)) * 0x94D049BB133111EB;
            return value ^ (value >> 31);
        }
    }
}
