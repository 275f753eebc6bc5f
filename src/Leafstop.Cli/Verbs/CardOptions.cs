using System.CommandLine;

namespace Leafstop.Cli.Verbs;

/// <summary>The options of leafstop card that are its own; limits and base ISO are those of leafstop plan.</summary>
internal static class CardOptions
{
    public static readonly Option<string> File = new("--out") { Description = "File to write, .pdf.", HelpName = "FILE", Required = true };
    public static readonly Option<string?> Camera = Text("--camera", "NAME", "Kept camera that the card is for; may be left out where only one is kept. Where none is, --clean and --stretch make a card of limits alone, under this name.");
    public static readonly Option<string> Lenses = new("--lenses") { Description = "Focal lengths in mm, 24,35,70 when not given.", HelpName = "MM,…", DefaultValueFactory = _ => "24,35,70" };
    public static readonly Option<string?> Print = Text("--print", "LENGTH", "Width of the print that the card holds for; that of your judging when not given, else 60cm.");
    public static readonly Option<string?> Distance = Text("--distance", "LENGTH", "Distance it is looked at from; that of your judging when neither is given, else 60cm.");
    public static readonly Option<string> Size = new("--size") { Description = "a6, or wallet for the two sides of a bank card, which has room for three lenses, leaves at one distance, and no list to tick; a6 when not given.", HelpName = "SIZE", DefaultValueFactory = _ => "a6" };
    public static readonly Option<string?> Format = Text("--format", "WxHmm", "Frame of the camera as it is held; 36x24mm when not given.");
    public static readonly Option<string?> Streak = Text("--streak", "PERCENT", "The streak you like water to draw, in % of the frame's width; 4% when not given.");
    public static readonly Option<string?> WaterSpeed = Text("--water-speed", "SPEED", "Speed of the water across the frame; 1m/s when not given.");
    public static readonly Option<string?> Screen = Text("--screen", "LENGTH", "The camera's screen from corner to corner, seen from 30 cm; 3in when not given.");

    /// <summary>All of them, in the order of the help.</summary>
    public static readonly Option[] All =
    [
        Camera, Lenses, Print, Distance, Size, PlanOptions.Clean, PlanOptions.Stretch, PlanOptions.LimitPrint, PlanOptions.LimitDistance, PlanOptions.Base, Format, Streak, WaterSpeed, Screen, File,
    ];

    private static Option<string?> Text(string name, string help, string what) => new(name) { Description = what, HelpName = help };
}
