using Leafstop.Browser.Contracts;
using Leafstop.Core.Judging;
using Leafstop.Raw.Developed;
using Leafstop.Storage.Cameras;
using Leafstop.Web.Safety;

namespace Leafstop.Web.Features.Judgings;

/// <summary>What a judging may be started with.</summary>
internal static class JudgingWishes
{
    /// <summary>What is wrong with it, in a sentence; null when nothing is.</summary>
    public static string? Fault(this JudgingWish wish, NamedFolders named) =>
        named.Find(wish.Folder) is null ? named.Refusal(wish.Folder)
        : FaultOfName(wish.Camera) is { } fault ? fault
        : wish.PrintWidthMm is not (>= 10 and <= 100_000) ? "printWidthMm: a print is 10 to 100000 mm wide."
        : wish.ViewingDistanceMm is not (>= 10 and <= 100_000) ? "viewingDistanceMm: a print is looked at from 10 to 100000 mm."
        : wish.ScreenPixelsPerCentimetre is not (>= 5 and <= 1000) ? "screenPixelsPerCentimetre: a screen has 5 to 1000 pixels on a centimetre."
        : wish.CropSidePixels is < CropWish.LeastSide or > CropWish.MostSide ? $"cropSidePixels: a crop has {CropWish.LeastSide} to {CropWish.MostSide} sensor pixels a side."
        : wish.DarkLiftStops is not (null or (>= 0 and <= 10)) ? "darkLiftStops: the dark is lifted by 0 to 10 stops."
        : FaultOfPlaces(wish.Places);

    /// <summary>Size and places of the crops; what is not said is chosen and looked for.</summary>
    public static CropWish Crops(this JudgingWish wish)
    {
        CropWish usual = new();
        return usual with
        {
            SidePixels = wish.CropSidePixels ?? usual.SidePixels,
            DarkLiftStops = wish.DarkLiftStops,
            Moved = [.. (wish.Places ?? []).Select(p => new CropPosition(JudgedLevels.SubjectOf(RegionOf(p!.Region)!.Value), p.Left!.Value, p.Top!.Value))],
        };
    }

    private static string? FaultOfPlaces(IReadOnlyList<CropPlaceWish?>? places) => places is null ? null
        : places.Any(p => RegionOf(p?.Region) is null || p!.Left is not >= 0 || p.Top is not >= 0)
            ? "places: each has a region (dark, mid or texture), and left and top in sensor pixels, 0 or more."
        : places.DistinctBy(p => p!.Region).Count() != places.Count ? "places: each region has one place."
        : null;

    private static string? FaultOfName(string? camera)
    {
        try
        {
            CameraStore.TidyName(camera ?? "");
            return null;
        }
        catch (ArgumentException wrong)
        {
            return $"camera: {wrong.Message.Split(" (Parameter", StringSplitOptions.None)[0]}";
        }
    }

    private static CropRegion? RegionOf(string? name) => name switch
    {
        "dark" => CropRegion.Dark,
        "mid" => CropRegion.Mid,
        "texture" => CropRegion.Texture,
        _ => null,
    };
}
