using System.ComponentModel;
using System.Text.Json.Serialization;

namespace Leafstop.Browser.Contracts;

/// <summary>What a judging is started with, as it comes in.</summary>
[JsonUnmappedMemberHandling(JsonUnmappedMemberHandling.Disallow)]
public sealed record JudgingWish(
    [property: Description("Full path of a folder of raw files of a bench test; only read.")] string? Folder,
    [property: Description("Name of the camera that the answers belong to.")] string? Camera,
    [property: Description("Width of the print that is meant, 10 to 100000 mm.")] double? PrintWidthMm,
    [property: Description("From where it is looked at, 10 to 100000 mm.")] double? ViewingDistanceMm,
    [property: Description("Of this screen, in the pixels that pictures are drawn with, 5 to 1000.")] double? ScreenPixelsPerCentimetre,
    [property: Description("Decides every order; drawn at random without it.")] long? Seed = null,
    [property: Description("Sensor pixels along a crop, 48 to 1024; 384 without it, and at most an eighth of the shorter side of the frame.")] int? CropSidePixels = null,
    [property: Description("Where crops are wanted; those of other regions are looked for.")] IReadOnlyList<CropPlaceWish?>? Places = null,
    [property: Description("By how many stops the dark is lifted for showing, 0 to 10; until it can be seen without it. Limits hold for it.")] double? DarkLiftStops = null);

/// <summary>Where a crop is wanted, as it comes in.</summary>
[JsonUnmappedMemberHandling(JsonUnmappedMemberHandling.Disallow)]
public sealed record CropPlaceWish(
    [property: Description("dark, mid or texture.")] string? Region,
    [property: Description("First column, sensor pixels.")] int? Left,
    [property: Description("First row, sensor pixels.")] int? Top);

/// <summary>An answer as it comes in.</summary>
[JsonUnmappedMemberHandling(JsonUnmappedMemberHandling.Disallow)]
public sealed record AnswerWish(
    [property: Description("Of the trial that is answered.")] string? Token,
    [property: Description("yes, no or unsure; side by side left, right or unsure.")] string? Reply);
