using System.CommandLine;
using System.Globalization;
using Leafstop.Cli.CommandLine;
using Leafstop.Core.Exposure;
using Leafstop.Core.Light;
using Leafstop.Core.Quantities;
using Leafstop.Storage;
using Leafstop.Storage.Places;
using NodaTime;

namespace Leafstop.Cli.Verbs;

/// <summary>What a call asks about the light: where, which day, under what sky.</summary>
/// <param name="Asked">Where, which day, under what sky.</param>
/// <param name="Kept">The kept place it was taken from; null when it was typed.</param>
/// <param name="Options">What was written.</param>
internal sealed record LightCall(LightReading Asked, KeptPlace? Kept, WrittenOptions Options)
{
    /// <summary>Where.</summary>
    public Place Place => Asked.Place;

    /// <summary>The clock.</summary>
    public DateTimeZone Zone => Asked.Zone;

    /// <summary>The local date.</summary>
    public LocalDate Date => Asked.Date;

    /// <summary>The sky.</summary>
    public SkyConditions Conditions => Asked.Conditions;

    /// <summary>Notes of the kept place.</summary>
    public IReadOnlyCollection<LightNote> Notes => Asked.Notes;

    /// <summary>Reads the call; an option that is given goes before what the kept place says.</summary>
    /// <exception cref="Refusal">Something cannot be read, is missing or contradicts.</exception>
    public static LightCall Read(ParseResult call, Surroundings say)
    {
        KeptPlace? kept = null;
        WrittenOptions written = Written(call);
        var read = LightReading.Read(written, name => (kept = Find(name, new PlaceStore(new DataFile(say.DataFolder(call))))).Known, Instant.FromDateTimeOffset(say.Clock.GetUtcNow()));
        return new LightCall(read, kept, written);
    }

    /// <summary>A kept place.</summary>
    /// <exception cref="Refusal">None of that name is kept.</exception>
    public static KeptPlace Find(string name, PlaceStore store) => Refusal.Told(() =>
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
    public static Place ReadPlace(ParseResult call) => LightReading.ReadPlace(Written(call));

    /// <summary>What the options say of the sky.</summary>
    /// <exception cref="Refusal">Not readable or out of range.</exception>
    public static SkyConditions ReadSky(ParseResult call) => LightReading.ReadSky(Written(call), null);

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
    /// <param name="option">Such as "--at".</param>
    /// <param name="written">What was written there.</param>
    /// <exception cref="Refusal">Not a time, or one that the clock leaves out or shows twice that day.</exception>
    public Instant Moment(string option, string written) => Asked.Moment(Options, option[2..], written);

    /// <summary>What a clock in a zone showed.</summary>
    /// <param name="call">The call.</param>
    /// <param name="option">Option to name in a refusal.</param>
    /// <param name="local">Date and time on the clock.</param>
    /// <param name="zone">The zone.</param>
    /// <param name="which">How to say which of two is meant.</param>
    /// <exception cref="Refusal">The clock leaves the time out or shows it twice.</exception>
    public static Instant OnTheClock(ParseResult call, string option, LocalDateTime local, DateTimeZone zone, string which) => LightReading.OnTheClock(Written(call), option, local, zone, which);

    /// <summary>The zone.</summary>
    /// <exception cref="Refusal">Not known.</exception>
    public static DateTimeZone ReadZone(ParseResult call, string written) => LightReading.ReadZone(Written(call), written);

    /// <summary>A plain number.</summary>
    /// <exception cref="Refusal">None.</exception>
    public static double Number(ParseResult call, string option, string written) => LightReading.Number(Written(call), option[2..], written);

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

    private static WrittenOptions Written(ParseResult call) => new(call, NumberReading.Marks);
}
