using System.ComponentModel;
using System.Text.Json.Serialization;

namespace Leafstop.Browser.Contracts;

/// <summary>A kept camera with its history.</summary>
public sealed record CameraHistoryView(
    string Name,
    [property: Description("The body in words.")] string Body,
    [property: Description("Oldest first; the last speaks.")] IReadOnlyList<KeptMeasuringView> Measurings,
    [property: Description("Days of the pocket cards that were read back, oldest first.")] IReadOnlyList<DateOnly> Cards);

/// <summary>One measuring of a camera.</summary>
public sealed record KeptMeasuringView(
    DateTimeOffset MeasuredAt,
    [property: Description("True when it came from a file.")] bool IsImported,
    int UsableLevels,
    double? LowestIso,
    double? HighestIso,
    [property: Description("At the lowest usable ISO.")] double? ReadNoiseElectrons);

/// <summary>A camera that is brought along, as it comes in.</summary>
[JsonUnmappedMemberHandling(JsonUnmappedMemberHandling.Disallow)]
public sealed record CameraWish(
    [property: Description("What leafstop cameras export wrote, or the text of a pocket card.")] string? Text,
    [property: Description("To be kept under another name than its own.")] string? Name = null);

/// <summary>What became of it.</summary>
public sealed record CameraKeptView(string Name, int Added, int AlreadyThere, int History, int CardsAdded, [property: Description("The same in a sentence.")] string Words);
