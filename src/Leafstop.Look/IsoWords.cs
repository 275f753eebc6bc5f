using Leafstop.Core.Quantities;

namespace Leafstop.Look;

/// <summary>A list of ISOs as a person writes it, "100 200 400".</summary>
public static class IsoWords
{
    /// <summary>Reads the list as the numbers stand.</summary>
    /// <param name="text">ISOs parted by spaces, commas or semicolons.</param>
    /// <param name="isos">What was read, in the order of the text.</param>
    /// <param name="why">Why it cannot be read, and what to write; empty when it can.</param>
    public static bool TryRead(string text, out IReadOnlyList<Iso> isos, out string why)
    {
        List<Iso> read = [];
        (isos, why) = (read, "");
        foreach (string word in text.Split([' ', ',', ';', '\t'], StringSplitOptions.RemoveEmptyEntries))
        {
            if (!Iso.TryParse(word, out Iso? iso, out why, NumberReading.Literal))
                return false;
            read.Add(iso!);
        }

        why = read.Count > 0 ? "" : "there is none here: write ISOs such as \"100 200 400\".";
        return read.Count > 0;
    }
}
