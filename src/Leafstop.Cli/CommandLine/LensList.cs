using Leafstop.Core.Quantities;

namespace Leafstop.Cli.CommandLine;

/// <summary>Focal lengths in one argument, "24,35,70", for every verb that takes them.</summary>
internal static class LensList
{
    private const double ShortestMm = 4, LongestMm = 1000;

    /// <summary>Reads the list; a bare number is millimetres, as lenses are called.</summary>
    /// <returns>As written, a lens twice where it is written twice.</returns>
    /// <exception cref="Refusal">An entry is missing, no focal length, or out of range.</exception>
    public static IEnumerable<Length> Read(string option, string text)
    {
        foreach (string part in Parts(option, text, "24,35,70"))
        {
            bool isBare = part.All(c => char.IsAsciiDigit(c) || c == '.');
            if (!Length.TryParse(isBare ? part + "mm" : part, out Length lens, out _))
                throw Refusal.WrongCall($"{option}: '{part}' is no focal length: write millimetres with commas between, such as 24,35,70.");
            if (lens.Millimetres is < ShortestMm or > LongestMm)
                throw Refusal.WrongCall($"{option}: '{part}' is out of range: a lens for landscapes has {ShortestMm} to {LongestMm} mm.");
            yield return lens;
        }
    }

    /// <summary>The entries of a list, parted by commas or semicolons.</summary>
    /// <exception cref="Refusal">An entry is missing.</exception>
    public static string[] Parts(string option, string text, string example)
    {
        string[] parts = text.Split([',', ';'], StringSplitOptions.TrimEntries);
        return Array.TrueForAll(parts, p => p.Length > 0) ? parts : throw Refusal.WrongCall($"{option}: an entry is missing {Where()}: write it as {example}.");

        string Where() => parts.Length == 1 ? "because the list is empty" : parts[0].Length == 0 ? "before the first comma" : parts[^1].Length == 0 ? "after the last comma" : "between two commas";
    }
}
