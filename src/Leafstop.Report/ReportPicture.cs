using Leafstop.Core.Quantities;

namespace Leafstop.Report;

/// <summary>A crop that shows what a number says.</summary>
/// <param name="Iso">Level that it was taken from.</param>
/// <param name="Caption">What is to be known of it, in a sentence or less.</param>
/// <param name="Png">The picture as a PNG file.</param>
public sealed record ReportPicture(Iso Iso, string Caption, ReadOnlyMemory<byte> Png)
{
    /// <summary>Heading of the row that the picture lies in; pictures with the same heading lie side by side. Empty for a row without a heading.</summary>
    public string Row { get; init; } = "";

    /// <summary>What the row shows, under its heading; that of the first picture counts.</summary>
    public string RowNote { get; init; } = "";

    /// <summary>Read out in place of the picture; the caption when empty.</summary>
    public string Alt { get; init; } = "";

    /// <summary>Width and height on the page in CSS pixels; as the file says when null.</summary>
    public int? Side { get; init; }
}
