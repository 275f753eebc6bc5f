using Leafstop.Core.Exposure;
using Leafstop.Core.Quantities;
using NodaTime;

namespace Leafstop.Core.Light;

/// <summary>The light at a place and time: height of the sun, then cloud, walls, ridge and trees, then EV at ISO 100.</summary>
/// <remarks>
/// Model: docs/method/light.md. Uncertainty: any mean sky ±1 stop (L-07); under trees ±1.5 together (judgement, L-20). A meter reading at the spot always wins.
/// Where a ridge or walls hide the sun, a clear sky's light is the smaller of <see cref="ClearSky.SkyPart"/> and the whole; a closed sky loses nothing by it, because no sun is left in it.
/// </remarks>
public static class SkyLight
{
    /// <summary>How far a mean sky may be off.</summary>
    public static Stops OpenUncertainty { get; } = Stops.Of(1);

    /// <summary>How far the whole may be off under trees.</summary>
    public static Stops CanopyUncertainty { get; } = Stops.Of(1.5);

    /// <summary>The light at a place and time.</summary>
    /// <param name="when">The time, 1800 to 2100.</param>
    /// <param name="place">The place.</param>
    /// <param name="conditions">Cloud, trees, walls, ridge.</param>
    /// <exception cref="ArgumentOutOfRangeException">The time is out of reach.</exception>
    public static LightEstimate At(Instant when, Place place, SkyConditions conditions) => Under(when, SunPosition.At(when, place), conditions);

    /// <summary>The light at a place and time, from the person's own notes of that place where there are any.</summary>
    /// <param name="when">The time, 1800 to 2100.</param>
    /// <param name="place">The place.</param>
    /// <param name="conditions">Cloud, trees, walls, ridge.</param>
    /// <param name="notes">Notes of this place; none gives the model alone.</param>
    /// <exception cref="ArgumentOutOfRangeException">The time, or that of a note, is out of reach.</exception>
    public static LightEstimate At(Instant when, Place place, SkyConditions conditions, IReadOnlyCollection<LightNote> notes) =>
        LightNote.Carry(At(when, place, conditions), conditions, LightNote.Against(place, conditions, notes));

    /// <summary>The light for a height of the sun.</summary>
    /// <param name="sunAltitude">Height of the sun's centre without air.</param>
    /// <param name="conditions">Cloud, trees, walls, ridge.</param>
    public static LightChain Chain(Angle sunAltitude, SkyConditions conditions)
    {
        Illuminance open = ClearSky.WithNight(sunAltitude);
        double clearShare = sunAltitude.Degrees > 0 ? Math.Min(1, ClearSky.SkyPart(sunAltitude).Lux / open.Lux) : 1;
        return new LightChain(
            open,
            conditions.Cloud.Factor,
            conditions.Cloud.SkyShare(clearShare),
            conditions.View.Share(conditions.Cloud),
            conditions.Hiding?.ShareOfDisc(sunAltitude) ?? 1,
            conditions.Canopy.Share);
    }

    internal static LightEstimate Under(Instant when, SunPosition sun, SkyConditions conditions)
    {
        LightChain chain = Chain(sun.Altitude, conditions);
        return new LightEstimate
        {
            When = when,
            Sun = sun,
            Illuminance = chain.Total,
            Light = IncidentMeter.Usual.Reads(chain.Total),
            Uncertainty = conditions.Canopy.IsOverhead ? CanopyUncertainty : OpenUncertainty,
            How = HowKnown.RuleOfThumb,
            Chain = chain,
        };
    }
}
