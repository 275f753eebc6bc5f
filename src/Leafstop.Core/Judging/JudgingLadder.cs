using System.Collections.Immutable;
using Leafstop.Core.Quantities;

namespace Leafstop.Core.Judging;

/// <summary>An ISO of the bench ladder that can be judged.</summary>
/// <param name="Iso">The ISO; a mark stands for its exact power.</param>
/// <param name="HasPair">True when there are two frames, so that levels below it can be made.</param>
public sealed record LadderIso(Iso Iso, bool HasPair);

/// <summary>The levels that can be shown from one bench ladder.</summary>
public sealed class JudgingLadder
{
    // Half a mark of the dial: finer steps are not told apart by any eye, and coarser ones cost answers.
    private const double Step = 1.0 / 6;

    private JudgingLadder(ImmutableArray<LadderIso> isos, ImmutableArray<ShownLevel> levels) => (Isos, Levels) = (isos, levels);

    /// <summary>The ISOs, lowest first.</summary>
    public ImmutableArray<LadderIso> Isos { get; }

    /// <summary>All that can be shown, least noise first, at sixths of a stop where pairs allow it.</summary>
    public ImmutableArray<ShownLevel> Levels { get; }

    /// <summary>What a blank check shows: the least noise there is.</summary>
    public ShownLevel Cleanest => Levels[0];

    /// <summary>The most noise there is.</summary>
    public ShownLevel Noisiest => Levels[^1];

    /// <summary>Works out what a ladder can show.</summary>
    /// <param name="isos">At least three different ISOs that span two stops or more.</param>
    /// <exception cref="ArgumentException">Too few, or too close together; the message is for the person.</exception>
    public static JudgingLadder Of(IEnumerable<LadderIso> isos)
    {
        LadderIso[] sorted =
        [
            .. isos.Select(i => i with { Iso = Iso.FromMarking(i.Iso.Speed) })
                .GroupBy(i => Math.Round(ShownLevel.Stops(i.Iso), 6)).OrderBy(g => g.Key).Select(g => new LadderIso(g.First().Iso, g.Any(i => i.HasPair))),
        ];
        if (sorted.Length < 3 || ShownLevel.Stops(sorted[^1].Iso) - ShownLevel.Stops(sorted[0].Iso) < 2 - Stops.Hair)
            throw new ArgumentException("Judging needs at least three ISOs that span two stops or more: shoot a longer ladder.", nameof(isos));
        List<ShownLevel> levels = [];
        double last = double.NegativeInfinity;
        foreach (LadderIso one in sorted)
        {
            double own = ShownLevel.Stops(one.Iso);
            // Each level comes from the lowest ISO that can give it, so that as little as possible is averaged away.
            for (int k = 6; one.HasPair && k >= 1; k--)
            {
                if (own - k * Step > last + Step / 2)
                    levels.Add(ShownLevel.Lowered(one.Iso, k * Step));
            }
            levels.Add(ShownLevel.OneFrame(one.Iso));
            last = own;
        }
        return new JudgingLadder([.. sorted], [.. levels]);
    }
}
