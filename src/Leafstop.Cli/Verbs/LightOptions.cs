using System.CommandLine;

namespace Leafstop.Cli.Verbs;

/// <summary>The options that say where, when and under what sky.</summary>
internal static class LightOptions
{
    public static readonly Option<string?> PlaceName = Text("--place", "NAME", "A place that was kept with 'leafstop places add'; its light notes are used.");
    public static readonly Option<string?> Latitude = Text("--lat", "DEGREES", "Latitude, north positive, such as 50.1.");
    public static readonly Option<string?> Longitude = Text("--lon", "DEGREES", "Longitude, east positive, such as -3.2.");
    public static readonly Option<string?> Elevation = Text("--elevation", "METRES", "Height above the sea; 0 when not given.");
    public static readonly Option<string?> Date = Text("--date", "DATE", "Local date such as 2026-10-17; today when not given.");
    public static readonly Option<string?> Zone = Text("--zone", "ZONE", "Time zone such as Europe/London, or an offset such as UTC+02:00.");
    public static readonly Option<string?> At = Text("--at", "TIME", "One local time such as 06:50.");
    public static readonly Option<string?> From = Text("--from", "TIME", "First local time of the table; start of the day when not given.");
    public static readonly Option<string?> To = Text("--to", "TIME", "Last local time of the table; end of the day when not given.");
    public static readonly Option<string?> Step = Text("--step", "TIME", "Step of the table such as 5min; 15min when not given.");
    public static readonly Option<string?> Okta = Text("--okta", "EIGHTHS", "Cloud in eighths of the sky, 0 (clear) to 8 (closed); clear when not given.");
    public static readonly Option<string?> Canopy = Text("--canopy", "SHARE", "Light under the trees: a share such as 0.06, a leaf area such as \"lai 5.5\", or a stand such as aspen-summer.");
    public static readonly Option<string?> Ridge = Text("--ridge", "DEGREES", "How high the ridge stands that hides the sun, such as 10.");
    public static readonly Option<string?> Valley = Text("--valley", "DEGREES", "How high both walls of a long valley stand.");
    public static readonly Option<string?> Basin = Text("--basin", "DEGREES", "How high the walls all round stand.");
    public static readonly Option<string?> EyeHeight = Text("--eye-height", "METRES", "Height of the eye over the sea that forms the horizon.");
    public static readonly Option<string?> Ev = Text("--ev", "EV", "Tell when the light passes this EV100.");
    public static readonly Option<string?> Aperture = Text("--aperture", "F", "With --shutter and --iso: tell when the light passes what they need.");
    public static readonly Option<string?> Shutter = Text("--shutter", "TIME", "See --aperture.");
    public static readonly Option<string?> IsoLimit = Text("--iso", "ISO", "The highest ISO you will dial, such as your clean limit; see --aperture.");
    public static readonly Option<string?> Filter = Text("--filter", "FILTER", "A filter that will be on, such as \"polariser 1.5\"; with --aperture.");
    public static readonly Option<bool> Why = new("--why") { Description = "Show formulas, sources and inputs." };

    /// <summary>All of them, in the order of the help.</summary>
    public static readonly Option[] All =
    [
        PlaceName, Latitude, Longitude, Elevation, Date, Zone, At, From, To, Step, Okta, Canopy, Ridge, Valley, Basin, EyeHeight, Ev, Aperture, Shutter, IsoLimit, Filter, Why,
    ];

    private static Option<string?> Text(string name, string help, string what) => new(name) { Description = what, HelpName = help };
}
