using System.CommandLine;

namespace Leafstop.Cli.Verbs;

/// <summary>The options of leafstop depth.</summary>
internal sealed class DepthOptions
{
    public Option<string?> Focal { get; } = Text("--focal", "Focal length of the lens.", "LENGTH");

    public Option<string?> Aperture { get; } = Text("--aperture", "f-number as set, such as f/8.", "F");

    public Option<string?> Focus { get; } = Text("--focus", "Distance focused on; inf for infinity.", "DISTANCE");

    public Option<string?> Near { get; } = Text("--near", "Nearest thing that must be sharp.", "DISTANCE");

    public Option<string?> Far { get; } = Text("--far", "Farthest thing that must be sharp; inf for infinity.", "DISTANCE");

    public Option<string[]> At { get; } = new("--at")
    {
        Description = "Distance of a thing whose blur is asked for; may be given more than once.",
        HelpName = "DISTANCE",
        Arity = ArgumentArity.OneOrMore,
        AllowMultipleArgumentsPerToken = false,
    };

    public Option<string?> Coc { get; } = Text("--coc", "Circle of confusion on the sensor, instead of a print.", "LENGTH");

    public Option<string?> Print { get; } = Text("--print", "Width of the print.", "LENGTH");

    public Option<string?> Distance { get; } = Text("--distance", "Distance it is looked at from.", "LENGTH");

    public Option<string?> Format { get; } = Text("--format", "Frame of the camera as it is held; 36x24mm when not given.", "WxH");

    public Option<string?> Acuity { get; } = Text("--acuity", "What the eye tells apart, in minutes of arc; 1.43 when not given.", "ARCMIN");

    public Option<string?> Crop { get; } = Text("--crop", "Share of the frame's width that is printed; all of it when not given.", "SHARE");

    public Option<string?> Overlap { get; } = Text("--overlap", "Share of each focus step that the next one holds too; 0.3 when not given.", "SHARE");

    public Option<string> From { get; } = FromOption();

    public Option<bool> Literal { get; } = new("--literal") { Description = "Take f/11 for 11, not for the power 11.314 that the mark stands for." };

    public Option<bool> Why { get; } = new("--why") { Description = "Show formulas, sources and inputs." };

    private static Option<string?> Text(string name, string description, string help) => new(name) { Description = description, HelpName = help };

    private static Option<string> FromOption()
    {
        Option<string> option = new("--from")
        {
            Description = "Where distances are measured from: lens (when not given) or mark, the focus mark in the plane of the sensor.",
            HelpName = "lens|mark",
            DefaultValueFactory = _ => "lens",
        };
        option.Validators.Add(result =>
        {
            if (result.Tokens is [var token] && token.Value is not ("lens" or "mark"))
                result.AddError($"--from is lens or mark, not '{token.Value}'");
        });
        return option;
    }
}
