using System.Collections.Immutable;
using Leafstop.Core.Quantities;
using NodaTime;

namespace Leafstop.Core.Light;

/// <summary>A moment at which the light passes an exposure value.</summary>
/// <param name="Time">When, to the second.</param>
/// <param name="IsBrightening">True when there is more light after it.</param>
public readonly record struct LightCrossing(Instant Time, bool IsBrightening);

/// <summary>The light at one place over a span of time: as a table, its rate of change, and when it passes a value.</summary>
public sealed class LightCurve
{
    private static readonly Duration Longest = Duration.FromDays(3);
    private static readonly Duration SearchStep = Duration.FromMinutes(1);

    private readonly SunPath _path;
    private readonly SkyConditions _conditions;
    private readonly ImmutableArray<(LightNote Note, ExposureValue Model)> _notes;

    /// <summary>Prepares a span.</summary>
    /// <param name="start">Start.</param>
    /// <param name="end">End, after it, at most three days later.</param>
    /// <param name="place">The place.</param>
    /// <param name="conditions">Cloud, trees, walls, ridge.</param>
    /// <param name="notes">Notes of this place; empty for the model alone.</param>
    /// <exception cref="ArgumentOutOfRangeException">The span is empty, too long or out of reach.</exception>
    public LightCurve(Instant start, Instant end, Place place, SkyConditions conditions, IReadOnlyCollection<LightNote> notes)
    {
        if (end <= start || end - start > Longest)
            throw new ArgumentOutOfRangeException(nameof(end), end, "A span of light ends after it starts and lasts three days at most.");
        (Start, End, _conditions, _notes) = (start, end, conditions, LightNote.Against(place, conditions, notes));
        // A minute more on each side for the rate of change at the ends.
        _path = new SunPath(start - SearchStep, end + SearchStep, place);
    }

    /// <summary>Start.</summary>
    public Instant Start { get; }

    /// <summary>End.</summary>
    public Instant End { get; }

    /// <summary>The light at a moment.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside the span.</exception>
    public LightEstimate At(Instant when) => when < Start || when > End
        ? throw new ArgumentOutOfRangeException(nameof(when), when, "That moment is outside the span.")
        : Estimate(when);

    /// <summary>The light at the start and every step after it, the end included when a step falls on it.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The step is not above zero.</exception>
    public IEnumerable<LightEstimate> Table(Duration step)
    {
        if (step <= Duration.Zero)
            throw new ArgumentOutOfRangeException(nameof(step), step, "A step of time is above zero.");
        return Rows(step);
    }

    /// <summary>How fast the light changes, stops a minute; positive while it brightens. Taken over a minute around the moment, within one note.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside the span.</exception>
    public double StopsPerMinuteAt(Instant when)
    {
        if (when < Start || when > End)
            throw new ArgumentOutOfRangeException(nameof(when), when, "That moment is outside the span.");
        Duration half = SearchStep / 2;
        return (Model(when + half).Light - Model(when - half).Light).Value;
    }

    /// <summary>Every moment at which the light passes a value. Between two moments less than a minute apart a dip can be missed.</summary>
    public ImmutableArray<LightCrossing> Passes(ExposureValue value)
    {
        ImmutableArray<LightCrossing>.Builder found = ImmutableArray.CreateBuilder<LightCrossing>();
        Instant before = Start;
        bool wasAbove = Estimate(before).Light >= value;
        while (before < End)
        {
            Instant after = Instant.Min(before + SearchStep, End);
            bool isAbove = Estimate(after).Light >= value;
            if (isAbove != wasAbove)
                found.Add(new LightCrossing(Bisect(before, after, value, isAbove), isAbove));
            (before, wasAbove) = (after, isAbove);
        }
        return found.ToImmutable();
    }

    private IEnumerable<LightEstimate> Rows(Duration step)
    {
        for (Instant when = Start; when <= End; when += step)
            yield return Estimate(when);
    }

    private Instant Bisect(Instant low, Instant high, ExposureValue value, bool isBrightening)
    {
        while (high - low > Duration.FromMilliseconds(100))
        {
            Instant middle = low + ((high - low) / 2);
            if (Estimate(middle).Light >= value == isBrightening)
                high = middle;
            else
                low = middle;
        }
        return low + ((high - low) / 2);
    }

    private LightEstimate Estimate(Instant when) => LightNote.Carry(Model(when), _conditions, _notes);

    private LightEstimate Model(Instant when)
    {
        TopocentricSight.Sight seen = _path.At((when - _path.Start).TotalSeconds);
        return SkyLight.Under(when, new SunPosition { Altitude = Angle.FromDegrees(seen.Altitude), Azimuth = Angle.FromDegrees(seen.Azimuth) }, _conditions);
    }
}
