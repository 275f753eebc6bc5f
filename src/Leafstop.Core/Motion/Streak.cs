using Leafstop.Core.Text;

namespace Leafstop.Core.Motion;

/// <summary>How long the trace of moving water is in a picture: its share of the width of the frame. The default is none.</summary>
/// <remarks>A taste in water is a streak, not a time: the same streak looks alike with another lens, from another distance, on another format.</remarks>
public readonly record struct Streak : IComparable<Streak>
{
    private Streak(double shareOfWidth) => ShareOfWidth = shareOfWidth;

    /// <summary>Length over the width of the frame; above 1 when it runs out of the picture.</summary>
    public double ShareOfWidth { get; }

    /// <summary>In per cent of the width.</summary>
    public double Percent => ShareOfWidth * 100;

    /// <summary>Takes a share of the width.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or below zero.</exception>
    public static Streak FromShare(double shareOfWidth) => double.IsFinite(shareOfWidth) && shareOfWidth >= 0
        ? new Streak(shareOfWidth)
        : throw new ArgumentOutOfRangeException(nameof(shareOfWidth), shareOfWidth, "A streak is finite and not below zero.");

    /// <summary>Takes per cent of the width.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or below zero.</exception>
    public static Streak FromPercent(double percent) => FromShare(percent / 100);

    /// <summary>The taste that kept frames show: the geometric mean of their streaks, since streaks are told apart by ratio as stops are.</summary>
    /// <exception cref="ArgumentException">No frame, or one without a streak.</exception>
    public static Streak TasteOf(IReadOnlyCollection<Streak> kept) => kept.Count > 0 && kept.All(streak => streak.ShareOfWidth > 0)
        ? new Streak(Math.Exp(kept.Average(streak => Math.Log(streak.ShareOfWidth))))
        : throw new ArgumentException("A taste needs at least one kept frame, and every kept frame a streak.", nameof(kept));

    /// <inheritdoc/>
    public int CompareTo(Streak other) => ShareOfWidth.CompareTo(other.ShareOfWidth);

    /// <summary>Per cent in full, "4 %": reads back to the same value in any culture to double precision.</summary>
    public override string ToString() => $"{Written.RoundTrip(Percent)} %";

    /// <summary>"4.1 % of the width".</summary>
    public string ToDisplay() => $"{Percent.ToString(Percent < 9.95 ? "0.0" : "0", System.Globalization.CultureInfo.InvariantCulture)} % of the width";

    /// <summary>Reads per cent of the width: "4%", "4.1 %".</summary>
    /// <exception cref="FormatException">Not a streak; the message says why.</exception>
    public static Streak Parse(string text) => TryParse(text, out Streak streak, out string why) ? streak : throw new FormatException(why);

    /// <summary>Reads as <see cref="Parse"/> does, telling why not instead of throwing.</summary>
    public static bool TryParse(string? text, out Streak streak, out string why)
    {
        streak = default;
        const string wanted = "a streak in per cent of the frame's width such as 4%";
        string trimmed = (text ?? "").Trim();
        if (!trimmed.EndsWith('%'))
        {
            why = trimmed.Length == 0 ? $"A streak is missing: write {wanted}." : $"'{trimmed}' has no % sign: write {wanted}.";
            return false;
        }
        if (!Written.TryPositive(trimmed, ["%"], wanted, out double percent, out why))
            return false;
        streak = new Streak(percent / 100);
        return true;
    }

    /// <summary>Orders by length.</summary>
    public static bool operator <(Streak left, Streak right) => left.ShareOfWidth < right.ShareOfWidth;

    /// <summary>Orders by length.</summary>
    public static bool operator >(Streak left, Streak right) => left.ShareOfWidth > right.ShareOfWidth;

    /// <summary>Orders by length.</summary>
    public static bool operator <=(Streak left, Streak right) => left.ShareOfWidth <= right.ShareOfWidth;

    /// <summary>Orders by length.</summary>
    public static bool operator >=(Streak left, Streak right) => left.ShareOfWidth >= right.ShareOfWidth;
}
