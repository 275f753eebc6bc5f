namespace Leafstop.Raw.Synthetic;

/// <summary>The row kernel [k, 1 − 2k, k] over the nearest samples of one colour.</summary>
/// <remarks>On white noise: variance ratio v = 1 − 4k + 6k², lag-1 correlation ρ = (2k − 4k²) / v. Derived; k = 0.1 gives ρ = 0.2424 and √v = 0.8124.</remarks>
/// <param name="SideWeight">k, 0 to 0.25.</param>
public readonly record struct SmoothingKernel(double SideWeight)
{
    /// <summary>The kernel that gives white noise the correlation ρ: the smaller root of (4 + 6ρ) k² − (2 + 4ρ) k + ρ = 0.</summary>
    /// <param name="correlation">ρ, 0 to 0.4.</param>
    /// <exception cref="ArgumentOutOfRangeException">ρ is outside 0 to 0.4.</exception>
    public static SmoothingKernel ForCorrelation(double correlation)
    {
        if (correlation is not (>= 0 and <= 0.4))
            throw new ArgumentOutOfRangeException(nameof(correlation), correlation, "The correlation lies between 0 and 0.4.");
        double a = 4 + 6 * correlation, b = 2 + 4 * correlation;
        return new((b - Math.Sqrt(b * b - 4 * a * correlation)) / (2 * a));
    }

    /// <summary>Variance after over variance before, white noise.</summary>
    public double VarianceRatio => 1 - 4 * SideWeight + 6 * SideWeight * SideWeight;

    /// <summary>Correlation of neighbours, white noise.</summary>
    public double Correlation => (2 * SideWeight - 4 * SideWeight * SideWeight) / VarianceRatio;
}
