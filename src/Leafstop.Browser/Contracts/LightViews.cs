using System.ComponentModel;
using Leafstop.Core.Planning;
using Leafstop.Core.Quantities;
using Leafstop.Look.Plan;

namespace Leafstop.Browser.Contracts;

/// <summary>The light at a time and in the hours around it, for a plan.</summary>
public sealed record LightView(
    [property: Description("The time that was asked, by the clock of the place.")] DateTimeOffset Time,
    [property: Description("EV at ISO 100 without any filter.")] double OpenEv100,
    [property: Description("How far off it may be, either way.")] double UncertaintyStops,
    bool IsSunUp,
    [property: Description("What it is and how it is known.")] string Sentence,
    [property: Description("Time of the first of the values below.")] DateTimeOffset From,
    [property: Description("EV at ISO 100, a minute apart: an hour before the time and three hours after it.")] IReadOnlyList<double> Ev100,
    [property: Description("Stops either way, as many.")] IReadOnlyList<double> UncertaintiesStops,
    [property: Description("After dusk, where the meter showed more than the sun leaves, so that it saw the moon or lamps: by how many stops. The values of other times say nothing then. Else null.")] double? OtherLightStops,
    [property: Description("The sun's day in a sentence.")] string Day,
    [property: Description("Formulas, sources and inputs, one sentence each.")] IReadOnlyList<string> Why)
{
    /// <summary>Minutes told before the time that was asked.</summary>
    public const int MinutesBefore = 60;

    /// <summary>Minutes told after it.</summary>
    public const int MinutesAfter = 180;

    /// <summary>As a plan takes it.</summary>
    public WorkedLight ToPlan() => new(
        ExposureValue.Of(OpenEv100), Stops.Of(UncertaintyStops), IsSunUp,
        [.. Enumerable.Range(MinutesBefore + 1, Ev100.Count - MinutesBefore - 1).Select(i => new LightAhead(From.AddMinutes(i), Stops.Of(Ev100[i] - OpenEv100)))],
        Sentence);
}

/// <summary>A kept place.</summary>
public sealed record PlaceView(
    string Name,
    double LatitudeDeg,
    double LongitudeDeg,
    double ElevationM,
    [property: Description("Such as Europe/London, or an offset such as UTC+02:00.")] string Zone,
    double? RidgeDeg,
    string? Canopy,
    double? ValleyDeg,
    double? BasinDeg,
    [property: Description("Oldest first.")] IReadOnlyList<NoteView> Notes);

/// <summary>The light as it was metered at a place.</summary>
public sealed record NoteView(
    int Number,
    [property: Description("By the clock of the place.")] DateTimeOffset Time,
    double MeteredEv100,
    [property: Description("Cloud in eighths of the sky; null when it was not noted.")] double? Okta,
    string? Filter,
    double FilterStops,
    string? Remark);
