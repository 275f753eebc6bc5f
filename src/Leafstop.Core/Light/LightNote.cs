using System.Collections.Immutable;
using Leafstop.Core.Quantities;
using NodaTime;

namespace Leafstop.Core.Light;

/// <summary>A reading that the person took at a place: "overcast, polariser on: EV 6 2/3 at 08:40".</summary>
/// <param name="When">When it was read.</param>
/// <param name="Metered">EV at ISO 100 as the meter showed it, through the filter that was on.</param>
/// <param name="Cloud">The sky at the time; null when it was not noted.</param>
/// <param name="FilterStops">Light that the filter took, 0 without one. The light itself is brighter than the reading by that.</param>
/// <param name="FilterName">The filter as it was named; empty without one.</param>
/// <param name="Remark">The person's own words; may be empty.</param>
public sealed record LightNote(Instant When, ExposureValue Metered, CloudCover? Cloud, Stops FilterStops, string FilterName = "", string Remark = "")
{
    // Judgement, no source: a reading repeats to a third; the model's differences are trusted to a quarter of themselves, an eighth of cloud to an eighth of a stop,
    // and the same sky on another day to half a stop.
    private const double ReadingStops = 1.0 / 3, ShareOfDifference = 0.25, StopsPerOkta = 0.125, UnknownSkyStops = 1, OtherDayStops = 0.5;

    /// <summary>The light without the filter.</summary>
    public ExposureValue Light => Metered + FilterStops;

    /// <summary>After dusk: by how much the reading lies over what is left of the sun's light there, when that is more than the model's own doubt explains. It is the moon or lamps
    /// then, and what the sun does says nothing of the hours after. Null while the sun's light explains it.</summary>
    /// <param name="place">Where it was read.</param>
    /// <param name="conditions">The sky, where the note does not say it.</param>
    /// <remarks>Dusk is the end of civil twilight; three times the doubt of <see cref="SkyLight"/> (L-07, L-20) is our judgement, no source.</remarks>
    /// <exception cref="ArgumentOutOfRangeException">The time is out of reach.</exception>
    public Stops? OtherLight(Place place, SkyConditions conditions)
    {
        LightEstimate model = SkyLight.At(When, place, conditions with { Cloud = Cloud ?? conditions.Cloud });
        Stops over = Light - model.Light;
        return model.Sun.Altitude < SkyLine.CivilAltitude && over > model.Uncertainty * 3 ? over : null;
    }

    /// <summary>The notes with what the model says of their own moments.</summary>
    internal static ImmutableArray<(LightNote Note, ExposureValue Model)> Against(Place place, SkyConditions conditions, IReadOnlyCollection<LightNote> notes) =>
    [
        .. notes.OrderByDescending(n => n.When)
            .Select(n => (n, SkyLight.At(n.When, place, conditions with { Cloud = n.Cloud ?? conditions.Cloud }).Light)),
    ];

    /// <summary>Carries the note that fits best to another time and sky by the model's difference; without notes the model stays as it is.</summary>
    internal static LightEstimate Carry(LightEstimate model, SkyConditions conditions, ImmutableArray<(LightNote Note, ExposureValue Model)> notes)
    {
        LightEstimate? best = null;
        foreach ((LightNote note, ExposureValue then) in notes)
        {
            Stops difference = model.Light - then;
            double sky = note.Cloud is { } cloud ? StopsPerOkta * Math.Abs(cloud.Okta - conditions.Cloud.Okta) : UnknownSkyStops;
            double day = Math.Abs((note.When - model.When).TotalHours) < 6 ? 0 : OtherDayStops;
            double part = ShareOfDifference * difference.Value;
            Stops uncertainty = Stops.Of(Math.Sqrt((ReadingStops * ReadingStops) + (part * part) + (sky * sky) + (day * day)));
            if (best is null || uncertainty < best.Uncertainty)
            {
                best = model with
                {
                    Light = note.Light + difference,
                    Uncertainty = uncertainty,
                    How = HowKnown.WorkedOut,
                    Note = note,
                    CarriedBy = difference,
                };
            }
        }
        return best ?? model;
    }
}
