using Leafstop.Core.Quantities;

namespace Leafstop.Core.Motion;

/// <summary>The speed of falling water at the foot of a drop.</summary>
public static class FallingWater
{
    /// <summary>Standard gravity, m/s². Exact by definition .</summary>
    public const double Gravity = 9.80665;

    /// <summary>Speed that the largest drops reach in air: about 9 m/s, from memory. Clumps of water fall faster.</summary>
    public static readonly Speed LargestDrops = Speed.FromMetresPerSecond(9);

    /// <summary>Without the air's drag, as a thick sheet falls: √(2gh). Row A-01.</summary>
    public static Speed ThickSheet(Length drop) => Speed.FromMetresPerSecond(Math.Sqrt(2 * Gravity * drop.Metres));

    /// <summary>With drag, as drops fall that end at a speed: vt·√(1 − e^(−2gh/vt²)). Row A-02.</summary>
    /// <param name="drop">Height of the fall.</param>
    /// <param name="atMost">Speed vt that they end at, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">The speed is zero.</exception>
    public static Speed Drops(Length drop, Speed atMost)
    {
        double end = atMost.MetresPerSecond;
        return end > 0
            ? Speed.FromMetresPerSecond(end * Math.Sqrt(1 - Math.Exp(-2 * Gravity * drop.Metres / (end * end))))
            : throw new ArgumentOutOfRangeException(nameof(atMost), end, "The speed that drops end at is above zero.");
    }

    /// <summary>From a thin veil to a thick sheet, best in the middle of their ratio. Row A-03.</summary>
    /// <param name="drop">Above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">No drop.</exception>
    public static SpeedBand AtFoot(Length drop) => drop.Millimetres > 0
        ? SpeedBand.Between(Drops(drop, LargestDrops).MetresPerSecond, ThickSheet(drop).MetresPerSecond)
        : throw new ArgumentOutOfRangeException(nameof(drop), drop.Millimetres, "The drop of a fall is above zero.");
}
