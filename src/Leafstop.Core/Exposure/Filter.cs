using System.Globalization;
using Leafstop.Core.Quantities;
using Leafstop.Core.Text;

namespace Leafstop.Core.Exposure;

/// <summary>A filter in front of the lens and the light it takes.</summary>
/// <remarks>Source: EXP-44 (ND): stops = log2(factor) = D · log2 10. A label of density 3.0 is 9.966 stops and "ten stops" is a factor of 1024; the number that
/// is written is taken literally, and <see cref="LabelStops"/> is what the trade calls it (EXP-45).</remarks>
public sealed record Filter
{
    /// <summary>What a polariser takes when nobody has measured it, stops: 1 to 2, common practice, no source.</summary>
    public static readonly Stops UsualPolariser = Stops.Of(1.5);

    private const double MostStops = 30;

    private Filter(string name, FilterKind kind, Stops stops, HowKnown how) => (Name, Kind, Stops, How) = (name, kind, stops, how);

    /// <summary>As it was written, "polariser", "nd8".</summary>
    public string Name { get; }

    /// <summary>What it is for.</summary>
    public FilterKind Kind { get; }

    /// <summary>Light it takes, stops, zero or more.</summary>
    public Stops Stops { get; }

    /// <summary>A rule of thumb when a polariser was named without its stops; else worked out from what was written.</summary>
    public HowKnown How { get; }

    /// <summary>Share of the light that passes is one over this.</summary>
    public double Factor => Stops.Ratio;

    /// <summary>Optical density: stops / log2 10.</summary>
    public double Density => Stops.Value / Math.Log2(10);

    /// <summary>The nearest third, as labels have it: density 0.9 is "3 stops". Source: EXP-45.</summary>
    public Stops LabelStops => Stops.NearestThird();

    /// <summary>A polariser that takes so many stops.</summary>
    public static Filter Polariser(Stops stops) => Checked("polariser", FilterKind.Polariser, stops);

    /// <summary>A neutral filter by its factor, 8 for three stops.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The factor is below 1 or takes more than 30 stops.</exception>
    public static Filter FromFactor(double factor) => Checked($"nd{Written.Short(factor)}", FilterKind.NeutralDensity, Stops.FromRatio(factor));

    /// <summary>A neutral filter by its density, 0.9 for 2.99 stops.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Below zero or more than 30 stops.</exception>
    public static Filter FromDensity(double density) =>
        Checked($"density {density.ToString("0.0##", CultureInfo.InvariantCulture)}", FilterKind.NeutralDensity, Stops.Of(density * Math.Log2(10)));

    /// <summary>Any filter by its stops.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Below zero or more than 30 stops.</exception>
    public static Filter FromStops(Stops stops, string name = "filter") => Checked(name, FilterKind.Other, stops);

    /// <summary>Reads "polariser 1.5", "polariser", "nd8", "density 0.9", "3 stops", "factor 8", "graduated 2".</summary>
    /// <exception cref="FormatException">Not a filter; the message says why.</exception>
    public static Filter Parse(string text) => TryParse(text, out Filter? filter, out string why) ? filter! : throw new FormatException(why);

    /// <summary>Reads as <see cref="Parse"/> does, telling why not instead of throwing.</summary>
    public static bool TryParse(string? text, out Filter? filter, out string why)
    {
        const string Wanted = "write \"polariser 1.5\", \"nd8\", \"density 0.9\" or \"3 stops\"";
        filter = null;
        string trimmed = (text ?? "").Trim();
        int letters = trimmed.TakeWhile(c => char.IsLetter(c) || c is '-').Count();
        string name = trimmed[..letters].ToLowerInvariant(), rest = trimmed[letters..].Trim();
        if (name is "polarizer" or "pol")
            name = "polariser";
        if (name == "polariser" && rest.Length == 0)
        {
            filter = new Filter(name, FilterKind.Polariser, UsualPolariser, HowKnown.RuleOfThumb);
            why = "";
            return true;
        }
        if (rest.Length == 0)
        {
            why = trimmed.Length == 0 ? $"A filter is missing: {Wanted}." : $"'{trimmed}' does not say how much light it takes: {Wanted}.";
            return false;
        }
        if (!Written.TryNumber(rest, ["stops", "stop", "x", "\u00D7"], "a number after the filter", out double number, out why))
        {
            why = $"'{trimmed}' is no filter that is known here: {Wanted}.";
            return false;
        }
        if (name == "nd" && rest.Contains('.', StringComparison.Ordinal))
        {
            why = $"'{trimmed}' can be read two ways: write density {rest} or its factor such as nd8.";
            return false;
        }
        Func<Filter>? make = name switch
        {
            "polariser" => () => Polariser(Stops.Of(number)),
            "nd" or "factor" => () => FromFactor(number),
            "density" or "d" => () => FromDensity(number),
            _ => () => FromStops(Stops.Of(number), name.Length > 0 ? name : "filter"),
        };
        try
        {
            filter = make();
            return true;
        }
        catch (ArgumentOutOfRangeException)
        {
            why = $"'{trimmed}' takes less than no light or more than {MostStops} stops: {Wanted}.";
            return false;
        }
    }

    private static Filter Checked(string name, FilterKind kind, Stops stops) => stops.Value is >= 0 and <= MostStops
        ? new Filter(name, kind, stops, HowKnown.WorkedOut)
        : throw new ArgumentOutOfRangeException(nameof(stops), stops.Value, "A filter takes 0 to 30 stops.");
}
