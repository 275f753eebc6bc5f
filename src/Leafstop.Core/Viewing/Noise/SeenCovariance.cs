namespace Leafstop.Core.Viewing;

/// <summary>What is left of noise after contrast sensitivity: ∬ S(f) H₁(f) H₂(f) df over the picture's frequencies, cross terms included.</summary>
internal static class SeenCovariance
{
    private const int Steps = 160;

    /// <summary>Covariances of the three opponent axes as seen.</summary>
    /// <param name="opponent">[first, second][lag], lags row by row from −reach to reach.</param>
    /// <param name="reach">Farthest lag.</param>
    /// <param name="seen">The eye.</param>
    public static double[,] Of(double[,][] opponent, int reach, SeenFrequencies seen)
    {
        // Both sensitivities are even, so only the parts even in both lags count: a quarter of the plane does for all of it.
        double end = Math.Min(0.5, SeenFrequencies.Highest / seen.PixelsPerDegree), step = end / Steps;
        var cosines = new double[Steps, reach + 1];
        for (int i = 0; i < Steps; i++)
            for (int lag = 0; lag <= reach; lag++)
                cosines[i, lag] = Math.Cos(2 * Math.PI * (i + 0.5) * step * lag);
        var folded = new double[3, 3][,];
        for (int i = 0; i < 3; i++)
            for (int j = i; j < 3; j++)
                folded[i, j] = Folded(opponent[i, j], reach);
        var sum = new double[3, 3];
        var shares = new double[3];
        for (int y = 0; y < Steps; y++)
        {
            var rows = new double[3, 3][];
            for (int i = 0; i < 3; i++)
                for (int j = i; j < 3; j++)
                    rows[i, j] = AlongRow(folded[i, j], y);
            for (int x = 0; x < Steps; x++)
            {
                for (int axis = 0; axis < 3; axis++) shares[axis] = seen.Share(axis, (x + 0.5) * step, (y + 0.5) * step);
                for (int i = 0; i < 3; i++)
                {
                    for (int j = i; j < 3; j++)
                    {
                        double power = 0;
                        for (int lag = 0; lag <= reach; lag++) power += rows[i, j][lag] * cosines[x, lag];
                        sum[i, j] += 4 * step * step * power * shares[i] * shares[j];
                    }
                }
            }
        }
        for (int i = 0; i < 3; i++)
            for (int j = 0; j < i; j++)
                sum[i, j] = sum[j, i];
        return sum;

        double[] AlongRow(double[,] lags, int y)
        {
            var row = new double[reach + 1];
            for (int dx = 0; dx <= reach; dx++)
                for (int dy = 0; dy <= reach; dy++)
                    row[dx] += lags[dy, dx] * cosines[y, dy];
            return row;
        }
    }

    private static double[,] Folded(double[] lags, int reach)
    {
        int side = 2 * reach + 1;
        var folded = new double[reach + 1, reach + 1];
        for (int dy = -reach; dy <= reach; dy++)
            for (int dx = -reach; dx <= reach; dx++)
                folded[Math.Abs(dy), Math.Abs(dx)] += lags[(dy + reach) * side + dx + reach];
        return folded;
    }
}
