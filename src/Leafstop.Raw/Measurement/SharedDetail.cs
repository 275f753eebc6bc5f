using Leafstop.Raw.Frames;

namespace Leafstop.Raw.Measurement;

/// <summary>The fine detail that two frames have in common: noise differs between them, the scene does not.</summary>
internal static class SharedDetail
{
    private const int MostRows = 400;

    /// <summary>Mean product of the two frames' second differences over the mean product of their signals, one site of the mosaic, clipped samples left out; null without light.</summary>
    public static double? Of(MosaicFrame first, MosaicFrame second, TileLayout layout, double blackDn, int clipDn)
    {
        int siteIndex = layout.PlaneOfSite.IndexOf(layout.BrightPlane);
        int siteX = siteIndex % layout.CellColumns, siteY = siteIndex / layout.CellColumns, dx = layout.CellColumns, dy = layout.CellRows;
        int cells = (first.Height - siteY) / dy, every = Math.Max(1, cells / MostRows);
        double detail = 0, light = 0;
        for (int cell = 1; cell < cells - 1; cell += every)
        {
            int y = siteY + cell * dy;
            var a = new Cross(first.Row(y - dy), first.Row(y), first.Row(y + dy));
            var b = new Cross(second.Row(y - dy), second.Row(y), second.Row(y + dy));
            for (int x = siteX + dx; x + dx < first.Width; x += dx)
            {
                if (a.Largest(x, dx) >= clipDn || b.Largest(x, dx) >= clipDn) continue;
                detail += (double)a.SecondDifference(x, dx) * b.SecondDifference(x, dx);
                light += (a.Centre(x) - blackDn) * (b.Centre(x) - blackDn);
            }
        }

        return light > 0 ? detail / light : null;
    }

    private readonly ref struct Cross(ReadOnlySpan<ushort> above, ReadOnlySpan<ushort> row, ReadOnlySpan<ushort> below)
    {
        private readonly ReadOnlySpan<ushort> _above = above, _row = row, _below = below;

        public double Centre(int x) => _row[x];

        public int SecondDifference(int x, int dx) => 4 * _row[x] - _row[x - dx] - _row[x + dx] - _above[x] - _below[x];

        public int Largest(int x, int dx) => Math.Max(Math.Max(_row[x], Math.Max(_row[x - dx], _row[x + dx])), Math.Max(_above[x], _below[x]));
    }
}
