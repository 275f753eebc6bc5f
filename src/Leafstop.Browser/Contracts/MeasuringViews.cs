using System.ComponentModel;
using System.Text.Json.Serialization;
using Leafstop.Look.Bench;

namespace Leafstop.Browser.Contracts;

/// <summary>What a measuring is started with, as it comes in.</summary>
[JsonUnmappedMemberHandling(JsonUnmappedMemberHandling.Disallow)]
public sealed record MeasuringWish(
    [property: Description("Full path of a folder of raw files of a bench test; only read.")] string? Folder,
    [property: Description("Width of the print that limits are worked out for, 10 to 100000 mm; 600 without it.")] double? PrintWidthMm = null,
    [property: Description("From where it is looked at, 10 to 100000 mm; 600 without it.")] double? ViewingDistanceMm = null);

/// <summary>A measuring as it goes out.</summary>
public sealed record MeasuringView(
    [property: Description("Stands for the measuring in addresses.")] string Id,
    [property: Description("waiting, measuring, done, stopped, failed, elsewhere (another host is at it) or held (its folder was not named when this host was started).")] string State,
    [property: Description("Full path of the raw files.")] string Folder,
    double PrintWidthMm,
    double ViewingDistanceMm,
    DateTimeOffset BegunAt,
    [property: Description("When it came to its end; null before.")] DateTimeOffset? EndedAt,
    [property: Description("Frames dealt with.")] int Done,
    [property: Description("Frames in all; 0 before they are counted.")] int Total,
    [property: Description("Name of the last of them; empty before the first.")] string File,
    [property: Description("At the pace so far; null as long as that would be guessing.")] double? SecondsLeft,
    [property: Description("What was found on the way, in the order it was found; the answer has all of it and more.")] IReadOnlyList<FindingDocument> Findings,
    [property: Description("One sentence where it failed, is held or is done elsewhere.")] string? Why,
    [property: Description("The camera in words, once it is done.")] string? Camera,
    [property: Description("The verdict, once it is done.")] string? Verdict)
{
    /// <summary>True as long as more is to come by itself.</summary>
    [JsonIgnore]
    public bool IsRunning => State is "waiting" or "measuring";
}

/// <summary>Under which name a measured camera is to be kept, as it comes in.</summary>
[JsonUnmappedMemberHandling(JsonUnmappedMemberHandling.Disallow)]
public sealed record SaveWish([property: Description("1 to 80 visible characters; the model that the files state without it.")] string? Name = null);

/// <summary>What was kept.</summary>
public sealed record SavedView(
    [property: Description("The name as it was first written.")] string Camera,
    [property: Description("Tests of this camera that are kept now.")] int History,
    [property: Description("True when this test was kept before.")] bool WasThere);

/// <summary>An earlier test of the same body.</summary>
public sealed record EarlierView(
    string Camera,
    DateTimeOffset MeasuredAt,
    [property: Description("Levels that hold.")] int Levels);

/// <summary>Two tests of one body, level by level, in words.</summary>
public sealed record ComparisonView(
    [property: Description("What differs, with its full stop.")] string Sentence,
    [property: Description("How a difference was told from chance.")] string HowSure,
    IReadOnlyList<ComparisonRow> Rows);
