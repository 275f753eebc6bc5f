using Leafstop.Core.Quantities;

namespace Leafstop.Core.Motion;

/// <summary>How fast leaves and branches move in a wind.</summary>
public static class LeafSpeed
{
    /// <summary>The band of the leaf law: a factor of 3 either way (W-13).</summary>
    public const double BandFactor = 3;

    /// <summary>Kinematic viscosity of air, m²/s, near 15 °C. Source: W-13, 1.5e-5 as used there.</summary>
    public const double AirViscosity = 1.5e-5;

    /// <summary>The constant of the leaf law: U = 740·√(ν·v/D). arXiv 2504.10584 (2025), W-13.</summary>
    public const double LawConstant = 740;

    /// <summary>The highest wind at the leaf for which the law is used; above it branches take over (W-13, W-15).</summary>
    public static readonly Speed HighestWind = Speed.FromMetresPerSecond(6);

    /// <summary>Root mean square speed of a leaf from the mean wind at it: D·U²/(740²·ν), within a factor of 3.</summary>
    /// <remarks>Found for oak, olive, magnolia, camphor and grass in low to moderate wind. Aspen and poplar move more, needles less (judgement).</remarks>
    /// <param name="windAtLeaf">At most <see cref="HighestWind"/> for the law to hold; beyond it the number is a continuation.</param>
    /// <param name="leaf">Size of the leaf, 1 mm to 1 m.</param>
    /// <exception cref="ArgumentOutOfRangeException">The leaf is out of range.</exception>
    public static SpeedBand From(Speed windAtLeaf, Length leaf) => SpeedBand.WithinFactor(Law(windAtLeaf, leaf), BandFactor);

    /// <summary>The same when the wind itself is known within a band.</summary>
    /// <remarks>The leaf law squares the wind, so its factor counts twice; both factors are taken as independent and joined in quadrature of their logarithms.
    /// A wind from an open site, a factor of 3, leaves the leaf a factor of 12: so much for forecasts.</remarks>
    /// <exception cref="ArgumentOutOfRangeException">The leaf is out of range.</exception>
    public static SpeedBand From(SpeedBand windAtLeaf, Length leaf)
    {
        double wind = 2 * Math.Log(windAtLeaf.Factor), law = Math.Log(BandFactor);
        return SpeedBand.WithinFactor(Law(windAtLeaf.Best, leaf), Math.Exp(Math.Sqrt(wind * wind + law * law)));
    }

    /// <summary>The speed at the height of the swing: a sine peaks at √2 times its root mean square, with the same factor of uncertainty.</summary>
    public static SpeedBand AtPeak(SpeedBand rootMeanSquare) =>
        SpeedBand.WithinFactor(Speed.FromMetresPerSecond(rootMeanSquare.Best.MetresPerSecond * Math.Sqrt(2)), rootMeanSquare.Factor);

    /// <summary>True where the leaf law was tried.</summary>
    public static bool IsWithinLaw(Speed windAtLeaf) => windAtLeaf <= HighestWind;

    private static Speed Law(Speed wind, Length leaf) => leaf.Millimetres is >= 1 and <= 1000
        ? Speed.FromMetresPerSecond(leaf.Metres * wind.MetresPerSecond * wind.MetresPerSecond / (LawConstant * LawConstant * AirViscosity))
        : throw new ArgumentOutOfRangeException(nameof(leaf), leaf.Millimetres, "The size of a leaf is from 1 mm to 1 m.");
}
