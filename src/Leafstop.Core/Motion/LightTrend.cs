using Leafstop.Core.Quantities;

namespace Leafstop.Core.Motion;

/// <summary>How fast the light changes, from two readings of the meter.</summary>
/// <remarks>Worked out: stops over minutes, taken to go on as it went. A reading repeats to a third of a stop (judgement, as in the light notes), so two of them leave the
/// change open by a third either way: readings a minute apart tell little. Good for minutes, not for hours, and not at the edge of a cloud.</remarks>
public sealed record LightTrend
{
    /// <summary>Two readings closer together than this tell nothing.</summary>
    public static readonly TimeSpan ShortestApart = TimeSpan.FromSeconds(30);

    private const double ReadingStops = 1.0 / 3;

    private LightTrend(double stops, double minutes) => (PerMinute, Uncertain) = (Stops.Of(stops / minutes), Stops.Of(ReadingStops / minutes));

    /// <summary>Stops a minute; positive while it brightens.</summary>
    public Stops PerMinute { get; }

    /// <summary>How far that may be off, either way.</summary>
    public Stops Uncertain { get; }

    /// <summary>True when the change is larger than two readings leave open.</summary>
    public bool IsSure => Math.Abs(PerMinute.Value) > Uncertain.Value * (1 + Stops.Hair);

    /// <summary>Takes two readings.</summary>
    /// <param name="first">The earlier one.</param>
    /// <param name="second">The later one.</param>
    /// <param name="apart">Time between them, at least <see cref="ShortestApart"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">They lie too close together.</exception>
    public static LightTrend Between(ExposureValue first, ExposureValue second, TimeSpan apart) => apart >= ShortestApart
        ? new LightTrend((second - first).Value, apart.TotalMinutes)
        : throw new ArgumentOutOfRangeException(nameof(apart), apart, "Two readings that tell a change lie at least half a minute apart.");

    /// <summary>When the light will have changed by so much, if it goes on.</summary>
    /// <param name="change">Stops, of either sign; positive = brighter.</param>
    /// <returns>The time from the second reading; null when the light goes the other way, is steady, or takes more than a day.</returns>
    public TrendTime? Until(Stops change)
    {
        double sign = Math.Sign(change.Value), size = Math.Abs(change.Value), best = PerMinute.Value * sign;
        if (size <= Stops.Hair)
            return new TrendTime(TimeSpan.Zero, TimeSpan.Zero, TimeSpan.Zero);
        if (best <= 0 || Time(best) is not { } about)
            return null;
        return new TrendTime(about, Time(best + Uncertain.Value)!.Value, best > Uncertain.Value ? Time(best - Uncertain.Value) : null);

        TimeSpan? Time(double perMinute) => LightDrift.TimeFor(Stops.Of(size), Stops.Of(perMinute));
    }
}

/// <summary>A time that a trend leads to.</summary>
/// <param name="About">At the rate that was read.</param>
/// <param name="Soonest">At the fastest rate that the readings allow.</param>
/// <param name="Latest">At the slowest; null: they allow that it never comes.</param>
public sealed record TrendTime(TimeSpan About, TimeSpan Soonest, TimeSpan? Latest);
