using Leafstop.Core.Quantities;

namespace Leafstop.Core.Motion;

/// <summary>The longest exposure that holds something still.</summary>
public sealed record HoldingShutter
{
    // A thousand years: longer than that is any time, and some divisions by nearly nothing give it.
    private const double AnyTimeSeconds = 3e10;

    private HoldingShutter(ShutterTime? exact) => Exact = exact;

    /// <summary>The exposure time, literal; null when any time holds because nothing moves in the picture.</summary>
    public ShutterTime? Exact { get; }

    /// <summary>True when any time holds.</summary>
    public bool HoldsAnyTime => Exact is null;

    /// <summary>The longest mark that holds, as an exact power; null when any time does, or when even the shortest mark is too long.</summary>
    /// <param name="step">Steps of the dial.</param>
    public ShutterTime? Mark(DialStep step = DialStep.Thirds)
    {
        if (Exact is null) return null;
        ShutterTime mark = Exact.MarkAtOrBelow(step);
        return mark.Seconds <= Exact.Seconds * (1 + Stops.Hair) ? mark : null;
    }

    /// <summary>"1/125 s", "any time", or "shorter than any mark".</summary>
    public string ToDisplay(DialStep step = DialStep.Thirds) => HoldsAnyTime ? "any time" : Mark(step)?.ToDisplay(step) ?? "shorter than any mark";

    /// <summary>Takes seconds; so many that nothing can be said to move stand for any time.</summary>
    internal static HoldingShutter FromSeconds(double seconds) => new(seconds < AnyTimeSeconds ? ShutterTime.FromSeconds(seconds) : null);
}
