using Leafstop.Core.Judging;
using Leafstop.Raw.Developed;
using Leafstop.Storage.Cameras;

namespace Leafstop.Web.Features.Judgings;

/// <summary>What a judging is started with, as it comes in.</summary>
internal sealed record JudgingWish(
    string? Folder, string? Camera, double? PrintWidthMm, double? ViewingDistanceMm, double? ScreenPixelsPerCentimetre, long? Seed,
    int? CropSidePixels, IReadOnlyList<PlaceWish?>? Places)
{
    /// <summary>What is wrong with it, in a sentence; null when nothing is.</summary>
    public string? Fault() =>
        string.IsNullOrWhiteSpace(Folder) || !Path.IsPathFullyQualified(Folder) || !Directory.Exists(Folder) ? "folder: give the full path of a folder of raw files that is there."
        : FaultOfName() is { } fault ? fault
        : PrintWidthMm is not (>= 10 and <= 20_000) ? "printWidthMm: a print is 10 to 20000 mm wide."
        : ViewingDistanceMm is not (>= 50 and <= 100_000) ? "viewingDistanceMm: a print is looked at from 50 to 100000 mm."
        : ScreenPixelsPerCentimetre is not (>= 5 and <= 1000) ? "screenPixelsPerCentimetre: a screen has 5 to 1000 pixels on a centimetre."
        : CropSidePixels is < CropWish.LeastSide or > CropWish.MostSide ? $"cropSidePixels: a crop has {CropWish.LeastSide} to {CropWish.MostSide} sensor pixels a side."
        : FaultOfPlaces();

    /// <summary>Size and places of the crops; what is not said is chosen and looked for.</summary>
    public CropWish Crops()
    {
        CropWish usual = new();
        return usual with
        {
            SidePixels = CropSidePixels ?? usual.SidePixels,
            Moved = [.. (Places ?? []).Select(p => new CropPosition(JudgingOrder.Subject(PlaceWish.RegionOf(p!.Region)!.Value), p.Left!.Value, p.Top!.Value))],
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
internal sealed record PlaceWish(string? Region, int? Left, int? Top)
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
internal sealed record AnswerWish(string? Token, string? Reply);
