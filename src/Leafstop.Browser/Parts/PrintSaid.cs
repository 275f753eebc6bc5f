using Leafstop.Core.Quantities;

namespace Leafstop.Browser.Parts;

/// <summary>The print that is meant, as a person writes it.</summary>
internal static class PrintSaid
{
    /// <summary>Reads a width or a distance.</summary>
    /// <returns>What is wrong, in a sentence; null when it was read.</returns>
    public static string? Read(string text, bool isWidth, out double millimetres)
    {
        bool isRead = Length.TryParse(text, out Length length, out string why);
        millimetres = isRead ? length.Millimetres : 0;
        return !isRead ? $"{(isWidth ? "Width of the print" : "Distance from the eye")}: {why}"
            : length.Metres is < 0.01 or > 100 ? $"{text} is not between 1 cm and 100 m: write a length with its unit, such as 60 cm."
            : null;
    }
}
