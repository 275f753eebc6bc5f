using Leafstop.Core.Quantities;

namespace Leafstop.Cli.CommandLine;

/// <summary>A list of ISOs in one argument, "100 200 400".</summary>
internal static class IsoList
{
    /// <summary>Reads the list as the numbers stand.</summary>
    /// <exception cref="Refusal">An entry is no ISO, or there is none.</exception>
    public static IEnumerable<Iso> Read(string option, string text)
    {
        string[] words = text.Split([' ', ',', ';', '\t'], StringSplitOptions.RemoveEmptyEntries);
        if (words.Length == 0)
            throw Refusal.WrongCall($"{option} is empty: write ISOs such as \"100 200 400\".");
        foreach (string word in words)
        {
            if (!Iso.TryParse(word, out Iso? iso, out string why, NumberReading.Literal))
                throw Refusal.WrongCall($"{option}: {why}");
            yield return iso!;
        }
    }
}
