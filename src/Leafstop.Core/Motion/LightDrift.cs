using Leafstop.Core.Quantities;

namespace Leafstop.Core.Motion;

/// <summary>How long two frames that shall be blended may lie apart while the light changes.</summary>
public static class LightDrift
{
    /// <summary>Change of light that a blend takes without a seam: 0.2 stop (rule of thumb).</summary>
    public static readonly Stops UsuallyAllowed = Stops.Of(0.2);

    /// <summary>The time in which the light changes by so much: stops over stops per minute. Linear: good while the rate holds, minutes rather than hours.</summary>
    /// <remarks>Under open sky before sunrise a stop takes 4 to 5 min, so a pair has about a minute; after sunrise 10 to 15 min, so 2 to 3 (common practice, no
    /// source). At a cloud's edge it changes by 2 stops in seconds and no rate helps: shoot water, leaves, water and keep the pair that matches.</remarks>
    /// <param name="allowed">Above zero; see <see cref="UsuallyAllowed"/>.</param>
    /// <param name="perMinute">Stops a minute, of either sign.</param>
    /// <returns>The time; null when the light is steady, or so nearly that it lasts more than a day.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Nothing is allowed.</exception>
    public static TimeSpan? TimeFor(Stops allowed, Stops perMinute)
    {
        if (allowed.Value <= 0)
            throw new ArgumentOutOfRangeException(nameof(allowed), allowed.Value, "The change that is allowed is above zero.");
        double minutes = allowed.Value / Math.Abs(perMinute.Value);
        return minutes <= 24 * 60 ? TimeSpan.FromMinutes(minutes) : null;
    }
}
