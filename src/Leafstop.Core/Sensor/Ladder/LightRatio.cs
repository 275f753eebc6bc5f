namespace Leafstop.Core.Sensor;

/// <summary>The brightness of one frame against another, from their coarse maps.</summary>
/// <remarks>Median over blocks of the log ratio, black removed with each frame's own black. Blocks with a clipped sample are out; of the rest only
/// the brighter half counts, because black is known to a fraction of a DN at best. The median forgives a part of the scene that moved.</remarks>
internal static class LightRatio
{
    private const double LeastSignalDn = 8;
    private const int LeastBlocks = 12;

    /// <summary>log2 of second over first, with the number of blocks behind it; null when too few blocks can be compared.</summary>
    public static (double Stops, int Blocks)? Of(LevelMap first, double firstBlack, LevelMap second, double secondBlack)
    {
        if (first.Columns != second.Columns || first.Rows != second.Rows) return null;
        List<(double Least, double Stops)> blocks = [];
        for (int i = 0; i < first.MeanRawDn.Length; i++)
        {
            if (first.MeanRawDn[i] < 0 || second.MeanRawDn[i] < 0) continue;
            double a = first.MeanRawDn[i] - firstBlack, b = second.MeanRawDn[i] - secondBlack;
            if (Math.Min(a, b) < LeastSignalDn) continue;
            blocks.Add((Math.Min(a, b), Math.Log2(b / a)));
        }

        if (blocks.Count < Math.Min(LeastBlocks, first.MeanRawDn.Length / 4 + 1)) return null;
        double[] bright = [.. blocks.OrderByDescending(b => b.Least).Take(Math.Max(LeastBlocks, blocks.Count / 2)).Select(b => b.Stops).Order()];
        return (Median.OfSorted(bright), blocks.Count);
    }
}
