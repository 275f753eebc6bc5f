using Leafstop.Raw.Frames;

namespace Leafstop.Raw.Measurement;

/// <summary>The offset of each row of a frame as its masked border shows it.</summary>
/// <remarks>
/// Banding moves whole rows, border and picture alike. The variance of a tile is taken about its row means and does not mind,
/// but the mean of a dark tile does: where rows stray by twice the read noise, signals of an electron drown. So the offsets
/// are taken off the tile means, but only where the border shows more than its own noise; otherwise they would add some.
/// </remarks>
internal sealed class BorderOffsets
{
    private const int LeastSamples = 16;
    private const double StandardErrors = 4;

    /// <summary>The sd of the border already holds the offsets themselves.</summary>
    private const double StraySigmas = 5;

    private readonly double[] _rows;

    private BorderOffsets(double[] rows, double errorDn)
    {
        _rows = rows;
        ErrorDn = errorDn;
    }

    /// <summary>What the border's own noise leaves uncertain in one row, DN.</summary>
    public double ErrorDn { get; }

    /// <summary>Offsets by row of the active area, DN; null when there is no border at the side, or it shows no banding.</summary>
    public static BorderOffsets? Of(MosaicFrame frame)
    {
        MaskedArea[] beside = Beside(frame);
        int width = beside.Sum(a => a.Right - a.Left);
        if (width < LeastSamples || frame.Height < 64) return null;

        ReadOnlySpan<ushort> samples = frame.Samples.Span;
        var (hump, sd, _) = HumpOf(frame, beside);
        // A hot pixel in a border of a few dozen would pass for the offset of its row.
        int lowest = (int)Math.Floor(hump - StraySigmas * sd), highest = (int)Math.Ceiling(hump + StraySigmas * sd);
        var means = new double[frame.Height];
        double inside = 0;
        for (int y = 0; y < means.Length; y++)
        {
            long sum = 0, squares = 0;
            int n = 0;
            foreach (MaskedArea area in beside)
            {
                foreach (ushort sample in samples.Slice((frame.Top + y) * frame.Stride + area.Left, area.Right - area.Left))
                {
                    if (sample < lowest || sample > highest) continue;
                    sum += sample;
                    squares += sample * sample;
                    n++;
                }
            }

            if (n < LeastSamples / 2) return null;
            means[y] = (double)sum / n;
            inside += (squares - (double)sum * sum / n) / (n - 1);
        }

        double white = inside / means.Length / width, centre = means.Average();
        double spread = means.Sum(m => (m - centre) * (m - centre)) / (means.Length - 1);
        if (spread < white * (1 + StandardErrors * Math.Sqrt(2.0 / means.Length))) return null;
        // The best guess of an offset is the border's mean drawn towards none by as much as its own noise weighs.
        double trust = 1 - white / spread;
        return new BorderOffsets([.. means.Select(m => trust * (m - centre))], Math.Sqrt(white * trust));
    }

    /// <summary>The parts of the border left and right of the picture, along all its rows: they share every row's offset with it.</summary>
    public static MaskedArea[] Beside(MosaicFrame frame) =>
    [
        .. frame.MaskedAreas
            .Where(a => a.Top <= frame.Top && a.Bottom >= frame.Top + frame.Height && (a.Right <= frame.Left || a.Left >= frame.Left + frame.Width))
            .Select(a => a with { Top = frame.Top, Bottom = frame.Top + frame.Height }),
    ];

    private static (double MeanDn, double SdDn, long Samples) HumpOf(MosaicFrame frame, MaskedArea[] beside)
    {
        var counts = new int[65536];
        ReadOnlySpan<ushort> samples = frame.Samples.Span;
        foreach (MaskedArea area in beside)
            for (int y = area.Top; y < area.Bottom; y++)
                foreach (ushort sample in samples.Slice(y * frame.Stride + area.Left, area.Right - area.Left)) counts[sample]++;
        return new SampleHistogram(counts).Hump();
    }

    /// <summary>Mean offset of all rows that hold samples of a plane, DN.</summary>
    public double InPlane(TileLayout layout, int plane)
    {
        double sum = 0;
        int samples = 0;
        for (int y = 0; y < _rows.Length; y++)
        {
            int n = layout.PerRow[plane][y % layout.CellRows];
            sum += n * _rows[y];
            samples += n;
        }

        return sum / samples;
    }

    /// <summary>Mean offset of the rows of a tile row that hold samples of a plane, DN.</summary>
    public double InTileRow(TileLayout layout, int plane, int tileRow)
    {
        double sum = 0;
        int samples = 0;
        for (int y = 0; y < layout.Height; y++)
        {
            int n = layout.PerRow[plane][y % layout.CellRows];
            sum += n * _rows[tileRow * layout.Height + y];
            samples += n;
        }

        return sum / samples;
    }
}
