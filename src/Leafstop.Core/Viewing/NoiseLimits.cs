using System.Collections.Immutable;
using Leafstop.Core.Quantities;

namespace Leafstop.Core.Viewing;

/// <summary>The clean and the stretch limit of one person, body and print, and the steps by which they were brought there.</summary>
/// <remarks>Clean: the highest ISO whose noise is not noticed. Stretch: the highest at which the person would still rather have the picture than not. Either may be
/// unknown. A store of judged limits makes these with <see cref="LimitOrigin.Judged"/>.</remarks>
public sealed record NoiseLimits
{
    private NoiseLimits(Iso? clean, Iso? stretch, LimitTags tags, LimitOrigin origin, ImmutableArray<LimitShift> shifts) =>
        (Clean, Stretch, Tags, Origin, Shifts) = (clean, stretch, tags, origin, shifts);

    /// <summary>Clean limit, exact; null when unknown.</summary>
    public Iso? Clean { get; }

    /// <summary>Stretch limit, exact; null when unknown.</summary>
    public Iso? Stretch { get; }

    /// <summary>What they hold for.</summary>
    public LimitTags Tags { get; }

    /// <summary>Where they come from.</summary>
    public LimitOrigin Origin { get; }

    /// <summary>The steps that were applied to what was judged, given or worked out; empty when none was.</summary>
    public ImmutableArray<LimitShift> Shifts { get; }

    /// <summary>Clean as it is dialled: the third at or below.</summary>
    public Iso? CleanDial => Clean?.DialAtOrBelow();

    /// <summary>Stretch as it is dialled: the third at or below.</summary>
    public Iso? StretchDial => Stretch?.DialAtOrBelow();

    /// <summary>Takes a pair of limits. A number that is a mark stands for its exact power.</summary>
    /// <param name="clean">Clean, or null.</param>
    /// <param name="stretch">Stretch, or null; not below clean.</param>
    /// <param name="tags">What they hold for.</param>
    /// <param name="origin">Where they come from.</param>
    /// <exception cref="ArgumentException">Stretch lies below clean.</exception>
    public static NoiseLimits Of(Iso? clean, Iso? stretch, LimitTags tags, LimitOrigin origin)
    {
        if (clean is not null && stretch is not null && stretch < clean)
            throw new ArgumentException("A stretch limit is not below the clean limit.", nameof(stretch));
        return new NoiseLimits(Exact(clean), Exact(stretch), tags, origin, []);
    }

    /// <summary>The same limits moved by a step.</summary>
    public NoiseLimits Moved(LimitShift shift) => new(By(Clean, shift.Stops), By(Stretch, shift.Stops), Tags, Origin, Shifts.Add(shift));

    /// <summary>The limits for another print, by <see cref="LimitScaling.Print"/>; the same ones when the print is the same.</summary>
    public NoiseLimits For(Sensor.PrintCondition print)
    {
        if (print == Tags.Print)
            return this;
        LimitShift shift = LimitScaling.Print(Tags.Print, print);
        return new NoiseLimits(By(Clean, shift.Stops), By(Stretch, shift.Stops), Tags with { Print = print }, Origin, Shifts.Add(shift));
    }

    /// <summary>Equal in every part.</summary>
    public bool Equals(NoiseLimits? other) => other is not null
        && (Clean, Stretch, Tags, Origin) == (other.Clean, other.Stretch, other.Tags, other.Origin) && Shifts.SequenceEqual(other.Shifts);

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Clean, Stretch, Tags, Origin, Shifts.Length);

    private static Iso? Exact(Iso? limit) => limit is null ? null : Iso.FromMarking(limit.Speed);

    private static Iso? By(Iso? limit, Stops stops) => limit is null ? null : Iso.FromSpeed(limit.Speed * stops.Ratio);
}
