using Leafstop.Raw.Frames;

namespace Leafstop.Raw.Measurement;

/// <summary>Pixels that stand far above their dark surroundings in both frames of a pair.</summary>
/// <remarks>
/// Looked for in cap frames and in the dark tiles of a scene. A hot pixel is one sample, alone: it exceeds the tile by eight
/// standard deviations in both frames while the samples around it, of whatever colour, do not. A small light spreads over several.
/// </remarks>
internal readonly record struct HotPixels(long Found, long Searched)
{
    private const double Sigmas = 8;

    /// <param name="first">First frame.</param>
    /// <param name="second">Second frame; the first again for one alone.</param>
    /// <param name="sums">Tile sums of the two.</param>
    /// <param name="noise">Per plane: the noise of the pair, which tells the sd.</param>
    /// <param name="blackDn">Per plane.</param>
    /// <param name="clipDn">Clip level, to know what dark is.</param>
    public static HotPixels In(MosaicFrame first, MosaicFrame second, TileSums sums, PairNoise[] noise, double[] blackDn, int clipDn)
    {
        TileLayout layout = sums.Layout;
        long found = 0, searched = 0;
        var limits = new double[layout.Planes];
        for (int tile = 0; tile < layout.Count; tile++)
        {
            bool dark = true, suspect = false;
            for (int plane = 0; plane < layout.Planes; plane++)
            {
                // Dark: within 7 stops below clip, where a hot pixel shows and a scene has little detail.
                double mean = sums.MeanDn(plane, tile), sd = Math.Sqrt(noise[plane].VarianceAt(tile));
                dark &= mean - blackDn[plane] < (clipDn - blackDn[plane]) / 128.0 + 2 * sd;
                limits[plane] = mean + Sigmas * sd;
                suspect |= sums.Largest[plane][tile] > limits[plane];
            }

            if (!dark) continue;
            searched += layout.Width * layout.Height;
            if (suspect) found += CountAlone(first, second, layout, tile, limits);
        }

        return new HotPixels(found, searched);
    }

    private static int CountAlone(MosaicFrame first, MosaicFrame second, TileLayout layout, int tile, double[] limits)
    {
        int left = tile % layout.Columns * layout.Width, top = tile / layout.Columns * layout.Height, found = 0;
        for (int y = top; y < top + layout.Height; y++)
            for (int x = left; x < left + layout.Width; x++)
                if (Exceeds(x, y) && IsAlone(x, y)) found++;
        return found;

        bool Exceeds(int x, int y)
        {
            double limit = limits[layout.PlaneOfSite[y % layout.CellRows * layout.CellColumns + x % layout.CellColumns]];
            return first.Row(y)[x] > limit && second.Row(y)[x] > limit;
        }

        bool IsAlone(int x, int y)
        {
            for (int dy = -1; dy <= 1; dy++)
            {
                for (int dx = -1; dx <= 1; dx++)
                {
                    if (dx == 0 && dy == 0) continue;
                    int nx = x + dx, ny = y + dy;
                    if (nx >= left && nx < left + layout.Width && ny >= top && ny < top + layout.Height && Exceeds(nx, ny)) return false;
                }
            }

            return true;
        }
    }
}
