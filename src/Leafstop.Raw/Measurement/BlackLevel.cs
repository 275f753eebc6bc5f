using Leafstop.Core.Sensor;
using Leafstop.Raw.Frames;

namespace Leafstop.Raw.Measurement;

/// <summary>The black level that one file gives for one plane: masked pixels, then the exact tag, then the library's whole number.</summary>
internal readonly record struct BlackLevel(double Dn, BlackSource Source, double? ErrorDn, long MaskedSamples, double? MaskedSdDn)
{
    /// <summary>Fewer masked samples than this say too little.</summary>
    private const int LeastMasked = 200;

    /// <summary>A border beside the picture with this many samples needs no help from one above it.</summary>
    private const int LeastBeside = 10_000;

    public static BlackLevel[] OfPlanes(MosaicFrame frame)
    {
        MosaicPattern mosaic = frame.Header.Mosaic;
        IReadOnlyList<int> planeOfSite = mosaic.PlaneOfSite();
        int[][] masked = MaskedCounts(frame, mosaic, planeOfSite);
        var levels = new BlackLevel[masked.Length];
        for (int plane = 0; plane < levels.Length; plane++)
        {
            int[] sites = [.. Enumerable.Range(0, planeOfSite.Count).Where(s => planeOfSite[s] == plane)];
            if (masked[plane].Any(n => n > 0))
            {
                var (mean, sd, samples) = new SampleHistogram(masked[plane]).Hump();
                if (samples >= LeastMasked)
                {
                    levels[plane] = new BlackLevel(mean, BlackSource.MaskedPixels, sd / Math.Sqrt(samples), samples, sd);
                    continue;
                }
            }

            levels[plane] = frame.TagBlackDn.Length > 0
                ? new BlackLevel(sites.Average(s => frame.TagBlackDn[s]), BlackSource.ExactTag, null, 0, null)
                : new BlackLevel(sites.Average(s => frame.LibraryBlackDn[s]), BlackSource.LibraryInteger, null, 0, null);
        }

        return levels;
    }

    private static int[][] MaskedCounts(MosaicFrame frame, MosaicPattern mosaic, IReadOnlyList<int> planeOfSite)
    {
        int[][] counts = [.. mosaic.PlaneNames().Select(_ => new int[65536])];
        ReadOnlySpan<ushort> samples = frame.Samples.Span;
        int frameRows = samples.Length / frame.Stride;
        // Rows stray together, border and picture: the border beside the picture strays as the picture does, one above it does not.
        MaskedArea[] beside = BorderOffsets.Beside(frame);
        foreach (MaskedArea area in beside.Sum(a => (a.Right - a.Left) * (a.Bottom - a.Top)) >= LeastBeside ? beside : [.. frame.MaskedAreas])
        {
            for (int y = Math.Max(0, area.Top); y < Math.Min(area.Bottom, frameRows); y++)
            {
                int site = Modulo(y - frame.Top, mosaic.Rows) * mosaic.Columns;
                for (int x = Math.Max(0, area.Left); x < Math.Min(area.Right, frame.Stride); x++)
                    counts[planeOfSite[site + Modulo(x - frame.Left, mosaic.Columns)]][samples[y * frame.Stride + x]]++;
            }
        }

        return counts;
    }

    private static int Modulo(int value, int period) => (value % period + period) % period;
}
