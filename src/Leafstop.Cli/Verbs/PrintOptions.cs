using System.CommandLine;
using Leafstop.Cli.CommandLine;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;

namespace Leafstop.Cli.Verbs;

/// <summary>--print and --distance of the verbs that look at a print 60 cm wide from 60 cm when nothing else is said.</summary>
/// <param name="what">What the print is for, in the help.</param>
internal sealed class PrintOptions(string what)
{
    /// <summary>Width of the print.</summary>
    public Option<string?> Print { get; } = new("--print") { Description = $"Width of the print {what}; 60cm when not given.", HelpName = "LENGTH" };

    /// <summary>Distance from the eye.</summary>
    public Option<string?> Distance { get; } = new("--distance") { Description = "Distance it is looked at from; 60cm when not given.", HelpName = "LENGTH" };

    /// <summary>The print that is meant.</summary>
    /// <exception cref="Refusal">A length cannot be read or meant.</exception>
    public PrintCondition Read(ParseResult call) => new(LengthOf(call, Print).Millimetres, LengthOf(call, Distance).Millimetres);

    private static Length LengthOf(ParseResult call, Option<string?> option)
    {
        if (call.GetValue(option) is not { } text)
            return Length.FromCentimetres(60);
        // Zero and less are wrong in every unit, so the unit is not what is missing.
        bool isNone = Length.TryParse(text + "mm", out Length bare, out _) && bare.Metres <= 0;
        if (!isNone && !Length.TryParse(text, out _, out string why))
            throw Refusal.WrongCall($"{option.Name}: {why}");
        // A stamp seen through a glass to a wall seen across a square.
        return !isNone && Length.TryParse(text, out Length length, out _) && length.Metres is >= 0.01 and <= 100
            ? length
            : throw Refusal.WrongCall($"{option.Name}: {text} is not between 1 cm and 100 m. Write a length with its unit, such as 60cm.");
    }
}
