using System.CommandLine;

namespace Leafstop.Cli.Verbs;

/// <summary>The options of leafstop plan.</summary>
internal static class PlanOptions
{
    public static readonly Option<string?> Aperture = Text("--aperture", "F", "Aperture you insist on, such as 11; when left out the widest that holds --near to --far.");
    public static readonly Option<string?> Shutter = Text("--shutter", "TIME", "Shutter you insist on, such as 1/4; when left out, with --meter, --ev or --light, the one that --water or --leaves asks for.");
    public static readonly Option<string?> Under = Text("--under", "STOPS", "What the meter says at that aperture and shutter at base ISO, such as \"2 1/3\"; negative when over.");
    public static readonly Option<string?> Meter = Text("--meter", "READING", "An exposure the meter calls right, such as \"f/8 1/30 ISO 400\".");
    public static readonly Option<string?> Ev = Text("--ev", "EV", "The light as EV100, such as \"6 2/3\".");
    public static readonly Option<string?> Light = Text("--light", "TIME", "Nothing metered yet: work the light out for this local time, with --lat, --lon, --zone, --date or --place; each --filter is then taken off once.");
    public static readonly Option<string?> Base = Text("--base", "ISO", "Base ISO of your camera; 100 when not given and no camera tells.");
    public static readonly Option<string[]> Filters = Many("--filter", "FILTER", "A filter that was on when you metered, such as \"polariser 1.5\", nd8, \"density 0.9\" or \"3 stops\"; the meter has seen it. May be given more than once.");
    public static readonly Option<string[]> FiltersAfter = Many("--filter-after", "FILTER", "A filter fitted since you metered. May be given more than once.");
    public static readonly Option<string?> Camera = Text("--camera", "NAME", "A camera that was kept; its limits are worked out for the print you ask.");
    public static readonly Option<string?> Clean = Text("--clean", "ISO", "Your own clean limit; goes before the camera's.");
    public static readonly Option<string?> Stretch = Text("--stretch", "ISO", "Your own stretch limit.");
    public static readonly Option<string?> LimitPrint = Text("--limit-print", "WIDTH", "Width of the print your limits hold for, such as 60cm; the print you ask when not given.");
    public static readonly Option<string?> LimitDistance = Text("--limit-distance", "LENGTH", "Distance your limits hold for, such as 60cm.");
    public static readonly Option<string?> LimitFormat = Text("--limit-format", "WxHmm", "Sensor format your limits hold for, where it is another than --format.");
    public static readonly Option<string?> LimitTone = Text("--limit-tone", "TONE", "Tone your limits hold for: smooth, textured, mid-grey or shadows.");
    public static readonly Option<string?> Print = Text("--print", "WIDTH", "Width of the print you ask for; that of your limits when not given.");
    public static readonly Option<string?> Distance = Text("--distance", "LENGTH", "Distance it is seen from.");
    public static readonly Option<string?> Lift = Text("--lift", "STOPS", "Stops you will open the shadows by.");
    public static readonly Option<string?> Tone = Text("--tone", "TONE", "Tone in which noise must not show: smooth (mist, sky, silky water), textured (rock, fern, bark), mid-grey or shadows; that of your limits when not given.");
    public static readonly Option<string?> Crop = Text("--crop", "SHARE", "Share of the frame's width you keep, such as 2/3.");
    public static readonly Option<string?> Average = Text("--average", "FRAMES", "Frames you will average where nothing moves, such as 4.");
    public static readonly Option<string?> Foam = Text("--foam", "STOPS", "Where the brightest foam was metered, stops over mid-grey, such as 2.7.");
    public static readonly Option<string?> Near = Text("--near", "LENGTH", "Nearest thing that must be sharp.");
    public static readonly Option<string?> Far = Text("--far", "LENGTH", "Farthest thing that must be sharp, or inf.");
    public static readonly Option<string?> Focal = Text("--focal", "LENGTH", "Focal length, such as 24mm.");
    public static readonly Option<string?> Format = Text("--format", "WxHmm", "Sensor format, such as 36x24mm.");
    public static readonly Option<string?> Water = Text("--water", "LOOK", "How the water shall look: frozen, soft-edged, textured, silk or mist, or \"streak 4%\" of the frame's width.");
    public static readonly Option<string?> WaterSpeed = Text("--water-speed", "SPEED", "Speed of the water across the frame, such as 1m/s.");
    public static readonly Option<string?> WaterDistance = Text("--water-distance", "LENGTH", "Distance to the water.");
    public static readonly Option<string?> Leaves = Text("--leaves", "still", "Leaves shall be still.");
    public static readonly Option<string?> LeafDistance = Text("--leaf-distance", "LENGTH", "Distance to the leaves.");
    public static readonly Option<string?> LeafSpeed = Text("--leaf-speed", "SPEED", "Their speed at the height of the swing, where you measured it.");
    public static readonly Option<string?> LeafSize = Text("--leaf-size", "LENGTH", "Size of a leaf; 5cm when not given.");
    public static readonly Option<string?> Wind = Text("--wind", "SPEED", "Wind in the open, as forecasts give it.");
    public static readonly Option<string?> WindAtLeaf = Text("--wind-at-leaf", "SPEED", "Wind measured at the leaves.");
    public static readonly Option<string?> Site = Text("--site", "open|stand|floor", "Where the leaves are: open ground, an old stand with open trunks, the floor of a dense one.");
    public static readonly Option<string?> Kept = Text("--kept", "\"K of N\"", "Frames you kept for their leaves, of a trial, such as \"5 of 25\".");
    public static readonly Option<string?> Acuity = Text("--acuity", "ARCMIN", "Your acuity in arcminutes; when not given 1.43 for depth and 1 for movement.");
    public static readonly Option<string?> Temperature = Text("--temperature", "CELSIUS", "Temperature of the sensor, for long exposures; 20 when not given.");
    public static readonly Option<bool> Literal = new("--literal") { Description = "Take numbers as they stand: 11 is 11, not the mark f/11 that means 11.31." };
    public static readonly Option<bool> Why = new("--why") { Description = "Show formulas, sources and inputs." };

    /// <summary>All of them, in the order of the help.</summary>
    public static readonly Option[] All =
    [
        Aperture, Shutter, Under, Meter, Ev, Light, Base, Filters, FiltersAfter, Camera, Clean, Stretch, LimitPrint, LimitDistance, LimitFormat, LimitTone, Print, Distance, Tone, Lift, Crop, Average, Foam,
        Near, Far, Focal, Format, Water, WaterSpeed, WaterDistance, Leaves, LeafDistance, LeafSpeed, LeafSize, Wind, WindAtLeaf, Site, Kept, Acuity, Temperature, Literal, Why,
    ];

    private static Option<string?> Text(string name, string help, string what) => new(name) { Description = what, HelpName = help };

    private static Option<string[]> Many(string name, string help, string what) =>
        new(name) { Description = what, HelpName = help, Arity = ArgumentArity.OneOrMore, AllowMultipleArgumentsPerToken = false };
}
