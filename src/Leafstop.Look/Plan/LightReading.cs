using System.Globalization;
using Leafstop.Core.Exposure;
using Leafstop.Core.Light;
using Leafstop.Core.Planning;
using Leafstop.Core.Quantities;
using NodaTime;
using NodaTime.Text;
using NodaTime.TimeZones;

namespace Leafstop.Look.Plan;

/// <summary>What is asked about the light: where, which day, under what sky.</summary>
/// <param name="Place">Where.</param>
/// <param name="Known">The known place it was taken from; null when it was written out.</param>
/// <param name="Zone">The clock.</param>
/// <param name="Date">The local date.</param>
/// <param name="Conditions">The sky.</param>
public sealed record LightReading(Place Place, KnownPlace? Known, DateTimeZone Zone, LocalDate Date, SkyConditions Conditions)
{
    private static readonly Duration Ahead = Duration.FromHours(3);
    private static readonly Duration Minute = Duration.FromMinutes(1);

    /// <summary>What a meter showed on the day itself; null when it was not read. It wins over every note of the place.</summary>
    public LightNote? Metered { get; init; }

    /// <summary>The notes that count.</summary>
    public IReadOnlyCollection<LightNote> Notes => Metered is { } metered ? [metered] : Known?.Notes ?? [];

    /// <summary>The same with what a meter showed at a time through the filters that were on: the light of other times is that, moved by the difference of the model.</summary>
    /// <param name="written">What the meter showed, and the filters.</param>
    /// <param name="time">The local time of the reading.</param>
    public LightReading Anchored(WrittenValues written, string time)
    {
        FilterSet filters = FilterSet.None;
        string filter = written.Text(PlanNames.Filters)?.Trim() ?? "";
        if (!ExposureValue.TryParse(written.Text(PlanNames.Ev), out ExposureValue shown, out string why))
            throw written.Wrong($"{written.Called(PlanNames.Ev)}: {why}");
        if (filter.Length > 0 && !FilterSet.TryParse(filter, out filters, out why))
            throw written.Wrong($"{written.Called(PlanNames.Filters)}: {why}");
        return this with { Metered = new LightNote(Moment(written, PlanNames.Light, time), shown, Conditions.Cloud, filters.Total, filter) };
    }

    /// <summary>Reads what was written; a value that is given goes before what is known of the place.</summary>
    /// <param name="written">What was written.</param>
    /// <param name="find">Finds a place by its name, or refuses.</param>
    /// <param name="now">Says the day when none was written.</param>
    public static LightReading Read(WrittenValues written, Func<string, KnownPlace> find, Instant now)
    {
        KnownPlace? known = written.Text(PlanNames.Place) is { } name ? find(name) : null;
        if (known is not null && (written.Has(PlanNames.Latitude) || written.Has(PlanNames.Longitude)))
            throw written.Wrong($"{written.Called(PlanNames.Place)} names the spot, so leave out {written.Called(PlanNames.Latitude)} and {written.Called(PlanNames.Longitude)}.");
        Place place = known?.Place ?? ReadPlace(written);
        DateTimeZone zone = ReadZone(written, written.Text(PlanNames.Zone) ?? known?.Zone ?? throw NoClock(written));
        LocalDate date = written.Text(PlanNames.Date) is { } day ? ReadDate(written, day) : now.InZone(zone).Date;
        return new LightReading(place, known, zone, date, ReadSky(written, known));
    }

    /// <summary>Where the values say.</summary>
    public static Place ReadPlace(WrittenValues written)
    {
        (string? latitude, string? longitude) = (written.Text(PlanNames.Latitude), written.Text(PlanNames.Longitude));
        if (latitude is null || longitude is null)
            throw written.Wrong($"Say where with {written.Called(PlanNames.Latitude)} and {written.Called(PlanNames.Longitude)} in degrees, or with {written.Example(PlanNames.Place, "NAME")}.");
        return Told(written, () => Place.FromDegrees(
            Number(written, PlanNames.Latitude, latitude), Number(written, PlanNames.Longitude, longitude),
            written.Text(PlanNames.Elevation) is { } metres ? Number(written, PlanNames.Elevation, WithoutUnit(metres)) : 0));
    }

    /// <summary>What the values say of the sky, on top of what is known of the place.</summary>
    public static SkyConditions ReadSky(WrittenValues written, KnownPlace? known) => Told(written, () =>
    {
        (string? valley, string? basin) = (written.Text(PlanNames.Valley), written.Text(PlanNames.Basin));
        if (valley is not null && basin is not null)
            throw written.Wrong($"Give {written.Called(PlanNames.Valley)} or {written.Called(PlanNames.Basin)}, not both.");
        SkyLine line = SkyLine.Level;
        if (written.Text(PlanNames.EyeHeight) is { } eye)
            line = line.FromEyeHeight(Number(written, PlanNames.EyeHeight, WithoutUnit(eye)));
        if (written.Text(PlanNames.Ridge) is { } ridge)
            line = line.WithRidge(Angle.FromDegrees(Number(written, PlanNames.Ridge, ridge)));
        else if (known?.Ridge is { } seen)
            line = line.WithRidge(seen);
        return new SkyConditions
        {
            Cloud = written.Text(PlanNames.Okta) is { } okta ? CloudCover.FromOkta(Number(written, PlanNames.Okta, okta)) : default,
            Canopy = (written.Text(PlanNames.Canopy) ?? known?.Canopy) is { } canopy ? ReadCanopy(written, canopy) : Canopy.None,
            View = valley is not null ? SkyView.Valley(Angle.FromDegrees(Number(written, PlanNames.Valley, valley)))
                : basin is not null ? SkyView.Basin(Angle.FromDegrees(Number(written, PlanNames.Basin, basin)))
                : known?.View ?? SkyView.Open,
            SkyLine = line,
        };
    });

    /// <summary>The light of a plan at a time, with the three hours after it.</summary>
    /// <param name="written">For refusals.</param>
    /// <param name="time">The local time, such as 07:40.</param>
    /// <param name="withAhead">False leaves the hours after it out, which take most of the work.</param>
    public WorkedLight At(WrittenValues written, string time, bool withAhead = true)
    {
        Instant when = Moment(written, PlanNames.Light, time);
        LightCurve curve = Told(written, () => new LightCurve(when, when + Ahead, Place, Conditions, Notes));
        LightEstimate now = curve.At(when);
        string source = now.How == HowKnown.RuleOfThumb ? "by the model of sun, cloud and trees (rule of thumb)" : "from your own light note, carried to this time (worked out)";
        string sentence = string.Create(
            CultureInfo.InvariantCulture,
            $"At {when.InZone(Zone).ToString("HH:mm", CultureInfo.InvariantCulture)} the light is EV {now.Light.ToDisplay()}, the sun at {now.Sun.Altitude.Degrees:0.0}\u00B0, {source}; filters that will be on are taken off once.");
        return new WorkedLight(
            now.Light, now.Uncertainty, now.Sun.Altitude.Degrees > 0,
            withAhead ? [.. curve.Table(Minute).Skip(1).Select(e => new LightAhead(e.When.InZone(Zone).ToDateTimeOffset(), e.Light - now.Light))] : [],
            sentence.Replace('-', '\u2212'));
    }

    /// <summary>A moment of the day by its clock; one that the clock leaves out or shows twice that day is refused.</summary>
    public Instant Moment(WrittenValues written, string name, string time) =>
        OnTheClock(written, written.Called(name), Date + ReadTime(written, name, time), Zone, $"give {written.Called(PlanNames.Zone)} as an offset, such as UTC+01:00, to say which");

    /// <summary>What a clock in a zone showed.</summary>
    /// <param name="written">For refusals.</param>
    /// <param name="called">What to name in a refusal.</param>
    /// <param name="local">Date and time on the clock.</param>
    /// <param name="zone">The zone.</param>
    /// <param name="which">How to say which of two is meant.</param>
    public static Instant OnTheClock(WrittenValues written, string called, LocalDateTime local, DateTimeZone zone, string which)
    {
        ZoneLocalMapping mapping = zone.MapLocal(local);
        string time = $"{called}: {local.ToString("HH:mm 'on' uuuu-MM-dd", CultureInfo.InvariantCulture)}";
        return mapping.Count switch
        {
            0 => throw written.Wrong($"{time} does not exist in {zone.Id}: the clock is put forward over it."),
            2 => throw written.Wrong($"{time} comes twice in {zone.Id}, where the clock is put back: {which}."),
            _ => mapping.Single().ToInstant(),
        };
    }

    /// <summary>The zone.</summary>
    public static DateTimeZone ReadZone(WrittenValues written, string zone) => ZoneName.TryParse(zone, out DateTimeZone read, out string why) ? read : throw written.Wrong($"{written.Called(PlanNames.Zone)}: {why}");

    /// <summary>The refusal where nothing says whose clock counts.</summary>
    public static Exception NoClock(WrittenValues written) =>
        written.Wrong($"Say whose clock counts with {written.Called(PlanNames.Zone)}, such as {written.Example(PlanNames.Zone, "Europe/London")} or {written.Example(PlanNames.Zone, "UTC+02:00")}.");

    /// <summary>A plain number.</summary>
    public static double Number(WrittenValues written, string name, string text) =>
        double.TryParse(text.Trim().Replace('\u2212', '-').TrimEnd('°'), NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out double number)
            && double.IsFinite(number)
            ? number
            : throw written.Wrong($"{written.Called(name)}: '{text}' is no number: write it with a point, such as 50.1.");

    /// <summary>Runs what throws for the person and turns it into a refusal.</summary>
    public static T Told<T>(WrittenValues written, Func<T> doing)
    {
        try
        {
            return doing();
        }
        catch (ArgumentException wrong)
        {
            throw written.Wrong(wrong.Message.Split([" (Parameter", "\n"], StringSplitOptions.None)[0]);
        }
    }

    private static Canopy ReadCanopy(WrittenValues written, string text) => Canopy.TryParse(text, out Canopy canopy, out string why) ? canopy : throw written.Wrong($"{written.Called(PlanNames.Canopy)}: {why}");

    private static LocalDate ReadDate(WrittenValues written, string text)
    {
        ParseResult<LocalDate> read = LocalDatePattern.Iso.Parse(text.Trim());
        if (!read.Success)
            throw written.Wrong($"{written.Called(PlanNames.Date)}: '{text}' is no date: write year, month and day such as 2026-10-17.");
        return Reach.Holds(read.Value)
            ? read.Value
            : throw written.Wrong($"{written.Called(PlanNames.Date)}: {text} is out of reach: the sun is worked out for the years {Reach.FirstYear} to {Reach.LastYear}.");
    }

    private static LocalTime ReadTime(WrittenValues written, string name, string text)
    {
        foreach (string pattern in (string[])["H:mm", "H:mm:ss"])
        {
            ParseResult<LocalTime> read = LocalTimePattern.CreateWithInvariantCulture(pattern).Parse(text.Trim());
            if (read.Success)
                return read.Value;
        }
        throw written.Wrong($"{written.Called(name)}: '{text}' is no time of day: write it such as 06:50.");
    }

    private static string WithoutUnit(string metres) => metres.Trim().EndsWith('m') ? metres.Trim()[..^1] : metres;
}
