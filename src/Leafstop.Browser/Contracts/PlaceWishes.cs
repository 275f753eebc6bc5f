using System.ComponentModel;
using System.Text.Json.Serialization;

namespace Leafstop.Browser.Contracts;

/// <summary>A place that shall be kept or changed, its values as a person writes them. In a change what is left out stays as it is, and an empty text takes a value out.</summary>
[JsonUnmappedMemberHandling(JsonUnmappedMemberHandling.Disallow)]
public sealed record PlaceWish(
    [property: Description("At most 80 characters; case and outer spaces do not matter.")] string? Name = null,
    [property: Description("Degrees, north positive, such as 50.1.")] string? Lat = null,
    [property: Description("Degrees, east positive, such as -3.2.")] string? Lon = null,
    [property: Description("Metres above the sea; 0 when left out.")] string? Elevation = null,
    [property: Description("Such as Europe/London, or an offset such as UTC+02:00.")] string? Zone = null,
    [property: Description("How high the ridge stands that hides the sun, degrees.")] string? Ridge = null,
    [property: Description("Light under the trees: a share such as 0.06, a leaf area such as lai 5.5, or a stand such as aspen-summer.")] string? Canopy = null,
    [property: Description("How high both walls of a long valley stand, degrees.")] string? Valley = null,
    [property: Description("How high the walls all round stand, degrees.")] string? Basin = null,
    [property: Description("What leafstop places export --with-location wrote, in place of all others; not for a change.")] string? Text = null);

/// <summary>The light that was metered at a place, as a person writes it.</summary>
[JsonUnmappedMemberHandling(JsonUnmappedMemberHandling.Disallow)]
public sealed record NoteWish(
    [property: Description("By the clock of the place, such as 2026-10-17 08:40, or with an offset.")] string? At,
    [property: Description("What the meter showed, as EV100, such as 6 2/3.")] string? Ev,
    [property: Description("Cloud in eighths of the sky; left out when it was not noted.")] string? Okta = null,
    [property: Description("The filter that was on, such as polariser 1.5; the reading is kept as it was.")] string? Filter = null,
    [property: Description("Own words, at most 80 characters.")] string? Remark = null,
    [property: Description("The number that the note had before it was taken out; the next one when left out.")] int? Number = null);
