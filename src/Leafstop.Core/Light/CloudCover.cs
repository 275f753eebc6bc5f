using System.Globalization;

namespace Leafstop.Core.Light;

/// <summary>How much of the sky is cloud, in eighths (okta), and what it does to the light.</summary>
public readonly record struct CloudCover
{
    private CloudCover(double okta) => Okta = okta;

    /// <summary>Eighths of the sky, 0 to 8. The default is a clear sky.</summary>
    public double Okta { get; }

    /// <summary>Takes eighths.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not 0 to 8; the message is for the person.</exception>
    public static CloudCover FromOkta(double okta) => okta is >= 0 and <= 8
        ? new CloudCover(okta)
        : throw new ArgumentOutOfRangeException(nameof(okta), okta, "Cloud is counted in eighths of the sky, from 0 (clear) to 8 (closed).");

    /// <summary>Light under this sky over light under a clear one: 1 − 0.75 (N/8)^3.4.</summary>
    /// <remarks>Source: Kasten and Czeplak 1980, form via [KC], row L-09. A mean; rare dark stratus lets through a tenth (L-05).</remarks>
    public double Factor => 1 - (0.75 * Math.Pow(Okta / 8, 3.4));

    /// <summary>The part of that light that comes from the sky, not straight from the sun.</summary>
    /// <param name="clearShare">The same part under a clear sky, 0 to 1.</param>
    /// <remarks>clear + (1 − clear)(N/8)², after the square law of Kasten and Czeplak 1980 (from memory): none of the sun is left at 8 eighths. Our use of it; no check value was found.</remarks>
    public double SkyShare(double clearShare) => clearShare + ((1 - clearShare) * (Okta / 8) * (Okta / 8));

    /// <summary>"8/8 cloud".</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Okta:0.#}/8 cloud");
}
