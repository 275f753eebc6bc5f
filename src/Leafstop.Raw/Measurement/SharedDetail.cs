using Leafstop.Raw.Frames;

namespace Leafstop.Raw.Measurement;

/// <summary>The fine detail that two frames have in common: noise differs between them, the scene does not.</summary>
internal static class SharedDetail
{
    /// <summary>Rows beyond this many samples add nothing that matters to a mean product.</summary>
    private const int MostSamples = 250_000;

    /// <summary>Mean product of the two frames' second differences over the mean product of their signals, one site of the mosaic, clipped samples left out; null without light.</summary>
    public static double? Of(MosaicFrame first, MosaicFrame second, TileLayout layout, double blackDn, int clipDn)
    {
        int siteIndex = layout.PlaneOfSite.IndexOf(layout.BrightPlane);
        int siteX = siteIndex % layout.CellColumns, siteY = siteIndex / layout.CellColumns, dx = layout.CellColumns, dy = layout.CellRows;
        int cells = (first.Height - siteY) / dy;
        int every = (int)Math.Max(1, (long)cells * (first.Width / dx) / MostSamples);
        // Whole numbers up to the end: a product of second differences stays below 2^38, and a few million are added.
        long detail = 0, product = 0, sum = 0, n = 0;
        for (int cell = 1; cell < cells - 1; cell += every)
        {
            int y = siteY + cell * dy;
            ReadOnlySpan<ushort> a = first.Row(y), b = second.Row(y);
            ReadOnlySpan<ushort> aboveA = first.Row(y - dy)[..a.Length], belowA = first.Row(y + dy)[..a.Length];
            ReadOnlySpan<ushort> aboveB = second.Row(y - dy)[..a.Length], belowB = second.Row(y + dy)[..a.Length];
            if (a.Length <= siteX + dx) continue;
            int leftA = a[siteX], leftB = b[siteX], atA = a[siteX + dx], atB = b[siteX + dx];
            for (int x = siteX + dx; x + dx < a.Length; x += dx)
            {
                int rightA = a[x + dx], rightB = b[x + dx];
                int upA = aboveA[x], upB = aboveB[x], downA = belowA[x], downB = belowB[x];
                int largest = Math.Max(
                    Math.Max(Math.Max(leftA, rightA), Math.Max(upA, downA)),
                    Math.Max(Math.Max(leftB, rightB), Math.Max(upB, downB)));
                if (Math.Max(largest, Math.Max(atA, atB)) < clipDn)
                {
                    detail += (long)(4 * atA - leftA - rightA - upA - downA) * (4 * atB - leftB - rightB - upB - downB);
                    product += (long)atA * atB;
                    sum += atA + atB;
                    n++;
                }

                (leftA, atA, leftB, atB) = (atA, rightA, atB, rightB);
            }
        }

        double light = product - blackDn * sum + blackDn * blackDn * n;
        return light > 0 ? detail / light : null;
    }
}
