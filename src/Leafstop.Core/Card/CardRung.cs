using Leafstop.Core.Planning;
using Leafstop.Core.Quantities;

namespace Leafstop.Core.Card;

/// <summary>One rung of the ladder: a gap and the ISO that closes it.</summary>
/// <param name="Gap">Stops under at base ISO, a whole number of thirds.</param>
/// <param name="Answer">The numbers of a plan for that gap.</param>
/// <param name="Dial">The ISO as the camera dials it.</param>
public sealed record CardRung(Stops Gap, GapAnswer Answer, Iso Dial)
{
    /// <summary>True where the gap is a whole number of stops.</summary>
    public bool IsWhole => Math.Abs(Gap.Value - Math.Round(Gap.Value)) < Stops.Hair;
}
