using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;

namespace Leafstop.Look.Plan;

/// <summary>Reads what several answers are told in the same values: limits, base ISO, format and the print.</summary>
public static class LimitReading
{
    private const string FormatRange = "write width and height of the sensor, such as 36x24mm";

    /// <summary>The limits that were written; null when none were.</summary>
    /// <param name="written">What was written.</param>
    /// <param name="belonging">Values that mean nothing without a clean limit.</param>
    public static (Iso Clean, Iso? Stretch)? Given(WrittenValues written, params ReadOnlySpan<string> belonging)
    {
        Iso? clean = Limit(written, PlanNames.Clean), stretch = Limit(written, PlanNames.Stretch);
        if (clean is not null)
        {
            return stretch is null || stretch >= clean
                ? (clean, stretch)
                : throw written.Wrong($"{written.Example(PlanNames.Stretch, stretch.ToDisplay())} lies below {written.Example(PlanNames.Clean, clean.ToDisplay())}: stretch is the higher of the two.");
        }
        foreach (string name in (ReadOnlySpan<string>)[PlanNames.Stretch, .. belonging])
        {
            if (written.Has(name))
                throw written.Wrong($"{written.Called(name)} needs {written.Called(PlanNames.Clean)}: give your clean limit too.");
        }
        return null;
    }

    /// <summary>Base ISO; null when it was not written.</summary>
    public static Iso? Base(WrittenValues written) =>
        written.Marked<Iso>(PlanNames.Base, Iso.TryParse, i => i >= Iso.FromMarking(1) && i <= Iso.FromMarking(100000), "a base ISO lies between 1 and 100000");

    /// <summary>The frame of a camera; null when it was not written.</summary>
    public static FrameFormat? Format(WrittenValues written, string name = PlanNames.Format) =>
        written.Class<FrameFormat>(name, FrameFormat.TryParse, f => f.Diagonal.Millimetres is >= 1 and <= 2000, FormatRange);

    /// <summary>A print and its distance: both or none.</summary>
    public static PrintCondition? Print(WrittenValues written, string width, string distance) =>
        (Side(written, width), Side(written, distance)) switch
        {
            (null, null) => null,
            ({ } w, { } d) => new PrintCondition(w.Millimetres, d.Millimetres),
            (null, _) => throw written.Wrong($"{written.Called(distance)} needs {written.Called(width)}: how wide is the print?"),
            _ => throw written.Wrong($"{written.Called(width)} needs {written.Called(distance)}: from how far is it seen?"),
        };

    /// <summary>Width or distance of a print; null when it was not written.</summary>
    public static Length? Side(WrittenValues written, string name) =>
        written.Struct<Length>(name, Length.TryParse, l => l.Metres is >= 0.01 and <= 100, "write a length from 1 cm to 100 m, such as 60cm");

    // The dial's 1 stands for a speed a little below 1: the ends of a range are marks too.
    private static Iso? Limit(WrittenValues written, string name) =>
        written.Marked<Iso>(name, Iso.TryParse, i => i >= Iso.FromMarking(1) && i <= Iso.FromMarking(1e7), "an ISO lies between 1 and 10000000");
}
