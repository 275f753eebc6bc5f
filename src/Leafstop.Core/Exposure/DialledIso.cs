using Leafstop.Core.Quantities;

namespace Leafstop.Core.Exposure;

/// <summary>An ISO that is needed and the mark the camera is set to for it.</summary>
/// <remarks>Needed ISO: the nearest third, ties up. What the mark stands for is its exact power, so 500 is 503.97.</remarks>
/// <param name="Exact">The ISO needed, unrounded.</param>
/// <param name="Dial">The mark as the camera writes it.</param>
/// <param name="RoundedBy">Stops that the dial lies above what is needed; negative when below.</param>
public sealed record DialledIso(Iso Exact, Iso Dial, Stops RoundedBy)
{
    /// <summary>Rounds to the dial.</summary>
    public static DialledIso Of(Iso exact, DialStep step = DialStep.Thirds)
    {
        Mark mark = Marks.Isos(step).Nearest(exact.Speed);
        return new DialledIso(exact, Iso.FromSpeed(mark.Label), Iso.FromSpeed(mark.Exact).Above(exact));
    }

    /// <summary>True when the dial ends before the ISO needed, so that its last mark is not near.</summary>
    public bool IsBeyondDial => Math.Abs(RoundedBy.Value) > 0.5 + Stops.Hair;
}
