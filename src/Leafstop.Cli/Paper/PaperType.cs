using System.Globalization;
using System.Reflection;
using System.Text;
using PdfSharp.Drawing;
using PdfSharp.Fonts;

namespace Leafstop.Cli.Paper;

/// <summary>The type of printed pages, from this assembly: book and strong for what the tool prints, hand for what the person writes. Nothing is taken from the machine.</summary>
internal sealed class PaperType : IFontResolver
{
    /// <summary>Nothing on paper is smaller, points.</summary>
    public const double LeastPoints = 10;

    private const string Family = "Leafstop Paper";

    // The writer knows one resolver for the whole program, and wants it before the first font.
    static PaperType() => GlobalFontSettings.FontResolver = new PaperType();

    /// <summary>Roman.</summary>
    /// <param name="points">Size, at least <see cref="LeastPoints"/>.</param>
    public static XFont Book(double points) => Of(points, XFontStyleEx.Regular);

    /// <summary>Roman, stronger: heads and letters.</summary>
    /// <param name="points">Size, at least <see cref="LeastPoints"/>.</param>
    public static XFont Strong(double points) => Of(points, XFontStyleEx.Bold);

    /// <summary>Italic: what the person writes.</summary>
    /// <param name="points">Size, at least <see cref="LeastPoints"/>.</param>
    public static XFont Hand(double points) => Of(points, XFontStyleEx.Italic);

    /// <summary>The text with "…" in place of letters that the type lacks, one for each run of them.</summary>
    public static string WithKnownLetters(string text)
    {
        StringBuilder known = new();
        bool isGap = false;
        string spaces = "";
        foreach (Rune letter in text.EnumerateRunes())
        {
            // Spaces after a gap wait: before another gap they would set two marks apart that stand for one.
            if (isGap && letter.Value == ' ')
                spaces = " ";
            else if (TypeLetters.All.Contains(letter.Value))
            {
                known.Append(spaces).Append(letter);
                (isGap, spaces) = (false, "");
            }
            // Marks over a letter go with it.
            else if (!isGap && Rune.GetUnicodeCategory(letter) is not (UnicodeCategory.NonSpacingMark or UnicodeCategory.Format))
            {
                isGap = true;
                known.Append('…');
            }
        }
        return known.Length > 0 ? known.ToString() : "…";
    }

    FontResolverInfo? IFontResolver.ResolveTypeface(string familyName, bool isBold, bool isItalic) =>
        familyName == Family ? new FontResolverInfo(isItalic ? "leafstop-hand.ttf" : isBold ? "leafstop-strong.ttf" : "leafstop-book.ttf") : null;

    byte[]? IFontResolver.GetFont(string faceName) => FileOf(faceName);

    /// <summary>The font file of that name; null when there is none.</summary>
    internal static byte[]? FileOf(string faceName)
    {
        using Stream? stream = Assembly.GetExecutingAssembly().GetManifestResourceStream("Paper/" + faceName);
        if (stream is null) return null;
        using var copy = new MemoryStream();
        stream.CopyTo(copy);
        return copy.ToArray();
    }

    private static XFont Of(double points, XFontStyleEx style)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(points, LeastPoints);
        return new XFont(Family, points, style);
    }
}
