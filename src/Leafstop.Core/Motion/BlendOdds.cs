namespace Leafstop.Core.Motion;

/// <summary>One perfect frame against a blend: how many frames each is likely to take.</summary>
/// <remarks>Worked out for areas that move independently and frames that are fresh tries; four areas at one half take 47 frames for one that
/// has them all and 7 when a blend may gather them. A blend does not help where leaves hang across the edge between two areas.</remarks>
public sealed record BlendOdds
{
    /// <summary>How sure the counts are.</summary>
    public required Chance Sure { get; init; }

    /// <summary>The chance that one frame has every area still.</summary>
    public required Chance AllInOneFrame { get; init; }

    /// <summary>Frames for one that has every area still; null: cannot say, no number is enough.</summary>
    public required int? SingleFrames { get; init; }

    /// <summary>Frames for a blend of every area; null: cannot say, no number is enough.</summary>
    public required int? BlendFrames { get; init; }

    /// <summary>Compares the two.</summary>
    /// <param name="areas">The chance of each area being still in one frame.</param>
    /// <param name="sure">How sure to be, below 1; see <see cref="Chance.UsuallySure"/>.</param>
    /// <exception cref="ArgumentException">No area.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Certainty was asked for.</exception>
    public static BlendOdds Compare(IReadOnlyCollection<Chance> areas, Chance sure)
    {
        Chance all = FrameOdds.AllInOneFrame(areas);
        return new BlendOdds
        {
            Sure = sure,
            AllInOneFrame = all,
            SingleFrames = FrameOdds.FramesFor(all, sure),
            BlendFrames = FrameOdds.BlendFramesFor(areas, sure),
        };
    }

    /// <summary>Compares the two for areas that are all alike.</summary>
    /// <param name="perArea">The chance of each area being still in one frame.</param>
    /// <param name="areas">How many areas, 1 or more.</param>
    /// <param name="sure">How sure to be, below 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">No area, or certainty was asked for.</exception>
    public static BlendOdds CompareAlike(Chance perArea, int areas, Chance sure)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(areas, 1);
        return Compare([.. Enumerable.Repeat(perArea, areas)], sure);
    }
}
