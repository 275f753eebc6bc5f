using Leafstop.Browser.Contracts;
using Leafstop.Core.Quantities;
using Leafstop.Look;

namespace Leafstop.Browser.Parts;

/// <summary>Judged limits in a sentence and on a ladder.</summary>
internal static class LimitsSaid
{
    /// <summary>"Clean 800, stretch 3200."</summary>
    public static string Verdict(JudgedLimitView clean, JudgedLimitView stretch, bool areKept) => areKept switch
    {
        false => "I cannot say where your limits are.",
        _ when clean.Iso is { } c && stretch.Iso is { } s => $"Clean {Mark(c)}, stretch {Mark(s)}.",
        _ when clean.Iso is { } c => $"Clean {Mark(c)}; no stretch limit yet.",
        _ when stretch.Iso is { } s => $"Stretch {Mark(s)}; no clean limit yet.",
        _ => "I cannot say where your limits are.",
    };

    /// <summary>The two rules with their spreads.</summary>
    public static StopLadder Ladder(JudgedLimitView clean, JudgedLimitView stretch, bool areKept) => new()
    {
        Clean = areKept ? Rule(clean) : null,
        Stretch = areKept ? Rule(stretch) : null,
    };

    private static string Mark(double speed) => Iso.FromSpeed(speed).ToDisplay();

    private static LadderLimit? Rule(JudgedLimitView limit) => limit.Iso is { } iso ? new LadderLimit(iso, limit.LowIso, limit.HighIso, true) : null;
}
