using Leafstop.Core.Viewing;

namespace Leafstop.Core.Judging;

/// <summary>What a crop that is judged shows.</summary>
public enum CropRegion
{
    /// <summary>A deep smooth dark.</summary>
    Dark,

    /// <summary>A smooth mid tone.</summary>
    Mid,

    /// <summary>Fine texture.</summary>
    Texture,
}

/// <summary>Which crops stand for a tone.</summary>
public static class CropRegions
{
    /// <summary>The crops that are shown side by side when a limit for this tone is judged.</summary>
    public static IReadOnlyList<CropRegion> For(ToneKind tone) => tone switch
    {
        ToneKind.Smooth => [CropRegion.Dark, CropRegion.Mid],
        ToneKind.Shadows => [CropRegion.Dark],
        ToneKind.MidGrey => [CropRegion.Mid],
        ToneKind.Textured => [CropRegion.Texture],
        _ => [CropRegion.Dark, CropRegion.Mid, CropRegion.Texture],
    };
}
