using System.ComponentModel;
using Leafstop.Core.Quantities;
using Leafstop.Look.Plan;

namespace Leafstop.Web.Features.Light;

/// <summary>Where, when and under what sky, as it comes in an address.</summary>
internal sealed record LightQuery(
    [property: Description("The local time, such as 18:10.")] string? Light,
    [property: Description("A kept place; or give lat, lon and zone.")] string? Place,
    [property: Description("Latitude in degrees, north positive.")] string? Lat,
    [property: Description("Longitude in degrees, east positive.")] string? Lon,
    [property: Description("Metres above the sea.")] string? Elevation,
    [property: Description("Such as Europe/London or UTC+02:00.")] string? Zone,
    [property: Description("Local date such as 2026-10-17; today when left out.")] string? Date,
    [property: Description("Cloud in eighths of the sky.")] string? Okta,
    [property: Description("Light under the trees, such as 0.06 or aspen-summer.")] string? Canopy,
    [property: Description("How high the ridge stands, degrees.")] string? Ridge,
    [property: Description("How high both walls of a valley stand, degrees.")] string? Valley,
    [property: Description("How high the walls all round stand, degrees.")] string? Basin,
    [property: Description("What a meter showed at that time, EV100, through the filter that was on: it wins over the model and over the notes of the place.")] string? Ev = null,
    [property: Description("That filter, such as polariser 1.5.")] string? Filter = null);

/// <summary>The same as values that a plan reads.</summary>
internal sealed class WrittenQuery(LightQuery query) : WrittenValues(NumberReading.Marks)
{
    public override string? Text(string name) => name switch
    {
        PlanNames.Light => query.Light,
        PlanNames.Place => query.Place,
        PlanNames.Latitude => query.Lat,
        PlanNames.Longitude => query.Lon,
        PlanNames.Elevation => query.Elevation,
        PlanNames.Zone => query.Zone,
        PlanNames.Date => query.Date,
        PlanNames.Okta => query.Okta,
        PlanNames.Canopy => query.Canopy,
        PlanNames.Ridge => query.Ridge,
        PlanNames.Valley => query.Valley,
        PlanNames.Basin => query.Basin,
        PlanNames.Ev => query.Ev,
        PlanNames.Filters => query.Filter,
        _ => null,
    };

    public override IReadOnlyList<string> Texts(string name) => [];

    public override string Called(string name) => name;

    public override string Example(string name, string value) => $"{name}={value}";

    public override Exception Wrong(string sentence) => new QueryRefusal(400, sentence);

    public override Exception NoAnswer(string sentence) => new QueryRefusal(400, sentence);
}

/// <summary>What was asked cannot be answered.</summary>
internal sealed class QueryRefusal(int status, string sentence) : Exception(sentence)
{
    public int Status => status;
}
