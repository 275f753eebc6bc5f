using Leafstop.Raw.Frames;
using MathNet.Numerics.LinearAlgebra;

namespace Leafstop.Raw.Measurement;

/// <summary>How the second frame of a pair lies against the first.</summary>
/// <param name="ShiftXPx">Shift to the right, sensor pixels.</param>
/// <param name="ShiftYPx">Shift downwards, sensor pixels.</param>
/// <param name="ErrorPx">Standard error of either, sensor pixels, from the noise of the two frames.</param>
/// <param name="Likeness">Correlation of the two pictures after the shift is undone, 1 for the same picture.</param>
/// <param name="DifferenceDn">What is left between them, root mean square, DN.</param>
internal readonly record struct Alignment(double ShiftXPx, double ShiftYPx, double ErrorPx, double Likeness, double DifferenceDn)
{
    private const int MostBlocks = 250_000;
    private const int Rounds = 12;

    /// <summary>Compares the brightness of whole mosaic cells.</summary>
    /// <remarks>
    /// Least squares on the picture's own slopes, repeated from coarse to fine until the shift settles: the fixed point is
    /// where the two smoothed pictures agree, so the slopes need not be exact. Compared with the peak of a phase correlation
    /// it weighs every edge by its strength and gives an error with the answer.
    /// </remarks>
    public static Alignment Of(MosaicFrame first, MosaicFrame second)
    {
        int cellX = first.Header.Mosaic.Columns, cellY = first.Header.Mosaic.Rows;
        int merge = 1;
        while ((long)first.Width / (cellX * merge) * (first.Height / (cellY * merge)) > MostBlocks) merge++;
        Picture a = Picture.OfBlocks(first, cellX * merge, cellY * merge), b = Picture.OfBlocks(second, cellX * merge, cellY * merge);

        var pyramid = new Stack<(Picture A, Picture B)>();
        pyramid.Push((a.Smoothed(), b.Smoothed()));
        while (pyramid.Peek().A.Width >= 64 && pyramid.Peek().A.Height >= 64 && pyramid.Count < 6)
            pyramid.Push((pyramid.Peek().A.Halved(), pyramid.Peek().B.Halved()));

        Solution solution = default;
        while (pyramid.TryPop(out var level))
        {
            solution = new Solution(solution.X * 2, solution.Y * 2, 0, 0, 0);
            for (int round = 0; round < Rounds; round++)
            {
                Solution step = Step(level.A, level.B, solution.X, solution.Y);
                solution = step with { X = solution.X + step.X, Y = solution.Y + step.Y };
                if (step.Error > 0.5 || (Math.Abs(step.X) < 5e-4 && Math.Abs(step.Y) < 5e-4)) break;
            }

            // A step that runs out of the picture has lost the scene.
            if (!(Math.Abs(solution.X) < level.A.Width / 3.0 && Math.Abs(solution.Y) < level.A.Height / 3.0))
                return new Alignment(double.NaN, double.NaN, double.PositiveInfinity, 0, double.PositiveInfinity);
        }

        return new Alignment(solution.X * cellX * merge, solution.Y * cellY * merge, solution.Error * cellX * merge, solution.Likeness, solution.Difference);
    }

    private readonly record struct Solution(double X, double Y, double Error, double Likeness, double Difference);

    /// <summary>One least-squares step: b at (x + shift) = gain · a + offset − slopes · step.</summary>
    private static Solution Step(Picture a, Picture b, double shiftX, double shiftY)
    {
        // Unknowns: step x, step y, brightness gain, offset; the normal equations, 4 × 4 with the right-hand side beside them.
        Picture moved = b.Shifted(shiftX, shiftY);
        int margin = 3 + (int)Math.Ceiling(Math.Max(Math.Abs(shiftX), Math.Abs(shiftY)));
        var sums = new SlopeSums();
        for (int y = margin; y < a.Height - margin; y++)
            sums.Add(a.Row(y - 1), a.Row(y), a.Row(y + 1), moved.Row(y), margin, a.Width - margin);
        var (n, sa, sb, saa, sbb, sab) = (sums.Count, sums.A, sums.B, sums.AA, sums.BB, sums.AB);
        ReadOnlySpan<double> normal =
        [
            sums.XX, sums.XY, -sums.XA, -sums.X, -sums.XB,
            0, sums.YY, -sums.YA, -sums.Y, -sums.YB,
            0, 0, saa, sa, sab,
            0, 0, 0, n, sb,
        ];
        double likeness = (sab - sa * sb / n) / Math.Sqrt(Math.Max(1e-30, (saa - sa * sa / n) * (sbb - sb * sb / n)));
        double difference = Math.Sqrt(Math.Max(0, (saa + sbb - 2 * sab) / n - (sa - sb) / n * ((sa - sb) / n)));
        if (n < 100 || Solve(normal) is not { } solved) return new Solution(0, 0, double.PositiveInfinity, n < 100 ? 0 : likeness, difference);
        double residual = sbb;
        for (int i = 0; i < 4; i++) residual += solved.Solution[i] * solved.Right[i] * -1;
        // Smoothing makes neighbours share noise: about one sample in eight is independent.
        double sigma2 = Math.Max(0, residual) / n * 8;
        return new Solution(solved.Solution[0], solved.Solution[1], Math.Sqrt(sigma2 * Math.Max(solved.VarianceX, solved.VarianceY)), likeness, difference);
    }

    private static (double[] Solution, double[] Right, double VarianceX, double VarianceY)? Solve(ReadOnlySpan<double> normal)
    {
        var matrix = Matrix<double>.Build.Dense(4, 4);
        for (int i = 0; i < 4; i++)
            for (int j = 0; j < 4; j++) matrix[i, j] = normal[Math.Min(i, j) * 5 + Math.Max(i, j)];
        double[] right = [normal[4], normal[9], normal[14], normal[19]];
        // Flat pictures have no slope to hold on to.
        if (matrix[0, 0] <= 0 || matrix[1, 1] <= 0 || matrix[2, 2] <= 0) return null;
        var inverse = matrix.Inverse();
        if (!double.IsFinite(inverse[0, 0]) || inverse[0, 0] <= 0 || inverse[1, 1] <= 0) return null;
        double[] solution = [.. (inverse * Vector<double>.Build.Dense(right))];
        return (solution, right, inverse[0, 0], inverse[1, 1]);
    }
}
