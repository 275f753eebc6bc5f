using System.Collections.Immutable;
using Leafstop.Core.Quantities;
using NodaTime;

namespace Leafstop.Core.Light;

/// <summary>The sun over a place on one local civil day, from midnight to midnight by the clock of a zone (23 to 25 hours where the clock is changed).</summary>
/// <remarks>
/// A local day may hold a set before the rise, two of a kind, or none (S-04, S-22, S-23); every one that falls into the day is found, and none that does not.
/// Crossings are good to 5 s for the convention of heights; real air moves sunrise and sunset by a minute and more (S-12).
/// </remarks>
public sealed class SunDay
{
    private const double StepSeconds = 600;
    private const double GrazingDegrees = 0.05;

    private readonly SunPath _path;
    // Between two knots the sun only rises or only sinks.
    private readonly List<(double Seconds, double Altitude)> _knots;

    private SunDay(LocalDate date, DateTimeZone zone, Place place, SunPath path)
    {
        (Date, Zone, Place, _path) = (date, zone, place, path);
        List<double> turns = Turns(path);
        Extremes = [.. turns.Select(s => new HeightExtreme(path.Time(s), Angle.FromDegrees(path.AltitudeAt(s))))];
        _knots = [.. turns.Prepend(0).Append(path.Seconds).Select(s => (s, path.AltitudeAt(s)))];
        Transits = [.. TransitSeconds(path).Select(s => new HeightExtreme(path.Time(s), Angle.FromDegrees(path.AltitudeAt(s))))];
    }

    /// <summary>The date.</summary>
    public LocalDate Date { get; }

    /// <summary>The zone whose clock bounds the day.</summary>
    public DateTimeZone Zone { get; }

    /// <summary>The place.</summary>
    public Place Place { get; }

    /// <summary>First moment of the day.</summary>
    public Instant Start => _path.Start;

    /// <summary>First moment of the next day.</summary>
    public Instant End => _path.Time(_path.Seconds);

    /// <summary>Turning points of the sun's height inside the day, in time: usually one highest and one lowest.</summary>
    public ImmutableArray<HeightExtreme> Extremes { get; }

    /// <summary>Passages over the meridian inside the day, with the height there: usually one. Not the same as the highest point (S-24).</summary>
    public ImmutableArray<HeightExtreme> Transits { get; }

    /// <summary>Works out a day.</summary>
    /// <param name="date">The date, 1800 to 2100.</param>
    /// <param name="zone">The zone, or a fixed offset.</param>
    /// <param name="place">The place.</param>
    /// <exception cref="ArgumentOutOfRangeException">The date is out of reach.</exception>
    /// <exception cref="ArgumentException">The zone's clock left that date out altogether; the message is for the person.</exception>
    public static SunDay Of(LocalDate date, DateTimeZone zone, Place place)
    {
        if (!Reach.Holds(date))
            throw new ArgumentOutOfRangeException(nameof(date), date, "The sun is worked out for the years 1800 to 2100.");
        Instant start = StartOf(date, zone)
            ?? throw new ArgumentException($"There was no {date:uuuu-MM-dd} in {zone.Id}: its clocks went over that day.", nameof(date));
        // The day before a day that never was ends where the one after it begins.
        Instant end = StartOf(date.PlusDays(1), zone) ?? StartOf(date.PlusDays(2), zone)!.Value;
        return new SunDay(date, zone, place, new SunPath(start, end, place));
    }

    /// <summary>The sun at a moment of the day, as <see cref="SunPosition.At(Instant, Place)"/> but quicker.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not on this day.</exception>
    public SunPosition At(Instant when)
    {
        if (when < Start || when > End)
            throw new ArgumentOutOfRangeException(nameof(when), when, "That moment is not on this day.");
        TopocentricSight.Sight seen = _path.At((when - Start).TotalSeconds);
        return new SunPosition { Altitude = Angle.FromDegrees(seen.Altitude), Azimuth = Angle.FromDegrees(seen.Azimuth) };
    }

    /// <summary>Every passing through an airless altitude of the sun's centre inside the day, in time.</summary>
    public ImmutableArray<HeightCrossing> Crossings(Angle altitude)
    {
        double height = altitude.Degrees;
        ImmutableArray<HeightCrossing>.Builder found = ImmutableArray.CreateBuilder<HeightCrossing>();
        for (int i = 1; i < _knots.Count; i++)
        {
            bool before = _knots[i - 1].Altitude >= height, after = _knots[i].Altitude >= height;
            if (before != after)
                found.Add(new HeightCrossing(_path.Time(Bisect(_knots[i - 1].Seconds, _knots[i].Seconds, height, after)), after));
        }
        return found.ToImmutable();
    }

    /// <summary>Whether the sun passes an altitude on this day, or stays above or below it.</summary>
    public SunState StateAt(Angle altitude) => !Crossings(altitude).IsEmpty
        ? SunState.Happens
        : _knots[0].Altitude >= altitude.Degrees ? SunState.AboveAllDay : SunState.BelowAllDay;

    /// <summary>True when the sun turns within 0.05° of an altitude: ordinary air may make or unmake the passing (S-23).</summary>
    public bool IsGrazing(Angle altitude) => Extremes.Any(e => Math.Abs((e.Altitude - altitude).Degrees) < GrazingDegrees);

    /// <summary>The events of the day in time; those that do not happen stand at the end with their state.</summary>
    /// <param name="skyLine">What the sun comes out from behind.</param>
    public ImmutableArray<SunEvent> Events(SkyLine skyLine)
    {
        List<SunEvent> events = [];
        Add(events, SkyLine.AstronomicalAltitude, SunEventKind.AstronomicalDawn, SunEventKind.AstronomicalDusk);
        Add(events, SkyLine.NauticalAltitude, SunEventKind.NauticalDawn, SunEventKind.NauticalDusk);
        Add(events, SkyLine.CivilAltitude, SunEventKind.CivilDawn, SunEventKind.CivilDusk);
        Add(events, skyLine.SunriseAltitude, SunEventKind.Sunrise, SunEventKind.Sunset);
        if (skyLine.RidgeSunAltitude is { } ridge)
            Add(events, ridge, SunEventKind.SunOverRidge, SunEventKind.SunBehindRidge);
        events.AddRange(Transits.Select(t => new SunEvent(SunEventKind.Transit, SunState.Happens, t.Time, t.Altitude, At(t.Time).Azimuth, false)));
        if (Transits.IsEmpty)
            events.Add(new SunEvent(SunEventKind.Transit, SunState.NotThisDay, null, null, null, false));
        return [.. events.OrderBy(e => e.Time ?? Instant.MaxValue).ThenBy(e => e.Kind)];
    }

    // Null for a date that islands left out when they moved over the date line.
    private static Instant? StartOf(LocalDate date, DateTimeZone zone)
    {
        try
        {
            return zone.AtStartOfDay(date).ToInstant();
        }
        catch (SkippedTimeException)
        {
            return null;
        }
    }

    private void Add(List<SunEvent> events, Angle altitude, SunEventKind rising, SunEventKind setting)
    {
        ImmutableArray<HeightCrossing> crossings = Crossings(altitude);
        bool grazing = IsGrazing(altitude);
        foreach (SunEventKind kind in (SunEventKind[])[rising, setting])
        {
            HeightCrossing[] mine = [.. crossings.Where(c => c.IsRising == (kind == rising))];
            events.AddRange(mine.Select(c => new SunEvent(kind, SunState.Happens, c.Time, altitude, At(c.Time).Azimuth, grazing)));
            if (mine.Length == 0)
                events.Add(new SunEvent(kind, crossings.IsEmpty ? StateAt(altitude) : SunState.NotThisDay, null, altitude, null, grazing));
        }
    }

    private double Bisect(double from, double to, double height, bool isRising)
    {
        // To a hundredth of a second.
        while (to - from > 0.01)
        {
            double middle = (from + to) / 2;
            if (_path.AltitudeAt(middle) >= height == isRising)
                to = middle;
            else
                from = middle;
        }
        return (from + to) / 2;
    }

    private static List<double> Turns(SunPath path)
    {
        int steps = Math.Max(2, (int)Math.Ceiling(path.Seconds / StepSeconds));
        double step = path.Seconds / steps;
        List<double> turns = [];
        // One step beyond each end, so that a turn just inside the day is bracketed; what lies outside is left off.
        double[] altitudes = [.. Enumerable.Range(-1, steps + 3).Select(i => path.AltitudeAt(i * step))];
        for (int i = 1; i < altitudes.Length - 1; i++)
        {
            bool isTop = altitudes[i] > altitudes[i - 1] && altitudes[i] >= altitudes[i + 1];
            bool isBottom = altitudes[i] < altitudes[i - 1] && altitudes[i] <= altitudes[i + 1];
            if (!isTop && !isBottom)
                continue;
            double turn = Turn(path, (i - 2) * step, i * step, isTop ? 1 : -1);
            if (turn > 0 && turn < path.Seconds)
                turns.Add(turn);
        }
        return turns;
    }

    // Golden section.
    private static double Turn(SunPath path, double low, double high, int sign)
    {
        const double Golden = 0.6180339887498949;
        double a = high - (Golden * (high - low)), b = low + (Golden * (high - low));
        double atA = sign * path.AltitudeAt(a), atB = sign * path.AltitudeAt(b);
        while (high - low > 0.5)
        {
            if (atA > atB)
            {
                (high, b, atB) = (b, a, atA);
                a = high - (Golden * (high - low));
                atA = sign * path.AltitudeAt(a);
            }
            else
            {
                (low, a, atA) = (a, b, atB);
                b = low + (Golden * (high - low));
                atB = sign * path.AltitudeAt(b);
            }
        }
        return (low + high) / 2;
    }

    private static IEnumerable<double> TransitSeconds(SunPath path)
    {
        const double DegreesPerSecond = 360 / 86400.0;
        // The hour angle grows by very nearly 360° a day; two corrections bring it to the millisecond.
        double guess = GeocentricSun.Wrap(-path.At(0).HourAngle) / DegreesPerSecond;
        for (double at = guess - 86400; at < path.Seconds + 86400; at += 86400)
        {
            double transit = at;
            for (int i = 0; i < 3; i++)
                transit -= Math.IEEERemainder(path.At(transit).HourAngle, 360) / DegreesPerSecond;
            if (transit >= 0 && transit < path.Seconds)
                yield return transit;
        }
    }
}
