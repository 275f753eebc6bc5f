using Leafstop.Core.Quantities;

namespace Leafstop.Core.Motion;

/// <summary>The wind that reaches a leaf, from the wind at an open site.</summary>
/// <remarks>The shares are means over a few published sites. Edges, hollows and rides differ, and so does a forecast from the wind of the hour: every
/// answer is within a factor of 3 (rule of thumb; the one published chain, W-06, allows itself 2). A hand-held wind meter at the leaf
/// replaces all of it.</remarks>
public static class WindAtLeaf
{
    /// <summary>The band of every answer: a factor of 3 either way.</summary>
    public const double BandFactor = 3;

    /// <summary>Height at which an open-site wind is given, in metres: the meteorologists' convention (W-01).</summary>
    public const double OpenSiteHeightMetres = 10;

    /// <summary>Roughness length of short grass, in metres, from memory (W-04).</summary>
    public const double GrassRoughnessMetres = 0.03;

    /// <summary>Wind above a forest over wind at an airfield: 0.4 to 0.7, here 0.5. Atmosphere-Ocean 16 (1978) 293 (W-02).</summary>
    public const double CanopyTopShare = 0.5;

    /// <summary>Wind in an open-trunked old stand over the wind outside: 0.42 at one site. Lee and Black 1993, Forest Sci. 39:211 (W-03).</summary>
    public const double StandShare = 0.42;

    /// <summary>The share of the open-site wind that reaches the leaf.</summary>
    /// <remarks>Open: the log profile at 1.5 m, 0.67. Stand: <see cref="StandShare"/>. Floor: <see cref="CanopyTopShare"/> and the profile inside foliage at a
    /// tenth of the height with the windier coefficient 2, 0.083 (W-06); dense young stands may be at 0.01.</remarks>
    public static double Share(WindSite site) => site switch
    {
        WindSite.Open => LogProfile(Length.FromMetres(1.5), Length.FromMetres(GrassRoughnessMetres)),
        WindSite.Stand => StandShare,
        WindSite.Floor => CanopyTopShare * InsideFoliage(0.1, 2),
        _ => throw new ArgumentOutOfRangeException(nameof(site), site, "Unknown site."),
    };

    /// <summary>The mean wind at the leaf, within a factor of 3.</summary>
    /// <param name="openSite">Wind in the open, at 10 m.</param>
    /// <param name="site">Where the leaves stand.</param>
    public static SpeedBand From(Speed openSite, WindSite site) =>
        SpeedBand.WithinFactor(Speed.FromMetresPerSecond(openSite.MetresPerSecond * Share(site)), BandFactor);

    /// <summary>Wind at a height over wind at 10 m, over open ground: ln(z/z0)/ln(10/z0). Row W-04.</summary>
    /// <param name="height">Above the roughness length, at most 100 m.</param>
    /// <param name="roughness">Roughness length z0: 0.03 m for short grass, 0.1 m for rough pasture.</param>
    /// <exception cref="ArgumentOutOfRangeException">Out of range.</exception>
    public static double LogProfile(Length height, Length roughness)
    {
        if (!(roughness.Metres is > 0 and < 5))
            throw new ArgumentOutOfRangeException(nameof(roughness), roughness.Metres, "A roughness length is above zero and below 5 m.");
        return height > roughness && height.Metres <= 100
            ? Math.Log(height.Metres / roughness.Metres) / Math.Log(OpenSiteHeightMetres / roughness.Metres)
            : throw new ArgumentOutOfRangeException(nameof(height), height.Metres, "The height lies above the roughness length and at most at 100 m.");
    }

    /// <summary>Wind inside foliage over wind at its top: e^(−a(1 − z/h)). Rows W-05 and W-27.</summary>
    /// <param name="heightShare">Height as a share of the canopy's, 0 to 1.</param>
    /// <param name="attenuation">a, 0 to 10; 2 to 4 are usual, 4.04 and 1.77 were measured in the upper and lower part of one tropical forest.</param>
    /// <exception cref="ArgumentOutOfRangeException">Out of range.</exception>
    public static double InsideFoliage(double heightShare, double attenuation)
    {
        if (!(heightShare is >= 0 and <= 1))
            throw new ArgumentOutOfRangeException(nameof(heightShare), heightShare, "A share of the canopy's height is from 0 to 1.");
        return attenuation is >= 0 and <= 10
            ? Math.Exp(-attenuation * (1 - heightShare))
            : throw new ArgumentOutOfRangeException(nameof(attenuation), attenuation, "The attenuation of a canopy is from 0 to 10.");
    }
}
