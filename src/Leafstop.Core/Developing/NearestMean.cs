using Leafstop.Core.Sensor;

namespace Leafstop.Core.Developing;

/// <summary>Plain bilinear interpolation, carried over to any mosaic.</summary>
/// <remarks>A missing value is the mean of the nearest samples of its colour, each weighted by (n − |dx|)(n − |dy|) within n − 1 pixels, n being 2 or the least that reaches any.
/// On 2×2 that is the mean of the two or four nearest.</remarks>
internal static class NearestMean
{
    public static MosaicInterpolation Of(MosaicPattern mosaic)
    {
        var channelOfSite = MosaicInterpolation.ChannelsOf(mosaic);
        int margin = 0;
        for (int site = 0; site < channelOfSite.Length; site++)
            for (int channel = 0; channel <= channelOfSite.Max(); channel++)
                margin = Math.Max(margin, Reach(site / mosaic.Columns, site % mosaic.Columns, channel));
        return new MosaicInterpolation(mosaic, margin, WeightsAt);

        double[] WeightsAt(int row, int column, int channel)
        {
            int side = 2 * margin + 1, reach = Reach(row, column, channel);
            var weights = new double[side * side];
            for (int dy = -reach; dy <= reach; dy++)
            {
                for (int dx = -reach; dx <= reach; dx++)
                {
                    if (Channel(row + dy, column + dx) == channel)
                        weights[(margin + dy) * side + margin + dx] = (reach + 1 - Math.Abs(dx)) * (reach + 1 - Math.Abs(dy));
                }
            }

            double sum = weights.Sum();
            return [.. weights.Select(w => w / sum)];
        }

        // The least number of pixels within which a sample of the colour lies; 0 where it was recorded.
        int Reach(int row, int column, int channel)
        {
            for (int reach = 0; ; reach++)
            {
                for (int dy = -reach; dy <= reach; dy++)
                    for (int dx = -reach; dx <= reach; dx++)
                        if (Channel(row + dy, column + dx) == channel) return reach;
            }
        }

        int Channel(int row, int column) =>
            channelOfSite[(row % mosaic.Rows + mosaic.Rows) % mosaic.Rows * mosaic.Columns + (column % mosaic.Columns + mosaic.Columns) % mosaic.Columns];
    }
}
