using System.CommandLine;
using System.Globalization;

namespace Leafstop.Cli.CommandLine;

/// <summary>Options that take a whole number, refused in a plain sentence when it is none.</summary>
internal static class WholeNumber
{
    public static Option<long?> Option(string name, string description) => new(name)
    {
        Description = description,
        HelpName = "N",
        CustomParser = result =>
        {
            string text = result.Tokens is [var token] ? token.Value : "";
            if (long.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out long number))
                return number;
            result.AddError($"{name} is a whole number such as 3, not '{text}'.");
            return null;
        },
    };
}
