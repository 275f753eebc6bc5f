using System.Globalization;

namespace Leafstop.Pocket.Screens;

/// <summary>When the place has to be left, from the person's own tide table, and the clock to it. No tide is worked out here.</summary>
internal static class LeaveScreen
{
    /// <summary>So long after an exit time it is still told; then it belongs to another tide.</summary>
    public static readonly TimeSpan Forgotten = TimeSpan.FromHours(2);

    private const double Minute = 60_000, Step = 5 * Minute, Quarter = 15 * Minute;
    private const string Caution = "By your own tide table: this page knows no tide and vouches for no figure. Watch ten minutes before you go down; never turn your back. Local warnings come first.";

    public static string Of(PocketPage page)
    {
        string verdict = Clock(page) is { Length: > 0 } clock ? clock + "." : "When must you be off?";
        return Parts.Inner("Leave by", verdict, $"<p class=\"line\">{Caution}</p>", $"<div class=\"steps\">{Parts.Step(page, Dials.Leave)}</div>", ("go:light", "Back"), ("leave:none", "Clear"), ("go:gap", "Gap"));
    }

    /// <summary>"Leave by 08:40: 45 min", whole minutes that are really left; empty when no time was set.</summary>
    public static string Clock(PocketPage page)
    {
        if (page.State.LeaveAt is not { } leave)
            return "";
        int minutes = (int)Math.Floor((leave - page.Now.Milliseconds) / Minute);
        string at = page.Now.Clock(leave);
        return minutes < 0 ? $"Leave now: {at} is past"
            : minutes < 100 ? $"Leave by {at}: {minutes.ToString(CultureInfo.InvariantCulture)}\u00A0min"
            : $"Leave by {at}: {(minutes / 60).ToString(CultureInfo.InvariantCulture)}\u00A0h {(minutes % 60).ToString(CultureInfo.InvariantCulture)}\u00A0min";
    }

    /// <summary>Five minutes earlier or later; the first step sets an hour from now.</summary>
    public static double Stepped(double? leave, Moment now, int by) =>
        leave is { } at ? at + by * Step : Math.Ceiling((now.Milliseconds + 60 * Minute) / Step) * Step;

    /// <summary>The quarters of an hour that come next.</summary>
    public static IReadOnlyList<(double Value, string Shown)> Quarters(Moment now, int from, int count)
    {
        double first = Math.Ceiling((now.Milliseconds + Minute) / Quarter) * Quarter;
        return [.. Enumerable.Range(from, count).Select(n => first + n * Quarter).Select(at => (at, now.Clock(at)))];
    }
}
