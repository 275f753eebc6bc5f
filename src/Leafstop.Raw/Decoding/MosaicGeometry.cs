using System.Collections.Immutable;
using Leafstop.Core.Sensor;
using Leafstop.Raw.Frames;

namespace Leafstop.Raw.Decoding;

/// <summary>Translates the raw library's facts about cell, black level and shielded borders into ours.</summary>
internal static unsafe class MosaicGeometry
{
    /// <summary>Samples taken off an inferred shielded area on the side of the picture: light leaks that far.</summary>
    private const int LeakMargin = 8;

    /// <summary>Samples taken off at the frame's edge, where read-out may not have settled.</summary>
    private const int EdgeMargin = 4;

    /// <summary>The colour cell at the top left of the active area; null when the frame has no simple one.</summary>
    public static MosaicPattern? Pattern(in RawFacts facts)
    {
        int sites = facts.CellRows * facts.CellColumns;
        if (sites is < 1 or > 64)
            return null;
        if (sites == 1)
            return new MosaicPattern { Rows = 1, Columns = 1, Letters = "M" };
        var letters = new char[sites];
        for (int i = 0; i < sites; i++)
            letters[i] = Letter(facts, facts.Cell[i]);
        return new MosaicPattern { Rows = facts.CellRows, Columns = facts.CellColumns, Letters = new string(letters) };
    }

    // The library's fourth colour is the second green of a three-colour sensor, or a true fourth one.
    private static char Letter(in RawFacts facts, int colour) => colour < 4 && facts.Letters[colour] is not 0 and var letter ? (char)letter : 'G';

    /// <summary>The library's whole-number black at each site of the cell.</summary>
    public static ImmutableArray<double> LibraryBlack(in RawFacts facts)
    {
        var black = new double[facts.CellRows * facts.CellColumns];
        for (int site = 0; site < black.Length; site++)
        {
            uint sum = facts.BlackCommon + facts.BlackOfColour[facts.Cell[site] & 3];
            if (facts.BlackRows > 0)
                sum += facts.BlackPattern[site / facts.CellColumns % facts.BlackRows * facts.BlackColumns + site % facts.CellColumns % facts.BlackColumns];
            black[site] = sum;
        }
        return [.. black];
    }

    /// <summary>The tagged black at each site of the cell, fractions kept; empty without a tag.</summary>
    /// <remarks>The tag counts from the tagged active area; the library moves the active area by a row or a column when it starts at an odd place.</remarks>
    public static ImmutableArray<double> TaggedBlack(in RawFacts facts, ExifFacts? exif)
    {
        if (facts.IsDng == 0 || exif is null || exif.Black.Length == 0)
            return [];
        int down = facts.Top - exif.ActiveTop, right = facts.Left - exif.ActiveLeft;
        if (down < 0 || right < 0)
            return [];
        var black = new double[facts.CellRows * facts.CellColumns];
        for (int site = 0; site < black.Length; site++)
        {
            int row = (site / facts.CellColumns + down) % exif.BlackRows, column = (site % facts.CellColumns + right) % exif.BlackColumns;
            black[site] = exif.Black[row * exif.BlackColumns + column];
        }
        return [.. black];
    }

    /// <summary>Shielded areas that hold no light.</summary>
    /// <remarks>Areas that a DNG lists are taken as listed. Areas that the library infers from the frame's size reach up to the first lit column, and the
    /// columns next to it are brighter than the rest (by 0.1 to 0.3 DN in the sample files), so those are trimmed; an area that is all margin is dropped,
    /// unless nothing else is left.</remarks>
    public static ImmutableArray<MaskedArea> Masked(in RawFacts facts)
    {
        var listed = new List<MaskedArea>();
        var trimmed = new List<MaskedArea>();
        for (int i = 0; i < 8; i++)
        {
            int top = Math.Max(0, facts.Masks[4 * i]), left = Math.Max(0, facts.Masks[4 * i + 1]);
            int bottom = Math.Min(facts.RawHeight, facts.Masks[4 * i + 2]), right = Math.Min(facts.RawWidth, facts.Masks[4 * i + 3]);
            if (bottom <= top || right <= left)
                continue;
            var area = new MaskedArea(top, left, bottom, right);
            listed.Add(area);
            if (facts.IsDng == 0 && Trim(facts, area) is { } inner)
                trimmed.Add(inner);
        }
        return trimmed.Count > 0 ? [.. trimmed] : [.. listed];
    }

    private static MaskedArea? Trim(in RawFacts facts, MaskedArea area)
    {
        bool left = area.Right <= facts.Left, right = area.Left >= facts.Left + facts.Width;
        bool above = area.Bottom <= facts.Top, below = area.Top >= facts.Top + facts.Height;
        MaskedArea inner = new(
            area.Top + (below ? LeakMargin : above ? EdgeMargin : 0),
            area.Left + (right ? LeakMargin : left ? EdgeMargin : 0),
            area.Bottom - (above ? LeakMargin : below ? EdgeMargin : 0),
            area.Right - (left ? LeakMargin : right ? EdgeMargin : 0));
        return inner.Bottom > inner.Top && inner.Right > inner.Left ? inner : null;
    }
}
