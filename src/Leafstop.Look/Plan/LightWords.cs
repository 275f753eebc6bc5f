using System.Text.Json;
using Leafstop.Core.Light;
using Leafstop.Core.Quantities;
using NodaTime;
using NodaTime.Text;

namespace Leafstop.Look.Plan;

/// <summary>The words of the light of a day: verdict, second, how sure, cautions.</summary>
/// <param name="answer">What is told.</param>
public sealed class LightWords(LightAnswer answer)
{
    private static readonly LocalTimePattern Clock = LocalTimePattern.CreateWithInvariantCulture("HH:mm");

    // Below a hundredth of a stop a minute nobody has to hurry.
    private const double StillStopsPerMinute = 0.01;

    private SunDay Day => answer.Day;

    /// <summary>The answer in a sentence.</summary>
    public string Sentence => answer.Wanted is { } wanted ? Enough(wanted)
        : answer.Moment is { } one ? $"{Ev(one.Light)} at {Time(one.When)} under {Sky}, {Sun(one)}."
        : Sunlight();

    /// <summary>The number behind it.</summary>
    public string Second
    {
        get
        {
            if (answer.Moment is { } one)
                return $"{Rate(answer.Curve.StopsPerMinuteAt(one.When))} Light on level ground, by the model alone: {Figures.Significant(one.Illuminance.Lux)}{Figures.NoBreak}lx. {Basis(one)}".Trim();
            LightEstimate brightest = answer.Rows.MaxBy(r => r.Light)!;
            return $"{AtSunrise()}Brightest in the table: {Ev(brightest.Light)} at {Time(brightest.When)}, under {Sky}. {Basis(brightest)}".Trim();
        }
    }

    /// <summary>How sure it is.</summary>
    public Statement HowSure
    {
        get
        {
            LightEstimate row = answer.Moment ?? answer.Rows.MaxBy(r => r.Uncertainty)!;
            string most = answer.Moment is null ? "at most " : "";
            return row.Note is null
                ? new Statement($"Light ±{Figures.NoBreak}{Size(row.Uncertainty)}: a mean sky, and an instant may have half or double of it. Your meter in the field always wins.", HowKnown.RuleOfThumb)
                : new Statement($"Light ±{Figures.NoBreak}{most}{Size(row.Uncertainty)}: your reading (measured), carried to other times by the model. Your meter in the field always wins.", HowKnown.WorkedOut);
        }
    }

    /// <summary>Cautions, each a sentence.</summary>
    public IEnumerable<(string Code, string Text)> Cautions
    {
        get
        {
            if (answer.Events.Any(e => e.IsGrazing))
                yield return ("grazing", "The sun turns within 0.05° of a height that counts on this day: the air decides whether, and when, it passes it.");
            if (answer.SunShows)
                yield return ("sunInFrame", "Do not look at the sun through a long lens or an optical finder, and keep the cap on while you wait. Local rules and rangers always win.");
        }
    }

    /// <summary>"sunrise", "civil dawn".</summary>
    public static string Name(SunEventKind kind) => kind switch
    {
        SunEventKind.SunOverRidge => "sun over the ridge",
        SunEventKind.SunBehindRidge => "sun behind the ridge",
        _ => JsonNamingPolicy.CamelCase.ConvertName(kind.ToString()) is var camel ? string.Concat(camel.Select(c => char.IsUpper(c) ? $" {char.ToLowerInvariant(c)}" : $"{c}")) : "",
    };

    /// <summary>Local time to the minute.</summary>
    public string Time(Instant when) => Clock.Format((when + Duration.FromSeconds(30)).InZone(Day.Zone).TimeOfDay);

    /// <summary>"EV 6 2/3", the nearest third.</summary>
    public static string Ev(ExposureValue light) => $"EV{Figures.NoBreak}{light.ToDisplay().Replace(' ', Figures.NoBreak)}";

    /// <summary>"a clear sky", "8/8 cloud".</summary>
    public string Sky => answer.Conditions.Cloud.Okta == 0 ? "a clear sky" : answer.Conditions.Cloud.ToString();

    /// <summary>Whole degrees, 0 to 359.</summary>
    public static string Bearing(Angle azimuth) => Figures.Fixed(Math.Round(azimuth.Degrees) % 360, 0);

    private static string Size(Stops stops) => $"{Figures.Fixed(stops.Value, stops.Value == 1 ? 0 : 1)}{Figures.NoBreak}{(stops.Value > 1 ? "stops" : "stop")}";

    private string AtSunrise()
    {
        LightCurve curve = answer.Curve;
        return answer.Events.FirstOrDefault(e => e.Kind == SunEventKind.Sunrise)?.Time is { } rise && rise >= curve.Start && rise <= curve.End
            ? $"At sunrise {Ev(curve.At(rise).Light)}. {Rate(curve.StopsPerMinuteAt(rise))} "
            : "";
    }

    /// <summary>"brightening by a stop in 5 minutes".</summary>
    private static string Rate(double stopsPerMinute) => Math.Abs(stopsPerMinute) < StillStopsPerMinute
        ? "The light holds: under a stop in 100 minutes."
        : $"It {(stopsPerMinute > 0 ? "brightens" : "darkens")} by a stop in {Figures.Fixed(1 / Math.Abs(stopsPerMinute), Math.Abs(stopsPerMinute) > 0.2 ? 1 : 0)}{Figures.NoBreak}min.";

    private static string Sun(LightEstimate row) =>
        $"the sun {Figures.Fixed(Math.Abs(row.Sun.Altitude.Degrees), 1)}° {(row.Sun.Altitude.Degrees < 0 ? "below" : "above")} the horizon, bearing {Bearing(row.Sun.Azimuth)}°"
        + (row.Sun.Altitude.Degrees > 0 && row.Chain.DiscShare == 0 ? ", hidden" : "");

    private string Basis(LightEstimate row) => row.Note is { } note
        ? $"From your note of {note.When.InZone(Day.Zone).Date:uuuu-MM-dd} {Time(note.When)} ({Ev(note.Metered)} measured{(note.FilterStops.Value > 0 ? $" through {note.FilterName}, put back" : "")}), moved by {Figures.Fixed(row.CarriedBy!.Value.Value, 1)}{Figures.NoBreak}stops by the model."
        : "";

    private string Sunlight()
    {
        string zone = Day.Zone.Id;
        string rise = Said(SunEventKind.Sunrise), set = Said(SunEventKind.Sunset);
        SunState state = Day.StateAt(answer.Conditions.SkyLine.SunriseAltitude);
        string sun = state switch
        {
            SunState.AboveAllDay => $"The sun stays up all day on {Day.Date:uuuu-MM-dd} ({zone})",
            SunState.BelowAllDay => $"The sun stays down all day on {Day.Date:uuuu-MM-dd} ({zone})",
            _ => $"Sunrise {rise}, sunset {set} ({zone})",
        };
        string twilight = Day.StateAt(SkyLine.CivilAltitude) switch
        {
            SunState.AboveAllDay => state == SunState.AboveAllDay ? "" : "; it is never darker than civil twilight",
            SunState.BelowAllDay => "; not even civil twilight comes",
            _ => $"; civil dawn {Said(SunEventKind.CivilDawn)}, civil dusk {Said(SunEventKind.CivilDusk)}",
        };
        string ridge = answer.Conditions.SkyLine.Ridge is null ? "" : Day.StateAt(answer.Conditions.SkyLine.RidgeSunAltitude!.Value) == SunState.BelowAllDay
            ? "; no direct sun comes over the ridge"
            : $"; sun over the ridge {Said(SunEventKind.SunOverRidge)}, gone {Said(SunEventKind.SunBehindRidge)}";
        return $"{sun}{twilight}{ridge}.";
    }

    private string Said(SunEventKind kind)
    {
        Instant[] times = [.. answer.Events.Where(e => e.Kind == kind && e.Time is not null).Select(e => e.Time!.Value)];
        return times.Length == 0 ? "not on this day" : string.Join(" and ", times.Select(Time));
    }

    private string Enough(ExposureValue wanted)
    {
        bool starts = answer.Curve.At(answer.Curve.Start).Light >= wanted;
        if (answer.Passes.IsEmpty)
            return starts
                ? $"There is enough light (EV100 {Figures.Fixed(wanted.Value, 2)}) all the time from {Time(answer.Curve.Start)} to {Time(answer.Curve.End)}."
                : $"There is not enough light (EV100 {Figures.Fixed(wanted.Value, 2)}) at any time from {Time(answer.Curve.Start)} to {Time(answer.Curve.End)}.";
        List<string> spans = [];
        string? from = starts ? Time(answer.Curve.Start) : null;
        foreach (LightCrossing pass in answer.Passes)
        {
            if (pass.IsBrightening)
                from = Time(pass.Time);
            else
                spans.Add($"from {from ?? Time(answer.Curve.Start)} to {Time(pass.Time)}");
            if (!pass.IsBrightening)
                from = null;
        }
        if (from is not null)
            spans.Add($"from {from} on");
        return $"There is enough light (EV100 {Figures.Fixed(wanted.Value, 2)}) {Figures.List(spans)} ({Day.Zone.Id}).";
    }
}
