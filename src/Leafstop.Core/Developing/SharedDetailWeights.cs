using Leafstop.Core.Sensor;

namespace Leafstop.Core.Developing;

/// <summary>Weights with the least expected squared error when fine detail is the same in every colour and only coarse detail differs.</summary>
/// <remarks>
/// <para>Best linear unbiased estimation (kriging) with several variables: the weights of a value solve one set of linear equations made of the covariances
/// between the samples within the margin. Assumed of the scene: a brightness that all colours share, with covariance exp(−d / 8) at a distance of d pixels, and to each
/// colour its own deviation, with covariance 0.08 · exp(−(d / 5)² / 2), which hardly changes from pixel to pixel. The figures are a rule of thumb of this program.</para>
/// <para>Side conditions: flat areas of any colour and grey ramps come out exact. No noise is assumed, so that nothing is smoothed: this is no noise reduction.</para>
/// <para>Range: red, green and blue mosaics whose neighbourhood of 5 × 5 (7 × 7 for cells larger than 2) holds every colour. Fails, as everything that lets colours help one another, where a
/// saturated colour alone carries the detail.</para>
/// </remarks>
internal static class SharedDetailWeights
{
    private const double SharedReach = 8, OwnReach = 5, OwnShare = 0.08;

    public static MosaicInterpolation Of(MosaicPattern mosaic)
    {
        var channelOfSite = MosaicInterpolation.ChannelsOf(mosaic);
        int channels = channelOfSite.Max() + 1;
        if (channels == 1) return new MosaicInterpolation(mosaic, 0, (_, _, _) => [1]);
        int margin = Math.Max(mosaic.Rows, mosaic.Columns) <= 2 ? 2 : 3, side = 2 * margin + 1, samples = side * side;
        // One factorisation a place of the cell serves all its colours.
        var solved = new Dictionary<(int, int), double[][]>();
        return new MosaicInterpolation(mosaic, margin, (row, column, channel) =>
        {
            if (!solved.TryGetValue((row, column), out double[][]? all)) solved[(row, column)] = all = Solve(row, column);
            return all[channel];
        });

        double[][] Solve(int row, int column)
        {
            int[] colours = [.. Enumerable.Range(0, samples).Select(i => Channel(row + i / side - margin, column + i % side - margin))];
            int conditions = channels + 2;
            double[,] left = new double[samples + conditions, samples + conditions], right = new double[samples + conditions, channels];
            for (int i = 0; i < samples; i++)
            {
                int xi = i % side - margin, yi = i / side - margin;
                for (int j = 0; j < samples; j++) left[i, j] = Covariance(xi - (j % side - margin), yi - (j / side - margin), colours[i] == colours[j]);
                for (int c = 0; c < channels; c++) right[i, c] = Covariance(xi, yi, colours[i] == c);
                Condition(i, colours[i], 1);
                Condition(i, channels, xi);
                Condition(i, channels + 1, yi);
            }

            for (int c = 0; c < channels; c++) right[samples + c, c] = 1;
            Solved(left, right);
            int centre = colours[samples / 2];
            return
            [
                .. Enumerable.Range(0, channels).Select(c => c == centre
                    ? Recorded()
                    : [.. Enumerable.Range(0, samples).Select(i => right[i, c])]),
            ];

            void Condition(int sample, int condition, double value) => (left[sample, samples + condition], left[samples + condition, sample]) = (value, value);
        }

        // The equations give the same, up to rounding.
        double[] Recorded()
        {
            var weights = new double[samples];
            weights[samples / 2] = 1;
            return weights;
        }

        int Channel(int row, int column) =>
            channelOfSite[(row + mosaic.Rows * margin) % mosaic.Rows * mosaic.Columns + (column + mosaic.Columns * margin) % mosaic.Columns];
    }

    /// <summary>Solves linear equations by elimination, each time with the largest pivot that is left: here because the library's matrices of every kind of number would come along into the page of the workbench.</summary>
    /// <param name="left">The equations, square and not singular; used up.</param>
    /// <param name="right">Their right sides, a column each; the solutions afterwards.</param>
    private static void Solved(double[,] left, double[,] right)
    {
        int size = left.GetLength(0), columns = right.GetLength(1);
        for (int step = 0; step < size; step++)
        {
            int pivot = Enumerable.Range(step, size - step).MaxBy(row => Math.Abs(left[row, step]));
            for (int j = 0; j < size; j++) (left[step, j], left[pivot, j]) = (left[pivot, j], left[step, j]);
            for (int c = 0; c < columns; c++) (right[step, c], right[pivot, c]) = (right[pivot, c], right[step, c]);
            for (int row = step + 1; row < size; row++)
            {
                double factor = left[row, step] / left[step, step];
                for (int j = step; j < size; j++) left[row, j] -= factor * left[step, j];
                for (int c = 0; c < columns; c++) right[row, c] -= factor * right[step, c];
            }
        }

        for (int row = size - 1; row >= 0; row--)
        {
            for (int c = 0; c < columns; c++)
            {
                for (int j = row + 1; j < size; j++) right[row, c] -= left[row, j] * right[j, c];
                right[row, c] /= left[row, row];
            }
        }
    }

    private static double Covariance(double dx, double dy, bool sameColour)
    {
        double d2 = dx * dx + dy * dy;
        return Math.Exp(-Math.Sqrt(d2) / SharedReach) + (sameColour ? OwnShare * Math.Exp(-d2 / (2 * OwnReach * OwnReach)) : 0);
    }
}
