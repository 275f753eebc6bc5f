using System.ComponentModel;
using System.Text.Json.Serialization;
using Leafstop.Core.Judging;
using Leafstop.Raw.Developed;
using Leafstop.Storage.Cameras;

namespace Leafstop.Web.Features.Judgings;

/// <summary>What a judging is started with, as it comes in.</summary>
[JsonUnmappedMemberHandling(JsonUnmappedMemberHandling.Disallow)]
internal sealed record JudgingWish(
    [property: Description("Full path of a folder of raw files of a bench test; only read.")] string? Folder,
    [property: Description("Name of the camera that the answers belong to.")] string? Camera,
    [property: Description("Width of the print that is meant, 10 to 20000 mm.")] double? PrintWidthMm,
    [property: Description("From where it is looked at, 50 to 100000 mm.")] double? ViewingDistanceMm,
    [property: Description("Of this screen, in the pixels that pictures are drawn with, 5 to 1000.")] double? ScreenPixelsPerCentimetre,
    [property: Description("Decides every order; drawn at random without it.")] long? Seed = null,
    [property: Description("Sensor pixels along a crop, 48 to 1024; 384 without it, and at most an eighth of the shorter side of the frame.")] int? CropSidePixels = null,
    [property: Description("Where crops are wanted; those of other regions are looked for.")] IReadOnlyList<PlaceWish?>? Places = null,
    [property: Description("By how many stops the dark is lifted for showing, 0 to 10; until it can be seen without it. Limits hold for it.")] double? DarkLiftStops = null)
{
    /// <summary>What is wrong with it, in a sentence; null when nothing is.</summary>
    public string? Fault() =>
        string.IsNullOrWhiteSpace(Folder) || !Path.IsPathFullyQualified(Folder) || !Directory.Exists(Folder) ? "folder: give the full path of a folder of raw files that is there."
        : FaultOfName() is { } fault ? fault
        : PrintWidthMm is not (>= 10 and <= 20_000) ? "printWidthMm: a print is 10 to 20000 mm wide."
        : ViewingDistanceMm is not (>= 50 and <= 100_000) ? "viewingDistanceMm: a print is looked at from 50 to 100000 mm."
        : ScreenPixelsPerCentimetre is not (>= 5 and <= 1000) ? "screenPixelsPerCentimetre: a screen has 5 to 1000 pixels on a centimetre."
        : CropSidePixels is < CropWish.LeastSide or > CropWish.MostSide ? $"cropSidePixels: a crop has {CropWish.LeastSide} to {CropWish.MostSide} sensor pixels a side."
        : DarkLiftStops is not (null or (>= 0 and <= 10)) ? "darkLiftStops: the dark is lifted by 0 to 10 stops."
        : FaultOfPlaces();

    /// <summary>Size and places of the crops; what is not said is chosen and looked for.</summary>
    public CropWish Crops()
    {
        CropWish usual = new();
        return usual with
        {
            SidePixels = CropSidePixels ?? usual.SidePixels,
            DarkLiftStops = DarkLiftStops,
            Moved = [.. (Places ?? []).Select(p => new CropPosition(JudgedLevels.SubjectOf(PlaceWish.RegionOf(p!.Region)!.Value), p.Left!.Value, p.Top!.Value))],
        };
    }

    private string? FaultOfPlaces() => Places is null ? null
        : Places.Any(p => PlaceWish.RegionOf(p?.Region) is null || p!.Left is not >= 0 || p.Top is not >= 0)
            ? "places: each has a region (dark, mid or texture), and left and top in sensor pixels, 0 or more."
        : Places.DistinctBy(p => p!.Region).Count() != Places.Count ? "places: each region has one place."
        : null;

    private string? FaultOfName()
    {
        try
        {
            CameraStore.TidyName(Camera ?? "");
            return null;
        }
        catch (ArgumentException wrong)
        {
            return $"camera: {wrong.Message.Split(" (Parameter", StringSplitOptions.None)[0]}";
        }
    }
}

/// <summary>Where a crop is wanted, as it comes in.</summary>
[JsonUnmappedMemberHandling(JsonUnmappedMemberHandling.Disallow)]
internal sealed record PlaceWish(
    [property: Description("dark, mid or texture.")] string? Region,
    [property: Description("First column, sensor pixels.")] int? Left,
    [property: Description("First row, sensor pixels.")] int? Top)
{
    /// <summary>The region of that name; null when there is none.</summary>
    public static CropRegion? RegionOf(string? name) => name switch
    {
        "dark" => CropRegion.Dark,
        "mid" => CropRegion.Mid,
        "texture" => CropRegion.Texture,
        _ => null,
    };
}

/// <summary>An answer as it comes in.</summary>
[JsonUnmappedMemberHandling(JsonUnmappedMemberHandling.Disallow)]
internal sealed record AnswerWish(
    [property: Description("Of the trial that is answered.")] string? Token,
    [property: Description("yes, no or unsure; side by side left, right or unsure.")] string? Reply);
