using Leafstop.Core.Motion;
using MathNet.Numerics.Distributions;

namespace Leafstop.Core.Judging;

/// <summary>The arithmetic of a forced choice of two.</summary>
public static class ChoiceOfTwo
{
    /// <summary>The chance that plain guessing is right at least this often (PSY-21): the upper tail of the binomial law at one half.</summary>
    /// <param name="right">Right answers, 0 to all.</param>
    /// <param name="answers">All answers, 1 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">Counts that cannot be.</exception>
    public static Chance OfGuessing(int right, int answers)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(answers, 1);
        if (right < 0 || right > answers)
            throw new ArgumentOutOfRangeException(nameof(right), right, $"Of {answers} answers between 0 and {answers} are right.");
        double sum = 0;
        for (int k = right; k <= answers; k++)
            sum += Binomial.PMF(0.5, answers, k);
        return Chance.Of(Math.Min(1, sum));
    }

    /// <summary>How far apart the two impressions lie in their own spread, d′ = √2 · z(share right) (PSY-05); below zero when wrong more often than right.</summary>
    /// <param name="shareRight">Above 0 and below 1: none or all right leave it unbounded.</param>
    /// <exception cref="ArgumentOutOfRangeException">0 or 1.</exception>
    public static double Separation(Chance shareRight) => shareRight.Share is > 0 and < 1
        ? Math.Sqrt(2) * Normal.InvCDF(0, 1, shareRight.Share)
        : throw new ArgumentOutOfRangeException(nameof(shareRight), shareRight.Share, "With none or all right no separation can be told.");

    /// <summary>The share right at a separation, Φ(d′ / √2) (PSY-07, two choices).</summary>
    public static Chance ShareRight(double separation) => Chance.Of(Normal.CDF(0, 1, separation / Math.Sqrt(2)));
}
