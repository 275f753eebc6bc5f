using Leafstop.Core.Quantities;

namespace Leafstop.Core.Motion;

/// <summary>The mean speed of a stream, from its bed or from how its surface behaves. The surface runs a little faster than the mean .</summary>
public static class StreamFlow
{
    /// <summary>Froude number below which a reach is a pool (A-09: Jowett 1993, author and year from memory; 65 % of points classed right).</summary>
    public const double PoolFroude = 0.18;

    /// <summary>Froude number above which a reach is a riffle .</summary>
    public const double RiffleFroude = 0.41;

    /// <summary>Manning's law: R^(2/3)·√S/n, SI. Row A-04. n: 0.03 to 0.05 gravel and few boulders, 0.04 to 0.07 large boulders, 0.05 to 0.96
    /// measured in steep channels: the speed is no surer than n.</summary>
    /// <param name="hydraulicRadius">Cross section over wetted edge, close to the depth of a wide stream.</param>
    /// <param name="slope">Fall over length, 0 to 1.</param>
    /// <param name="roughness">n, 0.005 to 2.</param>
    /// <exception cref="ArgumentOutOfRangeException">Out of range.</exception>
    public static Speed Manning(Length hydraulicRadius, double slope, double roughness)
    {
        if (!(slope is >= 0 and <= 1))
            throw new ArgumentOutOfRangeException(nameof(slope), slope, "A slope is from 0 to 1.");
        return roughness is >= 0.005 and <= 2
            ? Speed.FromMetresPerSecond(Math.Pow(hydraulicRadius.Metres, 2 / 3.0) * Math.Sqrt(slope) / roughness)
            : throw new ArgumentOutOfRangeException(nameof(roughness), roughness, "Manning's n is from 0.005 to 2.");
    }

    /// <summary>Manning's n of a steep stream from slope and depth: 0.3225·S^0.38·R^−0.16, R in metres. Jarrett 1984, formula from memory; off by 29 %
    /// on 71 measurements.</summary>
    /// <param name="hydraulicRadius">0.05 to 5 m.</param>
    /// <param name="slope">0.002 to 0.1.</param>
    /// <exception cref="ArgumentOutOfRangeException">Out of range.</exception>
    public static double SteepRoughness(Length hydraulicRadius, double slope)
    {
        if (!(hydraulicRadius.Metres is >= 0.05 and <= 5))
            throw new ArgumentOutOfRangeException(nameof(hydraulicRadius), hydraulicRadius.Metres, "The law is for depths of 0.05 to 5 m.");
        return slope is >= 0.002 and <= 0.1
            ? 0.3225 * Math.Pow(slope, 0.38) * Math.Pow(hydraulicRadius.Metres, -0.16)
            : throw new ArgumentOutOfRangeException(nameof(slope), slope, "The law is for slopes of 0.002 to 0.1.");
    }

    /// <summary>The speed of a Froude number at a depth: F·√(gd). Row A-10. Waves cannot run upstream from 1 on.</summary>
    /// <param name="depth">Depth of the water.</param>
    /// <param name="froude">0 to 5; see <see cref="PoolFroude"/> and <see cref="RiffleFroude"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">Out of range.</exception>
    public static Speed AtFroude(Length depth, double froude) => froude is >= 0 and <= 5
        ? Speed.FromMetresPerSecond(froude * Math.Sqrt(FallingWater.Gravity * depth.Metres))
        : throw new ArgumentOutOfRangeException(nameof(froude), froude, "A Froude number is from 0 to 5.");
}
