using System.CommandLine;
using System.Globalization;
using Leafstop.Cli.CommandLine;
using Leafstop.Core.Exposure;
using Leafstop.Core.Light;
using Leafstop.Core.Quantities;
using Leafstop.Storage;
using Leafstop.Storage.Places;
using NodaTime;
using NodaTime.Text;
using NodaTime.TimeZones;

namespace Leafstop.Cli.Verbs;

/// <summary>What a call asks about the light: where, which day, under what sky.</summary>
/// <param name="Place">Where.</param>
/// <param name="Kept">The kept place it was taken from; null when it was typed.</param>
/// <param name="Zone">The clock.</param>
/// <param name="Date">The local date.</param>
/// <param name="Conditions">The sky.</param>
internal sealed record LightCall(Place Place, KeptPlace? Kept, DateTimeZone Zone, LocalDate Date, SkyConditions Conditions)
{
    /// <summary>Notes of the kept place.</summary>
    public LightNote[] Notes => Kept is null ? [] : [.. Kept.Notes.Select(n => n.Note)];

    /// <summary>Reads the call; an option that is given goes before what the kept place says.</summary>
    /// <exception cref="Refusal">Something cannot be read, is missing or contradicts.</exception>
    public static LightCall Read(ParseResult call, Surroundings say)
    {
        KeptPlace? kept = call.GetValue(LightOptions.PlaceName) is { } name ? Find(name, new PlaceStore(new DataFile(say.DataFolder(call)))) : null;
        if (kept is not null && (call.GetValue(LightOptions.Latitude) ?? call.GetValue(LightOptions.Longitude)) is not null)
            throw Refusal.WrongCall("--place names the spot, so leave out --lat and --lon.");
        Place place = kept?.Place ?? ReadPlace(call);
        DateTimeZone zone = ReadZone(call.GetValue(LightOptions.Zone) ?? kept?.Zone
            ?? throw Refusal.WrongCall("Say whose clock counts with --zone, such as --zone Europe/London or --zone UTC+02:00."));
        LocalDate date = call.GetValue(LightOptions.Date) is { } written
            ? ReadDate(written)
            : Instant.FromDateTimeOffset(say.Clock.GetUtcNow()).InZone(zone).Date;
        return new LightCall(place, kept, zone, date, ReadSky(call, kept));
    }

    /// <summary>A kept place.</summary>
    /// <exception cref="Refusal">None of that name is kept.</exception>
    public static KeptPlace Find(string name, PlaceStore store) => Told(() =>
    {
        if (store.Find(name) is { } place)
            return place;
        string[] known = [.. store.List().Select(p => $"'{p.Name}'")];
        throw Refusal.NoAnswer(known.Length == 0
            ? $"no place is kept yet, so '{name}' is not: leafstop places add \"{name}\" --lat … --lon … --zone …"
            : $"no place '{name}' is kept. There is {string.Join(", ", known)}.");
    });

    /// <summary>Where the options say.</summary>
    /// <exception cref="Refusal">Missing or out of range.</exception>
    public static Place ReadPlace(ParseResult call)
    {
        string latitude = call.GetValue(LightOptions.Latitude) ?? throw Refusal.WrongCall("Say where with --lat and --lon in degrees, or with --place NAME.");
        string longitude = call.GetValue(LightOptions.Longitude) ?? throw Refusal.WrongCall("Say where with --lat and --lon in degrees, or with --place NAME.");
        return Told(() => Place.FromDegrees(
            Number("--lat", latitude), Number("--lon", longitude), call.GetValue(LightOptions.Elevation) is { } metres ? Number("--elevation", WithoutUnit(metres)) : 0));
    }

    /// <summary>What the options say of the sky, on top of what is kept of the place.</summary>
    /// <exception cref="Refusal">Not readable or out of range.</exception>
    public static SkyConditions ReadSky(ParseResult call, KeptPlace? kept) => Told(() =>
    {
        (string? valley, string? basin) = (call.GetValue(LightOptions.Valley), call.GetValue(LightOptions.Basin));
        if (valley is not null && basin is not null)
            throw Refusal.WrongCall("Give --valley or --basin, not both.");
        SkyLine line = SkyLine.Level;
        if (call.GetValue(LightOptions.EyeHeight) is { } eye)
            line = line.FromEyeHeight(Number("--eye-height", WithoutUnit(eye)));
        if (call.GetValue(LightOptions.Ridge) is { } ridge)
            line = line.WithRidge(Angle.FromDegrees(Number("--ridge", ridge)));
        else if (kept?.Ridge is { } known)
            line = line.WithRidge(known);
        return new SkyConditions
        {
            Cloud = call.GetValue(LightOptions.Okta) is { } okta ? CloudCover.FromOkta(Number("--okta", okta)) : default,
            Canopy = (call.GetValue(LightOptions.Canopy) ?? kept?.Canopy) is { } canopy ? ReadCanopy(canopy) : Core.Light.Canopy.None,
            View = valley is not null ? SkyView.Valley(Angle.FromDegrees(Number("--valley", valley)))
                : basin is not null ? SkyView.Basin(Angle.FromDegrees(Number("--basin", basin)))
                : kept?.View ?? SkyView.Open,
            SkyLine = line,
        };
    });

    /// <summary>The light that the call wants to wait for; null when it wants none.</summary>
    /// <exception cref="Refusal">Half of it is missing, or not readable.</exception>
    public static ExposureValue? ReadWanted(ParseResult call)
    {
        string? ev = call.GetValue(LightOptions.Ev);
        string?[] parts = [call.GetValue(LightOptions.Aperture), call.GetValue(LightOptions.Shutter), call.GetValue(LightOptions.IsoLimit)];
        if (parts.All(p => p is null))
        {
            if (call.GetValue(LightOptions.Filter) is not null)
                throw Refusal.WrongCall("--filter goes with --aperture, --shutter and --iso: the light itself is told without a filter.");
            if (ev is null)
                return null;
            return ExposureValue.TryParse(ev, out ExposureValue value, out string whyNot) ? value : throw Refusal.WrongCall($"--ev: {whyNot}");
        }
        if (ev is not null)
            throw Refusal.WrongCall("Give --ev, or --aperture with --shutter and --iso, not both.");
        if (parts.Any(p => p is null))
            throw Refusal.WrongCall("--aperture, --shutter and --iso go together: they say how much light you need.");
        if (!FNumber.TryParse(parts[0], out FNumber? aperture, out string why))
            throw Refusal.WrongCall($"--aperture: {why}");
        if (!ShutterTime.TryParse(parts[1], out ShutterTime? shutter, out why))
            throw Refusal.WrongCall($"--shutter: {why}");
        if (!Iso.TryParse(parts[2], out Iso? iso, out why))
            throw Refusal.WrongCall($"--iso: {why}");
        FilterSet filters = FilterSet.None;
        if (call.GetValue(LightOptions.Filter) is { } filter && !FilterSet.TryParse(filter, out filters, out why))
            throw Refusal.WrongCall($"--filter: {why}");
        return ExposureValue.Of(aperture!, shutter!, iso!) + filters.Total;
    }

    /// <summary>A moment of the day by its clock.</summary>
    /// <exception cref="Refusal">Not a time, or one that the clock leaves out or shows twice that day.</exception>
    public Instant Moment(string option, string written) => OnTheClock(option, Date + ReadTime(option, written), Zone, "give --zone as an offset, such as UTC+01:00, to say which");

    /// <summary>What a clock in a zone showed.</summary>
    /// <param name="option">Option to name in a refusal.</param>
    /// <param name="local">Date and time on the clock.</param>
    /// <param name="zone">The zone.</param>
    /// <param name="which">How to say which of two is meant.</param>
    /// <exception cref="Refusal">The clock leaves the time out or shows it twice.</exception>
    public static Instant OnTheClock(string option, LocalDateTime local, DateTimeZone zone, string which)
    {
        ZoneLocalMapping mapping = zone.MapLocal(local);
        string time = $"{option}: {local.ToString("HH:mm 'on' uuuu-MM-dd", CultureInfo.InvariantCulture)}";
        return mapping.Count switch
        {
            0 => throw Refusal.WrongCall($"{time} does not exist in {zone.Id}: the clock is put forward over it."),
            2 => throw Refusal.WrongCall($"{time} comes twice in {zone.Id}, where the clock is put back: {which}."),
            _ => mapping.Single().ToInstant(),
        };
    }

    /// <summary>The zone.</summary>
    /// <exception cref="Refusal">Not known.</exception>
    public static DateTimeZone ReadZone(string written) => ZoneName.TryParse(written, out DateTimeZone zone, out string why) ? zone : throw Refusal.WrongCall($"--zone: {why}");

    /// <summary>The trees.</summary>
    /// <exception cref="Refusal">Not known.</exception>
    public static Canopy ReadCanopy(string written) => Core.Light.Canopy.TryParse(written, out Canopy canopy, out string why) ? canopy : throw Refusal.WrongCall($"--canopy: {why}");

    /// <summary>A plain number.</summary>
    /// <exception cref="Refusal">None.</exception>
    public static double Number(string option, string written) =>
        double.TryParse(written.Trim().Replace('\u2212', '-').TrimEnd('°'), NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out double number)
            && double.IsFinite(number)
            ? number
            : throw Refusal.WrongCall($"{option}: '{written}' is no number: write it with a point, such as 50.1.");

    /// <summary>A step of time such as 5min, 30s or 1h.</summary>
    /// <exception cref="Refusal">None, or not from a second to a day.</exception>
    public static Duration ReadStep(string written)
    {
        string bare = written.Trim().ToLowerInvariant();
        string digits = new([.. bare.TakeWhile(c => char.IsAsciiDigit(c) || c == '.')]);
        double? seconds = bare[digits.Length..].Trim() switch
        {
            "s" or "sec" => 1,
            "m" or "min" or "minutes" => 60,
            "h" or "hours" or "hour" => 3600,
            _ => null,
        };
        if (seconds is null || !double.TryParse(digits, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out double count))
            throw Refusal.WrongCall($"--step: '{written}' is no step of time: write it with its unit, such as 5min or 30s.");
        double total = seconds.Value * count;
        return total is >= 1 and <= 86400 ? Duration.FromSeconds(total) : throw Refusal.WrongCall($"--step: '{written}' is out of range: a step is from 1s to 24h.");
    }

    /// <summary>Runs what throws for the person and turns it into a refusal.</summary>
    public static T Told<T>(Func<T> doing)
    {
        try
        {
            return doing();
        }
        catch (ArgumentException wrong)
        {
            throw Refusal.WrongCall(wrong.Message.Split([" (Parameter", "\n"], StringSplitOptions.None)[0]);
        }
        catch (UnusableDataFileException data)
        {
            throw Refusal.NoAnswer(data.Message);
        }
    }

    /// <summary>A date.</summary>
    /// <exception cref="Refusal">None, or out of reach.</exception>
    public static LocalDate ReadDate(string written)
    {
        ParseResult<LocalDate> read = LocalDatePattern.Iso.Parse(written.Trim());
        if (!read.Success)
            throw Refusal.WrongCall($"--date: '{written}' is no date: write year, month and day such as 2026-10-17.");
        return Reach.Holds(read.Value)
            ? read.Value
            : throw Refusal.WrongCall($"--date: {written} is out of reach: the sun is worked out for the years {Reach.FirstYear} to {Reach.LastYear}.");
    }

    private static LocalTime ReadTime(string option, string written)
    {
        foreach (string pattern in (string[])["H:mm", "H:mm:ss"])
        {
            ParseResult<LocalTime> read = LocalTimePattern.CreateWithInvariantCulture(pattern).Parse(written.Trim());
            if (read.Success)
                return read.Value;
        }
        throw Refusal.WrongCall($"{option}: '{written}' is no time of day: write it such as 06:50.");
    }

    private static string WithoutUnit(string metres) => metres.Trim().EndsWith('m') ? metres.Trim()[..^1] : metres;
}
