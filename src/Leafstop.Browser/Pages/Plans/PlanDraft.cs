using System.Globalization;
using System.Text;
using Leafstop.Core.Exposure;
using Leafstop.Core.Planning;
using Leafstop.Core.Quantities;
using Leafstop.Look.Plan;

namespace Leafstop.Browser.Pages.Plans;

/// <summary>What stands in the blanks of the page: the values that leafstop plan takes as options, by the same names.</summary>
/// <remarks>Where the light was told as stops under, it is kept as light once it was read: another aperture does not change the light, so it changes how far under it is.</remarks>
public sealed class PlanDraft() : WrittenValues(NumberReading.Marks)
{
    /// <summary>The light behind the stops under, EV100.</summary>
    private const string Held = "held";

    /// <summary>The names of everything that can stand here.</summary>
    private static readonly Dictionary<string, string> Names = new(StringComparer.Ordinal)
    {
        [PlanNames.Aperture] = "Aperture",
        [PlanNames.Shutter] = "Shutter",
        [PlanNames.Under] = "Stops under",
        [PlanNames.Meter] = "Meter reading",
        [PlanNames.Ev] = "Light",
        [PlanNames.Light] = "Time",
        [PlanNames.Base] = "Base ISO",
        [PlanNames.Filters] = "Filter when metered",
        [PlanNames.FiltersAfter] = "Filter fitted since",
        [PlanNames.Camera] = "Camera",
        [PlanNames.Clean] = "Clean limit",
        [PlanNames.Stretch] = "Stretch limit",
        [PlanNames.LimitPrint] = "Print of your limits",
        [PlanNames.LimitDistance] = "Distance of your limits",
        [PlanNames.LimitTone] = "Tone of your limits",
        [PlanNames.Print] = "Width of the print",
        [PlanNames.Distance] = "Distance from the eye",
        [PlanNames.Lift] = "Lift of the shadows",
        [PlanNames.Tone] = "Tone",
        [PlanNames.Crop] = "Share of the width kept",
        [PlanNames.Average] = "Frames averaged",
        [PlanNames.Foam] = "Foam over mid-grey",
        [PlanNames.Near] = "Near",
        [PlanNames.Far] = "Far",
        [PlanNames.Focal] = "Focal length",
        [PlanNames.Format] = "Frame of the camera",
        [PlanNames.Water] = "Look of the water",
        [PlanNames.WaterSpeed] = "Speed of the water",
        [PlanNames.WaterDistance] = "Distance of the water",
        [PlanNames.Leaves] = "Leaves",
        [PlanNames.LeafDistance] = "Distance of the leaves",
        [PlanNames.LeafSpeed] = "Speed of the leaves",
        [PlanNames.LeafSize] = "Size of a leaf",
        [PlanNames.Wind] = "Wind",
        [PlanNames.WindAtLeaf] = "Wind at the leaves",
        [PlanNames.Site] = "Where the leaves are",
        [PlanNames.Kept] = "Frames kept of a trial",
        [PlanNames.Acuity] = "Acuity",
        [PlanNames.Temperature] = "Temperature of the sensor",
        [PlanNames.Place] = "Place",
        [PlanNames.At] = "Time of the reading",
        [PlanNames.Latitude] = "Latitude",
        [PlanNames.Longitude] = "Longitude",
        [PlanNames.Elevation] = "Height above the sea",
        [PlanNames.Date] = "Date",
        [PlanNames.Zone] = "Clock",
        [PlanNames.Okta] = "Cloud",
        [PlanNames.Canopy] = "Trees",
        [PlanNames.Ridge] = "Ridge",
        [PlanNames.Valley] = "Valley walls",
        [PlanNames.Basin] = "Walls all round",
        [Held] = "Light",
    };

    private Dictionary<string, string> _values = new(StringComparer.Ordinal);
    private readonly List<(Dictionary<string, string> Values, string What)> _before = [];
    private (string Name, string Text)? _typing;

    /// <summary>A page that nobody has written on: a fall in a dim valley.</summary>
    /// <param name="camera">The camera that is meant; null for none.</param>
    public void Begin(string? camera = null)
    {
        _values = new(StringComparer.Ordinal)
        {
            [PlanNames.Aperture] = "f/11",
            [PlanNames.Shutter] = "1/4 s",
            [PlanNames.Under] = "2 1/3",
            [PlanNames.Print] = "60 cm",
            [PlanNames.Distance] = "60 cm",
        };
        if (camera is not null)
            _values[PlanNames.Camera] = camera;
        _before.Clear();
        Version++;
    }

    /// <summary>Another one after every change; typing changes nothing.</summary>
    public int Version { get; private set; }

    /// <summary>What was changed last and can be taken back, in words; null when there is nothing.</summary>
    public string? LastChange => _before is [.., var last] ? last.What : null;

    /// <inheritdoc/>
    public override string? Text(string name) => name switch
    {
        // Light that is held stands for the stops under that told it.
        PlanNames.Under when Raw(Held) is not null && _typing?.Name != PlanNames.Under => null,
        PlanNames.Ev when Raw(Held) is { } held && _typing?.Name != PlanNames.Under => held,
        _ => Raw(name),
    };

    /// <inheritdoc/>
    public override IReadOnlyList<string> Texts(string name) => Raw(name) is { } text ? [text] : [];

    /// <inheritdoc/>
    public override string Called(string name) => Names.GetValueOrDefault(name, name);

    /// <inheritdoc/>
    public override string Example(string name, string value) => $"{Called(name).ToLowerInvariant()} {value.Trim('"')}";

    /// <inheritdoc/>
    public override string WaysToTellLight => "write by how many stops the meter is under, what it reads or the EV, or choose that nobody has metered it";

    /// <inheritdoc/>
    public override Exception Wrong(string sentence) => new PlanRefusal(sentence);

    /// <inheritdoc/>
    public override Exception NoAnswer(string sentence) => new PlanRefusal(char.ToUpperInvariant(sentence[0]) + sentence[1..]);

    /// <summary>What was written, or is being typed; null when nothing stands there.</summary>
    public string? Raw(string name) => _typing is { } typed && typed.Name == name
        ? typed.Text.Length > 0 ? typed.Text : null
        : _values.GetValueOrDefault(name);

    /// <summary>What was written, whatever is being typed; null when nothing stands there.</summary>
    public string? Written(string name) => _values.GetValueOrDefault(name);

    /// <summary>True where the light is told as stops under.</summary>
    public bool IsUnder => _values.ContainsKey(PlanNames.Under) || _values.ContainsKey(Held);

    /// <summary>A refusal of the host, which begins with the name of a value as addresses have it, in the words of this page.</summary>
    public static string InOwnNames(string sentence) => sentence.Split(':', 2) is [var name, var rest] && Names.TryGetValue(name, out string? called) ? $"{called}:{rest}" : sentence;

    /// <summary>The light that stops under have told; null where it is told otherwise.</summary>
    public ExposureValue? HeldLight => _values.TryGetValue(Held, out string? held) && ExposureValue.TryParse(held, out ExposureValue light, out _) ? light : null;

    /// <summary>Tries a value that is not written yet; null ends the trying.</summary>
    public void Try(string name, string? text) => _typing = text is null ? null : (name, text);

    /// <summary>Does something as if nothing were being typed.</summary>
    public void WithoutTyping(Action act)
    {
        (string Name, string Text)? typing = _typing;
        try
        {
            _typing = null;
            act();
        }
        finally
        {
            _typing = typing;
        }
    }

    /// <summary>Writes a value; an empty one is taken out.</summary>
    public void Write(string name, string text, string what) => Change(what, () => Put(name, text));

    /// <summary>Writes several at once.</summary>
    public void Write(string what, params (string Name, string Text)[] values) => Change(what, () =>
    {
        foreach ((string name, string text) in values)
            Put(name, text);
    });

    /// <summary>Keeps the light that stops under have told.</summary>
    public void Hold(ExposureValue light)
    {
        if (_typing is not null || !_values.Remove(PlanNames.Under))
            return;
        _values[Held] = Exact(light.Value);
        Version++;
    }

    /// <summary>Tells the same light in another way; a light that is worked out begins with now and here.</summary>
    /// <param name="by">Under, Meter, Ev or Light of <see cref="PlanNames"/>.</param>
    /// <param name="plan">The last answer; null when there is none.</param>
    /// <param name="now">By the clock of this machine.</param>
    /// <param name="zone">Its name.</param>
    /// <param name="place">A kept place to begin with; null when none is kept.</param>
    public void TellLight(string by, ExposurePlan? plan, DateTime now, string zone, string? place) => Change("The light was told in another way.", () =>
    {
        foreach (string name in (string[])[PlanNames.Under, PlanNames.Meter, PlanNames.Ev, PlanNames.Light, PlanNames.At, Held, .. PlanReading.OfWorkedLight])
            _values.Remove(name);
        ExposureValue light = plan?.Scene.Metered ?? ExposureValue.Of(9);
        if (by == PlanNames.Light)
        {
            PutHour(PlanNames.Light, now, zone, place);
        }
        else if (by == PlanNames.Meter)
            Put(PlanNames.Meter, plan is null ? "f/8 1/30 s ISO 400" : new MeterReading(plan.Scene.Aperture, plan.Scene.Shutter, plan.Iso.Dial).ToDisplay());
        else
            _values[by == PlanNames.Ev ? PlanNames.Ev : Held] = Exact(light.Value);
    });

    /// <summary>Says when and where the meter was read, so that the hours around it can be told.</summary>
    /// <param name="now">By the clock of this machine.</param>
    /// <param name="zone">Its name.</param>
    /// <param name="place">A kept place to begin with; null when none is kept.</param>
    public void AskHours(DateTime now, string zone, string? place) => Change("The hours around it.", () => PutHour(PlanNames.At, now, zone, place));

    /// <summary>Does what a row of the give-up table says.</summary>
    /// <param name="row">The row.</param>
    /// <param name="now">The scene that it belongs to.</param>
    public void Take(GiveUpRow row, Scene now)
    {
        Scene after = row.After;
        Change($"Tried: {row.Words}.", () =>
        {
            switch (row.What)
            {
                case GiveUpKind.WaitForLull or GiveUpKind.Shutter or GiveUpKind.TwoFrames:
                    Put(PlanNames.Shutter, Shown(after.Shutter));
                    break;
                case GiveUpKind.Aperture or GiveUpKind.FocusSteps:
                    Put(PlanNames.Aperture, Shown(after.Aperture));
                    break;
                case GiveUpKind.Polariser or GiveUpKind.OtherFilter:
                    if (after.FiltersOn != now.FiltersOn && !_values.ContainsKey(PlanNames.Light))
                        PutLight(after.Metered);
                    Put(PlanNames.Filters, Shown(after.FiltersOn));
                    Put(PlanNames.FiltersAfter, Shown(after.FiltersAfter));
                    break;
                case GiveUpKind.SmallerPrint:
                    // Limits that were taken to hold for the print asked go on holding for that one.
                    if (_values.ContainsKey(PlanNames.Clean) && !_values.ContainsKey(PlanNames.LimitPrint))
                    {
                        Put(PlanNames.LimitPrint, $"{Exact(now.PrintAsked!.WidthMm)} mm");
                        Put(PlanNames.LimitDistance, $"{Exact(now.PrintAsked.ViewingDistanceMm)} mm");
                    }
                    Put(PlanNames.Print, $"{Exact(after.PrintAsked!.WidthMm)} mm");
                    Put(PlanNames.Distance, $"{Exact(after.PrintAsked.ViewingDistanceMm)} mm");
                    break;
                case GiveUpKind.Average:
                    Put(PlanNames.Average, after.FramesAveraged.ToString(CultureInfo.InvariantCulture));
                    break;
                case GiveUpKind.Later:
                    Stops gained = after.Metered - now.Metered;
                    Put(PlanNames.Light, now.Ahead.First(a => a.Change == gained || Math.Abs((a.Change - gained).Value) < Stops.Hair).At.ToString("HH:mm", CultureInfo.InvariantCulture));
                    break;
                case GiveUpKind.KeepFrame:
                    Put(PlanNames.Crop, "");
                    break;
                case GiveUpKind.LiftLess:
                    Put(PlanNames.Lift, "");
                    break;
            }
        });
    }

    /// <summary>Takes the last change back.</summary>
    public void TakeBack()
    {
        if (_before is [.., var last])
        {
            (_values, _typing) = (last.Values, null);
            _before.RemoveAt(_before.Count - 1);
            Version++;
        }
    }

    /// <summary>The values for the address of the page.</summary>
    public string ToQuery()
    {
        StringBuilder query = new();
        foreach ((string name, string text) in _values.OrderBy(v => v.Key, StringComparer.Ordinal))
            query.Append(query.Length == 0 ? '?' : '&').Append(name).Append('=').Append(Uri.EscapeDataString(text));
        return query.ToString();
    }

    /// <summary>Reads an address back; what it does not know it leaves out.</summary>
    /// <returns>False when there was nothing to read.</returns>
    public bool Read(string query)
    {
        Dictionary<string, string> read = new(StringComparer.Ordinal);
        foreach (string part in query.TrimStart('?').Split('&', StringSplitOptions.RemoveEmptyEntries))
        {
            string[] pair = part.Split('=', 2);
            if (pair is [var name, var text] && Names.ContainsKey(name) && Uri.UnescapeDataString(text.Replace('+', ' ')) is { Length: > 0 and <= 200 } value)
                read[name] = value;
        }
        _values = read;
        _before.Clear();
        Version++;
        return read.Count > 0;
    }

    /// <summary>The values that decide the light of a time, for the host; null when the light was metered.</summary>
    public string? LightQuery() => Raw(PlanNames.Light) is { } time ? Query(time) : null;

    /// <summary>The values that carry a reading of the meter on to the hours around it, for the host; null when nobody said when and where it was read.</summary>
    /// <param name="metered">What the meter showed through the filters that were on.</param>
    public string? HoursQuery(ExposureValue metered) => Raw(PlanNames.Light) is null && Raw(PlanNames.At) is { } time
        ? $"{Query(time)}&ev={Exact(metered.Value)}{(Raw(PlanNames.Filters) is { } filter ? $"&filter={Uri.EscapeDataString(filter)}" : "")}"
        : null;

    private string Query(string time) => $"api/light?light={Uri.EscapeDataString(time)}"
        + string.Concat(PlanReading.OfWorkedLight.Select(n => (Name: n, Text: Raw(n))).Where(v => v.Text is not null).Select(v => $"&{v.Name}={Uri.EscapeDataString(v.Text!)}"));

    /// <summary>A shutter as it is written, so that it reads back to the same.</summary>
    public static string Shown(ShutterTime shutter)
    {
        string text = shutter.ToDisplay();
        return ShutterTime.TryParse(text, out ShutterTime? read, out _) && Math.Abs(read!.Seconds / shutter.Seconds - 1) < 1e-12 ? text : $"{Exact(shutter.Seconds)} s";
    }

    private static string Shown(FNumber aperture)
    {
        string text = aperture.ToDisplay();
        return FNumber.TryParse(text, out FNumber? read, out _) && Math.Abs(read!.Ratio / aperture.Ratio - 1) < 1e-12 ? text : $"f/{Exact(aperture.Ratio)}";
    }

    private static string Shown(FilterSet filters) => string.Join(", ", filters.Filters.Select(f => f.Kind switch
    {
        FilterKind.Polariser when f.How == HowKnown.RuleOfThumb => f.Name,
        FilterKind.Polariser => $"{f.Name} {Exact(f.Stops.Value)}",
        FilterKind.NeutralDensity => f.Name,
        _ => $"{f.Name} {Exact(f.Stops.Value)}",
    }));

    private void PutHour(string time, DateTime now, string zone, string? place)
    {
        Put(time, now.ToString("HH:mm", CultureInfo.InvariantCulture));
        Put(PlanNames.Date, now.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture));
        if (place is not null)
            Put(PlanNames.Place, place);
        else
            (_values[PlanNames.Latitude], _values[PlanNames.Longitude], _values[PlanNames.Zone]) = ("50.1", "-3.2", zone);
    }

    private void PutLight(ExposureValue light)
    {
        if (!IsUnder)
        {
            _values.Remove(PlanNames.Meter);
            _values[PlanNames.Ev] = Exact(light.Value);
        }
        else
        {
            _values.Remove(PlanNames.Under);
            _values[Held] = Exact(light.Value);
        }
    }

    private void Put(string name, string text)
    {
        if (name == PlanNames.Under)
            _values.Remove(Held);
        if (text.Length == 0)
            _values.Remove(name);
        else
            _values[name] = text;
    }

    private void Change(string what, Action change)
    {
        _typing = null;
        Dictionary<string, string> before = new(_values, StringComparer.Ordinal);
        change();
        if (before.Count == _values.Count && !before.Except(_values).Any())
            return;
        _before.Add((before, what));
        Version++;
        // As far back as anybody remembers.
        if (_before.Count > 50)
            _before.RemoveAt(0);
    }

    private static string Exact(double value) => value.ToString("R", CultureInfo.InvariantCulture);
}

/// <summary>What is written cannot be planned; the message is one sentence for the person.</summary>
internal sealed class PlanRefusal(string sentence) : Exception(sentence);
