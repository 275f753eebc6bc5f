using System.CommandLine;
using Leafstop.Cli.CommandLine;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;

namespace Leafstop.Cli.Verbs;

/// <summary>Reads what several verbs are told in the same options: limits, base ISO and the print.</summary>
internal static class LimitReading
{
    /// <summary>The limits of the call; null when it has none.</summary>
    /// <param name="written">The call.</param>
    /// <param name="belonging">Options that mean nothing without a clean limit.</param>
    /// <exception cref="Refusal">Something is unreadable, out of range, contradicts, or stands without a clean limit.</exception>
    public static (Iso Clean, Iso? Stretch)? Given(WrittenOptions written, params ReadOnlySpan<Option<string?>> belonging)
    {
        Iso? clean = Limit(written, PlanOptions.Clean), stretch = Limit(written, PlanOptions.Stretch);
        if (clean is not null)
        {
            return stretch is null || stretch >= clean
                ? (clean, stretch)
                : throw Refusal.WrongCall($"--stretch {stretch.ToDisplay()} lies below --clean {clean.ToDisplay()}: stretch is the higher of the two.");
        }
        foreach (Option<string?> option in (ReadOnlySpan<Option<string?>>)[PlanOptions.Stretch, .. belonging])
        {
            if (written.Has(option))
                throw Refusal.WrongCall($"{option.Name} needs --clean: give your clean limit too.");
        }
        return null;
    }

    /// <summary>Base ISO; null when it is not given.</summary>
    /// <exception cref="Refusal">Not readable, or out of range.</exception>
    public static Iso? Base(WrittenOptions written) =>
        written.Marked<Iso>(PlanOptions.Base, Iso.TryParse, i => i.Speed is >= 1 and <= 100000, "a base ISO lies between 1 and 100000");

    /// <summary>A print and its distance: both or none.</summary>
    /// <exception cref="Refusal">One without the other, not readable, or out of range.</exception>
    public static PrintCondition? Print(WrittenOptions written, Option<string?> widthOption, Option<string?> distanceOption) =>
        (Side(written, widthOption), Side(written, distanceOption)) switch
        {
            (null, null) => null,
            ({ } w, { } d) => new PrintCondition(w.Millimetres, d.Millimetres),
            (null, _) => throw Refusal.WrongCall($"{distanceOption.Name} needs {widthOption.Name}: how wide is the print?"),
            _ => throw Refusal.WrongCall($"{widthOption.Name} needs {distanceOption.Name}: from how far is it seen?"),
        };

    /// <summary>Width or distance of a print; null when it is not given.</summary>
    /// <exception cref="Refusal">Not readable, or out of range.</exception>
    public static Length? Side(WrittenOptions written, Option<string?> option) =>
        written.Struct<Length>(option, Length.TryParse, l => l.Metres is >= 0.01 and <= 100, "write a length from 1 cm to 100 m, such as 60cm");

    private static Iso? Limit(WrittenOptions written, Option<string?> option) =>
        written.Marked<Iso>(option, Iso.TryParse, i => i.Speed is >= 1 and <= 1e7, "an ISO lies between 1 and 10000000");
}
