using System.Reflection;
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

    FontResolverInfo? IFontResolver.ResolveTypeface(string familyName, bool isBold, bool isItalic) =>
        familyName == Family ? new FontResolverInfo(isItalic ? "leafstop-hand.ttf" : isBold ? "leafstop-strong.ttf" : "leafstop-book.ttf") : null;

    byte[]? IFontResolver.GetFont(string faceName)
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
