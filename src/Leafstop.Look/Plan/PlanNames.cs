namespace Leafstop.Look.Plan;

/// <summary>The values that a plan is made from. The command line has an option of each name, the page a blank.</summary>
public static class PlanNames
{
#pragma warning disable CS1591 // The options of leafstop plan say what each is: docs and help have them in full.
    public const string Aperture = "aperture", Shutter = "shutter", Under = "under", Meter = "meter", Ev = "ev", Light = "light", Base = "base", Filters = "filter", FiltersAfter = "filter-after", Camera = "camera",
        Clean = "clean", Stretch = "stretch", LimitPrint = "limit-print", LimitDistance = "limit-distance", LimitFormat = "limit-format", LimitTone = "limit-tone",
        Print = "print", Distance = "distance", Lift = "lift", Tone = "tone", Crop = "crop", Average = "average", Foam = "foam",
        Near = "near", Far = "far", Focal = "focal", Format = "format", Water = "water", WaterSpeed = "water-speed", WaterDistance = "water-distance",
        Leaves = "leaves", LeafDistance = "leaf-distance", LeafSpeed = "leaf-speed", LeafSize = "leaf-size", Wind = "wind", WindAtLeaf = "wind-at-leaf", Site = "site", Kept = "kept",
        Acuity = "acuity", Temperature = "temperature";

    public const string Place = "place", At = "at", Latitude = "lat", Longitude = "lon", Elevation = "elevation", Date = "date", Zone = "zone", Okta = "okta", Canopy = "canopy", Ridge = "ridge", Valley = "valley", Basin = "basin", EyeHeight = "eye-height";
#pragma warning restore CS1591
}
