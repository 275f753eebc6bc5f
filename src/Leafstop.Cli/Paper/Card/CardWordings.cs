using System.Globalization;
using Leafstop.Core.Card;
using Leafstop.Core.Motion;
using Leafstop.Core.Quantities;
using Leafstop.Core.Viewing;

namespace Leafstop.Cli.Paper.Card;

/// <summary>The words and figures of a printed card.</summary>
internal static class CardWordings
{
    private static readonly string[] Parts = ["", "⅓", "⅔"];

    /// <summary>Stops with true fractions, "2⅓"; halves and the sixth of a crop as they are counted.</summary>
    public static string Stops(Stops stops)
    {
        double whole = Math.Floor(stops.Value + 1e-6), rest = stops.Value - whole;
        string? odd = Math.Abs(rest - 0.5) < 0.02 ? "½" : Math.Abs(rest - 1 / 6.0) < 0.02 ? "⅙" : null;
        if (odd is not null)
            return whole > 0 ? Whole(whole) + odd : odd;
        int thirds = (int)Math.Round(stops.NearestThird().Value * 3);
        return thirds % 3 == 0 ? Whole(thirds / 3) : (thirds > 3 ? Whole(thirds / 3) : "") + Parts[thirds % 3];
    }

    /// <summary>"1 to 3", or one number.</summary>
    public static string Stops(CardGiveUp row) => row.Most > row.Least ? $"{Stops(row.Least)} to {Stops(row.Most)}" : Stops(row.Least);

    /// <summary>A shutter time without its unit, "1/125", "0.4"; seconds from 1 s on with it.</summary>
    public static string Shutter(ShutterTime time) => time.Seconds < 0.9 ? time.ToDisplay()[..^2] : time.ToDisplay();

    /// <summary>A shutter that holds.</summary>
    public static string Shutter(HoldingShutter holding) => holding.HoldsAnyTime ? "any" : holding.Mark() is { } mark ? Shutter(mark) : "none";

    /// <summary>Metres, "3.4", "10.2", "29".</summary>
    public static string Metres(double metres) => metres.ToString(metres < 19.95 ? "0.0" : "0", CultureInfo.InvariantCulture);

    /// <summary>A circle of confusion, "0.015 mm".</summary>
    public static string Circle(Length circle) => circle.Millimetres.ToString("0.000", CultureInfo.InvariantCulture) + " mm";

    /// <summary>"4.7×".</summary>
    public static string Zoom(double zoom) => zoom.ToString(zoom < 9.95 ? "0.0" : "0", CultureInfo.InvariantCulture) + "×";

    /// <summary>The two limits as they are dialled: "clean 800, stretch 3200"; how far was measured where they lie above that.</summary>
    public static string Limits(PocketCard card) => card switch
    {
        { IsCleanThroughout: true } => $"clean at least to {Figures.Dial(card.MeasuredTo!)}",
        { MeasuredTo: { } highest } => $"clean {Dial(card.Limits?.Clean, card.Limits?.CleanDial)}, stretch over {Figures.Dial(highest)}",
        { Limits: { } limits } => $"clean {Clean(card, limits)}, stretch {Dial(limits.Stretch, limits.StretchDial)}",
        { Text.Levels: [var lowest, _, ..] } => $"past stretch at {Figures.Dial(lowest.Iso)}",
        _ => "limits unknown",
    };

    /// <summary>Where the limits lie that the ladder does not reach, in one sentence; null when both stand on it.</summary>
    /// <param name="card">The card.</param>
    /// <param name="shown">The rungs that are printed.</param>
    public static string? OffLadder(PocketCard card, IReadOnlyList<CardRung> shown)
    {
        string[] off = [.. new[] { Off("clean", card.Limits?.Clean), Off("stretch", card.Limits?.Stretch) }.OfType<string>()];
        return off.Length > 0 ? $"Off this ladder: {string.Join(", ", off)}{(IsBeyond(card, shown.Count) ? " stops" : "")}." : null;

        string? Off(string word, Iso? limit) => ThirdOf(card, limit) switch
        {
            null => null,
            < 0 => $"{word} under base",
            { } third when third >= shown.Count => $"{word} at {Stops(Core.Quantities.Stops.FromThirds(third))}",
            _ => null,
        };
    }

    /// <summary>True where a limit lies beyond the last of so many rungs.</summary>
    public static bool IsBeyond(PocketCard card, int rungs) => ThirdOf(card, card.Limits?.Clean) >= rungs || ThirdOf(card, card.Limits?.Stretch) >= rungs;

    /// <summary>The rung that a limit is dialled at, thirds above base: below 0 it lies under base ISO. Null without a limit.</summary>
    public static int? ThirdOf(PocketCard card, Iso? limit) => limit is null ? null : (int)Math.Round(limit.Above(card.Text.BaseIso).ThirdAtOrBelow().Value * 3);

    /// <summary>"60 cm wide, seen from 60 cm".</summary>
    public static string Print(PocketCard card) => $"{Figures.Length(card.Text.Print.WidthMm)} wide, seen from {Figures.Length(card.Text.Print.ViewingDistanceMm)}";

    /// <summary>Whose limits they are and how they are known.</summary>
    public static string Whose(PocketCard card) => card.IsCleanThroughout ? $"Worked out: clean even at {Figures.Dial(card.MeasuredTo!)}, the highest measured."
        : card.MeasuredTo is { } highest ? $"Limits: worked out; measured to {Figures.Dial(highest)} only."
        : card.Limits is not { } limits ? card.Text.Levels.Length > 1 ? $"Even {Figures.Dial(card.Text.Levels[0].Iso)} is past stretch. (rule of thumb)" : "No limits are known yet."
        : limits.Origin switch
        {
            LimitOrigin.Judged when limits.Shifts.IsEmpty => $"Limits: you judged them{On(card.Text.JudgedOn)}. (measured)",
            LimitOrigin.Judged => $"Limits: worked out from your judging{On(card.Text.JudgedOn)}.",
            LimitOrigin.Given when limits.Shifts.IsEmpty => "Limits: as you gave them.",
            LimitOrigin.Given => "Limits: worked out from those you gave.",
            LimitOrigin.Invented => "Limits: invented demo data.",
            _ => "Worked out, not judged by you; stretch: rule of thumb.",
        };

    /// <summary>The same where there is less room.</summary>
    public static string WhoseInShort(PocketCard card) => card.IsCleanThroughout ? $"Measured to {Figures.Dial(card.MeasuredTo!)}: clean even there."
        : card.Limits is { Origin: LimitOrigin.Judged } limits
        ? limits.Shifts.IsEmpty ? $"Judged{(card.Text.JudgedOn is { } day ? $" {ShortDay(day)}" : "")}. (measured)" : "Limits: worked out from your judging."
        : card.Limits is { Origin: LimitOrigin.WorkedOut } && card.MeasuredTo is null ? "Limits: worked out; stretch: rule of thumb."
        : Whose(card);

    /// <summary>"3 October 2026".</summary>
    public static string Day(DateOnly day) => day.ToString("d MMMM yyyy", CultureInfo.InvariantCulture);

    /// <summary>"3 Oct 2026".</summary>
    public static string ShortDay(DateOnly day) => day.ToString("d MMM yyyy", CultureInfo.InvariantCulture);

    /// <summary>True where the limits are known well enough for a whole rule; else the rule is broken.</summary>
    public static bool AreOwn(NoiseLimits limits) => limits.Origin != LimitOrigin.WorkedOut && limits.Shifts.IsEmpty;

    private static string On(DateOnly? day) => day is { } d ? $" on {Day(d)}" : "";

    /// <summary>A clean limit that the criterion does not give lies under the lowest ISO that was measured; a limit that nobody gave is unknown.</summary>
    private static string Clean(PocketCard card, NoiseLimits limits) => limits is { Clean: null, Origin: LimitOrigin.WorkedOut } && card.Text.Levels is [var lowest, ..]
        ? $"under {Figures.Dial(lowest.Iso)}"
        : Dial(limits.Clean, limits.CleanDial);

    private static string Dial(Iso? exact, Iso? dial) => exact is null ? "unknown" : Figures.Dial(dial!);

    private static string Whole(double whole) => whole.ToString("0", CultureInfo.InvariantCulture);
}
