using System.Collections.Immutable;
using Leafstop.Core.Sensor;
using Leafstop.Raw.Frames;
using MathNet.Numerics.Distributions;

namespace Leafstop.Raw.Measurement;

/// <summary>A noise curve from one frame, when it has no partner.</summary>
/// <remarks>
/// In each tile the difference of differences of four like samples, one cell apart, is free of any even slope of brightness
/// (the kernel of Immerkær 1996, SEN-35, cut down to its corner); a quarter of its mean square is the noise variance plus
/// what texture adds. In each brightness bin the calmest tiles set the value: the 20 % point of their variances over the
/// 20 % point that flat tiles would show. Where less than half of a bin is flat the figure reads high; it is told as such.
/// </remarks>
internal static class SingleNoise
{
    private const double CalmShare = 0.2;
    private const int LeastTiles = 40;

    public static ImmutableArray<PairPlane> Curves(MosaicFrame frame, TileSums sums, double[] blackDn, int clipDn, int floorDn) =>
        [.. Enumerable.Range(0, sums.Layout.Planes).Select(p => Curve(frame, sums, p, blackDn[p], clipDn, floorDn))];

    private static PairPlane Curve(MosaicFrame frame, TileSums sums, int plane, double blackDn, int clipDn, int floorDn)
    {
        TileLayout layout = sums.Layout;
        var byBin = new SortedDictionary<int, List<(double Mean, double Variance)>>();
        double range = Math.Max(1, clipDn - blackDn), samplesPerTile = 0;
        long clipped = 0;
        for (int tile = 0; tile < layout.Count; tile++)
        {
            if (sums.Largest[plane][tile] >= clipDn || sums.Smallest[plane][tile] <= floorDn)
            {
                clipped++;
                continue;
            }

            double mean = sums.MeanDn(plane, tile);
            var (variance, samples) = TileVariance(frame, layout, plane, tile);
            samplesPerTile = samples;
            int bin = (int)(2 * Math.Log2(1 + Math.Max(0, mean - blackDn) / (range / 4096)));
            if (!byBin.TryGetValue(bin, out var list)) byBin[bin] = list = [];
            list.Add((mean, variance));
        }

        // Overlapping differences share samples: the squares of their correlations sum to 9/4, so fewer count as independent.
        double freedom = Math.Max(4, samplesPerTile / 2.25);
        double calm = ChiSquared.InvCDF(freedom, CalmShare) / freedom;
        ImmutableArray<SignalBin> bins =
        [
            .. byBin.Values.Where(b => b.Count >= LeastTiles).Select(b =>
            {
                double[] variances = [.. b.Select(t => t.Variance).Order()];
                int calmTiles = (int)(CalmShare * b.Count);
                return new SignalBin
                {
                    Samples = (long)b.Count * layout.PerTile[plane],
                    // A quantile of a fifth carries about a third of the weight that the mean of all tiles would.
                    DegreesOfFreedom = (long)(b.Count * freedom / 3),
                    MeanRawDn = b.Average(t => t.Mean),
                    VarianceDn2 = variances[calmTiles] / calm,
                };
            }),
        ];
        return new PairPlane { Plane = layout.PlaneNames[plane], Bins = bins, Tiles = layout.Count, ClippedTiles = clipped };
    }

    private static (double Variance, int Samples) TileVariance(MosaicFrame frame, TileLayout layout, int plane, int tile)
    {
        int left = tile % layout.Columns * layout.Width, top = tile / layout.Columns * layout.Height, n = 0;
        long squares = 0;
        for (int y = 0; y + layout.CellRows < layout.Height; y++)
        {
            ReadOnlySpan<ushort> row = frame.Row(top + y), below = frame.Row(top + y + layout.CellRows);
            int site = y % layout.CellRows * layout.CellColumns;
            for (int x = 0; x + layout.CellColumns < layout.Width; x++)
            {
                if (layout.PlaneOfSite[site + x % layout.CellColumns] != plane) continue;
                int at = left + x, next = at + layout.CellColumns;
                long d = row[at] - row[next] - below[at] + below[next];
                squares += d * d;
                n++;
            }
        }

        return (squares / 4.0 / n, n);
    }
}
