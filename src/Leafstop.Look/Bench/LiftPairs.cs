using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;

namespace Leafstop.Look.Bench;

/// <summary>The pairs of lift or dial in two parts: the few that answer the question, and the rest.</summary>
/// <param name="Few">Pairs to show first, in the order of the answer.</param>
/// <param name="Rest">All others, in the order of the answer.</param>
public sealed record LiftPairs(IReadOnlyList<LiftOrDial> Few, IReadOnlyList<LiftOrDial> Rest)
{
    /// <summary>Fewer pairs than this are not worth parting.</summary>
    private const int FewEnough = 6;

    /// <summary>Parts the pairs. The few are: across each gain step; from the lowest ISO to the one to stop at; and from there (without one: from the lowest) to its
    /// neighbour, to the level nearest two stops higher, and to the highest.</summary>
    public static LiftPairs Of(BenchAnswer answer)
    {
        if (answer.LiftOrDial.Length <= FewEnough)
            return new LiftPairs(answer.LiftOrDial, []);
        Iso lowest = answer.LiftOrDial.Min(p => p.Shot)!, from = answer.StopAt ?? lowest;
        HashSet<(Iso, Iso)> wanted = [.. answer.GainSteps.Select(s => (s.Below, s.Above)), (lowest, from)];
        Iso[] above = [.. answer.LiftOrDial.Where(p => p.Shot == from).Select(p => p.LiftedTo).Order()];
        if (above.Length > 0)
        {
            wanted.Add((from, above[0]));
            wanted.Add((from, above.MinBy(i => Math.Abs(i.Above(from).Value - 2))!));
            wanted.Add((from, above[^1]));
        }

        ILookup<bool, LiftOrDial> parted = answer.LiftOrDial.ToLookup(p => wanted.Contains((p.Shot, p.LiftedTo)));
        return parted[true].Any() ? new LiftPairs([.. parted[true]], [.. parted[false]]) : new LiftPairs(answer.LiftOrDial, []);
    }

    /// <summary>The tones that the pairs speak of, brightest first.</summary>
    public static double[] Tones(IEnumerable<LiftOrDial> pairs) => [.. pairs.SelectMany(p => p.Losses).Select(l => l.ToneEv).Distinct().OrderDescending()];
}
