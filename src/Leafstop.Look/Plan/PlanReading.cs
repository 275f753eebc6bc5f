using System.Collections.Immutable;
using System.Globalization;
using Leafstop.Core.Exposure;
using Leafstop.Core.Planning;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;

namespace Leafstop.Look.Plan;

/// <summary>The light of a plan that nobody has metered yet: from the sun, the sky and the place's own notes.</summary>
/// <param name="Open">EV100 without any filter.</param>
/// <param name="Uncertainty">How far off it may be.</param>
/// <param name="SunIsUp">True when the sun stands over the horizon.</param>
/// <param name="Ahead">The next three hours, a minute apart.</param>
/// <param name="Sentence">What it is and how it is known.</param>
public sealed record WorkedLight(ExposureValue Open, Stops Uncertainty, bool SunIsUp, ImmutableArray<LightAhead> Ahead, string Sentence);

/// <summary>Where a plan gets what lies outside it.</summary>
public interface IPlanSources
{
    /// <summary>The camera that is meant, and a remark where none is taken though there are some.</summary>
    /// <param name="name">Its name; null when none was named.</param>
    (PlanCamera? Camera, string? Remark) Camera(string? name);

    /// <summary>The light at a time.</summary>
    /// <param name="time">As written.</param>
    WorkedLight Light(string time);
}

/// <summary>What is asked of a plan, read and checked: from the options of a call as from the blanks of a page.</summary>
public sealed class PlanReading
{
    /// <summary>Values that mean something only beside a time that the light is worked out for.</summary>
    public static readonly ImmutableArray<string> OfWorkedLight =
    [
        PlanNames.Place, PlanNames.Latitude, PlanNames.Longitude, PlanNames.Elevation, PlanNames.Date, PlanNames.Zone, PlanNames.Okta, PlanNames.Canopy, PlanNames.Ridge, PlanNames.Valley, PlanNames.Basin,
    ];

    private static readonly string[] Metered = [PlanNames.Under, PlanNames.Meter, PlanNames.Ev];

    private readonly WrittenValues _written;
    private readonly IPlanSources _sources;
    private WorkedOutLimits? _open;
    private readonly List<string> _assumed = [];

    private PlanReading(WrittenValues written, IPlanSources sources) => (_written, _sources) = (written, sources);

    /// <summary>The scene.</summary>
    public Scene Scene { get; private set; } = null!;

    /// <summary>The camera whose limits or base were used; null when none was.</summary>
    public PlanCamera? Camera { get; private set; }

    /// <summary>The camera's limits three stops below mid-grey, for the same print; null when they are not known.</summary>
    public NoiseLimits? Shadows { get; private set; }

    /// <summary>What the answer rests on though nobody said it, in sentences.</summary>
    public IReadOnlyList<string> Assumed => _assumed;

    /// <summary>Reads what was written. What is missing, unreadable or out of range is refused by <see cref="WrittenValues.Wrong"/>.</summary>
    public static PlanReading Read(WrittenValues written, IPlanSources sources)
    {
        PlanReading read = new(written, sources);
        read.Scene = read.ReadScene();
        return read;
    }

    private Scene ReadScene()
    {
        FNumber? aperture = _written.Marked<FNumber>(PlanNames.Aperture, FNumber.TryParse, f => f.Ratio is >= 0.5 and <= 256, "no lens opens wider than f/0.5 or closes beyond f/256");
        ShutterTime? shutter = _written.Marked<ShutterTime>(PlanNames.Shutter, ShutterTime.TryParse, t => t.Seconds is >= 1e-5 and <= 86400, "write a time from 1/100000 s to a day (86400 s)");
        PrintCondition? print = LimitReading.Print(_written, PlanNames.Print, PlanNames.Distance);
        ToneKind? tone = ReadTone(PlanNames.Tone);
        FindCamera();
        Iso baseIso = ReadBase();
        NoiseLimits? limits = ReadLimits(print, tone, aperture);
        FilterSet on = ReadFilters(PlanNames.Filters);
        Share crop = _written.Struct<Share>(PlanNames.Crop, Share.TryParse, s => s.Value >= 0.01, "keep at least a hundredth of the width, such as 2/3") ?? Share.Whole;
        WorkedLight? worked = ReadWorkedLight();
        WishReading wishes = new(_written, _assumed);
        Scene asked = new()
        {
            // What is missing is found below from the wishes.
            Aperture = aperture ?? FNumber.FromMarking(8),
            Shutter = shutter ?? ShutterTime.FromSeconds(1),
            BaseIso = baseIso,
            Metered = worked is not null ? worked.Open - on.Total : ReadLight(aperture, shutter, baseIso),
            LightUncertainty = worked?.Uncertainty,
            SunIsUp = worked?.SunIsUp,
            Ahead = worked?.Ahead ?? [],
            FiltersOn = on,
            FiltersAfter = ReadFilters(PlanNames.FiltersAfter),
            Limits = limits,
            Print = print,
            Tone = tone,
            Lift = _written.Struct<Stops>(PlanNames.Lift, Stops.TryParse, s => s.Value is >= 0 and <= 10, "a lift is 0 to 10 stops") ?? default,
            WidthKept = crop.Value,
            FoamOverMidGrey = _written.Struct<Stops>(PlanNames.Foam, Stops.TryParse, s => s.Value is >= -10 and <= 10, "foam lies within 10 stops of mid-grey"),
            Depth = wishes.Depth(),
            Water = wishes.Water(),
            Leaves = wishes.Leaves(),
            Trial = wishes.Trial(),
            SensorCelsius = ReadTemperature(),
            FramesAveraged = ReadFrames(),
        };
        return WithinMeasured(aperture is not null && shutter is not null ? asked : Chosen(asked, aperture is null, shutter is null));
    }

    /// <summary>The highest ISO that was measured stands for a limit that was not reached only as far as it itself: for a picture above it that limit is unknown.</summary>
    private Scene WithinMeasured(Scene scene) =>
        _open is { MeasuredTo: { } highest } open && GapAnswer.Of(scene).Iso.Above(highest).Value > Stops.Hair ? scene with { Limits = open.Reached } : scene;

    private Scene Chosen(Scene asked, bool findAperture, bool findShutter)
    {
        if (findAperture && (asked.Depth is null || asked.PrintAsked is null))
            throw _written.Wrong($"{Called(PlanNames.Aperture)} is missing: write the aperture you insist on, such as {_written.Example(PlanNames.Aperture, "11")}, or what must be sharp with {Called(PlanNames.Near)}, {Called(PlanNames.Far)}, {Called(PlanNames.Focal)} and the print.");
        if (findShutter && asked.Water is null && (asked.Leaves is null || asked.PrintAsked is null))
            throw _written.Wrong($"{Called(PlanNames.Shutter)} is missing: write the shutter you insist on, such as {_written.Example(PlanNames.Shutter, "1/4")}, or how the water shall look with {Called(PlanNames.Water)}, or {_written.Example(PlanNames.Leaves, "still")} and the print.");
        Scene found = Planner.Choose(asked, findAperture, findShutter)
            ?? throw _written.NoAnswer($"no {(findAperture ? findShutter ? "aperture and shutter" : "aperture from f/1 to f/64" : "shutter from 1/8000 to 30 s")} does what is asked. Ask for less depth, or name the {(findAperture ? "aperture" : "shutter")} yourself and see what it costs.");
        if (findAperture)
            _assumed.Add($"{found.Aperture.ToDisplay()} was chosen: the widest mark that holds near and far.");
        if (findShutter)
            _assumed.Add($"{found.Shutter.ToDisplay()} was chosen: {(found.Water is { } water ? $"the mark nearest to the middle of {water.Name}" : "the longest mark that holds the leaves")}.");
        return found;
    }

    private int ReadFrames()
    {
        if (_written.Text(PlanNames.Average)?.Trim() is not { } text)
            return 1;
        return int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out int frames) && frames is >= 1 and <= 1000
            ? frames
            : throw _written.Wrong($"{Called(PlanNames.Average)}: '{text}' is no number of frames: write a whole number from 1 to 1000, such as 4.");
    }

    private WorkedLight? ReadWorkedLight()
    {
        if (_written.Text(PlanNames.Light) is not { } time)
        {
            return !_written.Has(PlanNames.At) && OfWorkedLight.FirstOrDefault(_written.Has) is { } alone
                ? throw _written.Wrong($"{Called(alone)} belongs to {Called(PlanNames.Light)}: say for what time, such as {_written.Example(PlanNames.Light, "07:40")}.")
                : null;
        }
        if (_written.Has(PlanNames.At))
            throw _written.Wrong($"{Called(PlanNames.At)} says when a meter was read: leave it out, {Called(PlanNames.Light)} tells the light.");
        if (Metered.FirstOrDefault(_written.Has) is { } metered)
            throw _written.Wrong($"{Called(metered)} and {Called(PlanNames.Light)} both tell the light: what was metered wins, so leave out {Called(PlanNames.Light)}.");
        WorkedLight light = _sources.Light(time);
        _assumed.Add(light.Sentence);
        return light;
    }

    private ExposureValue ReadLight(FNumber? aperture, ShutterTime? shutter, Iso baseIso)
    {
        string[] given = [.. Metered.Where(_written.Has)];
        if (given.Length == 0)
            throw _written.Wrong($"The light is missing: {_written.WaysToTellLight}.");
        (string Name, ExposureValue Light)[] lights = [.. given.Select(o => (o, Light(o)))];
        if (lights.Length > 1)
        {
            double apart = Math.Abs((lights[0].Light - lights[1].Light).Value);
            throw _written.Wrong(string.Create(CultureInfo.InvariantCulture, $"{Called(lights[0].Name)} and {Called(lights[1].Name)} both tell the light and {(apart < 0.01 ? "say the same" : $"lie {apart:0.0#} stops apart")}: give one of them."));
        }
        return lights[0].Light.Value is >= -20 and <= 30
            ? lights[0].Light
            : throw _written.Wrong(string.Create(CultureInfo.InvariantCulture, $"{Called(lights[0].Name)}: that would be a light of EV {lights[0].Light.Value:0.#}; light to photograph by lies between EV −20 and EV 30."));

        ExposureValue Light(string name)
        {
            if (name == PlanNames.Under && (aperture is null || shutter is null))
                throw _written.Wrong($"{Called(PlanNames.Under)} is said of an aperture and a shutter: {Called(aperture is null ? PlanNames.Aperture : PlanNames.Shutter)} is missing; or tell the light with {Called(PlanNames.Meter)} or {Called(PlanNames.Ev)}.");
            if (name == PlanNames.Under)
                return ExposureGap.LightWhen(_written.Struct<Stops>(PlanNames.Under, Stops.TryParse, s => s.Value is >= -30 and <= 30, "write stops between −30 and 30, such as \"2 1/3\"")!.Value, aperture!, shutter!, baseIso);
            if (name == PlanNames.Ev)
                return _written.Struct<ExposureValue>(PlanNames.Ev, ExposureValue.TryParse)!.Value;
            return _written.Marked<MeterReading>(
                PlanNames.Meter, MeterReading.TryParse, m => m.Aperture.Ratio is >= 0.5 and <= 256 && m.Shutter.Seconds is >= 1e-5 and <= 86400 && m.Iso.Speed is >= 1 and <= 1e7,
                "f/0.5 to f/256, 1/100000 s to a day, ISO 1 to 10000000")!.Light;
        }
    }

    private void FindCamera()
    {
        string? name = _written.Text(PlanNames.Camera);
        // Own limits and an own base leave nothing to ask a camera for.
        if (name is null && _written.Has(PlanNames.Clean) && _written.Has(PlanNames.Base))
            return;
        (Camera, string? remark) = _sources.Camera(name);
        if (remark is not null && !_written.Has(PlanNames.Clean))
            _assumed.Add(remark);
    }

    private Iso ReadBase()
    {
        if (LimitReading.Base(_written) is { } given)
            return given;
        if (Camera?.LowestMeasured is { } lowest)
        {
            _assumed.Add($"Base ISO {lowest.ToDisplay()} is the lowest that was measured on {Camera.Name}.");
            return Iso.FromMarking(lowest.Speed);
        }
        if (Camera?.CardBase is { } carried)
        {
            _assumed.Add($"Base ISO {carried.ToDisplay()} is what the card of {Camera.Name} says.");
            return carried;
        }
        _assumed.Add($"Base ISO 100 is assumed; give yours with {Called(PlanNames.Base)}.");
        return Iso.FromMarking(100);
    }

    private NoiseLimits? ReadLimits(PrintCondition? print, ToneKind? tone, FNumber? aperture)
    {
        PrintCondition? own = LimitReading.Print(_written, PlanNames.LimitPrint, PlanNames.LimitDistance);
        if (LimitReading.Given(_written, PlanNames.LimitPrint, PlanNames.LimitDistance, PlanNames.LimitFormat, PlanNames.LimitTone) is not var (clean, stretch))
            return CameraLimits(print, tone);
        if (own is null && print is null)
            throw _written.Wrong($"A limit holds for one print: say for which with {_written.Example(PlanNames.LimitPrint, "60cm")} {_written.Example(PlanNames.LimitDistance, "60cm")}.");
        if (own is null)
            _assumed.Add($"Your limits are taken to hold for the print you ask; give {Called(PlanNames.LimitPrint)} and {Called(PlanNames.LimitDistance)} where they do not.");
        LimitTags tags = new(Camera is not null && _written.Has(PlanNames.Camera) ? Camera.Name : "", own ?? print!, ReadTone(PlanNames.LimitTone) ?? ToneKind.NotStated, NoiseTreatment.NotStated);
        NoiseLimits limits = NoiseLimits.Of(clean, stretch, tags, LimitOrigin.Given);
        if (LimitReading.Format(_written, PlanNames.LimitFormat) is not { } from)
            return limits;
        FrameFormat to = LimitReading.Format(_written)
            ?? throw _written.Wrong($"{Called(PlanNames.LimitFormat)} needs {Called(PlanNames.Format)}: say what format you will use.");
        if (aperture is not null)
            _assumed.Add($"{aperture.ToDisplay()} on {to.ToDisplay()} has the depth of {LimitScaling.EqualDepth(aperture, to.Width, from.Width).ToDisplay()} on {from.ToDisplay()}.");
        return limits.ForUse(new LimitUse { Format = (from.Width, to.Width) }).Limits;
    }

    private NoiseLimits? CameraLimits(PrintCondition? print, ToneKind? tone)
    {
        if (Camera is null)
            return null;
        (OwnPair? own, string? why) = Camera.Own(print, tone);
        if (why is not null)
            _assumed.Add(why);
        if (own is not null)
        {
            _assumed.Add(OwnWords(own, print));
            return own.Limits;
        }
        if (print is null)
        {
            _assumed.Add($"Limits of {Camera.Name} can be worked out for a print: name it with {_written.Example(PlanNames.Print, "60cm")} {_written.Example(PlanNames.Distance, "60cm")}.");
            return null;
        }
        if (Camera.WorkedOut(print, tone == ToneKind.Shadows ? LimitTone.Minus3Ev : LimitTone.MidGrey) is not { } known)
        {
            _assumed.Add($"{Camera.WhyNoneWorkedOut} Your own can be given with {Called(PlanNames.Clean)} and {Called(PlanNames.Stretch)}.");
            return null;
        }
        if (known.Remark.Length > 0)
            _assumed.Add(known.Remark);
        _open = known;
        Shadows = tone == ToneKind.Shadows ? null : Camera.WorkedOut(print, LimitTone.Minus3Ev)?.Limits;
        return known.Limits;
    }

    private string OwnWords(OwnPair own, PrintCondition? print)
    {
        PrintCondition held = own.Limits.Tags.Print;
        string older = own.Borrowed is var (limit, day) ? $" ({limit} on {Day(day)})" : "";
        string?[] from = [ReferenceEquals(own, Camera!.Carried) ? "from a card" : null, own.JudgedOn is { } judged ? $"judged on {Day(judged)}{older}" : null];
        return $"Limits of {Camera.Name} are your own, {string.Join(", ", from.OfType<string>())} for a print {Figures.Length(held.WidthMm)} wide seen from {Figures.Length(held.ViewingDistanceMm)}"
            + $"{(print is null || print == held ? "." : $", and worked out for yours. {LimitScaling.BandingCaveat}")}";

        static string Day(DateOnly day) => day.ToString("d MMMM yyyy", CultureInfo.InvariantCulture);
    }

    private ToneKind? ReadTone(string name) => _written.Text(name)?.Trim() is { } written
        ? written.ToLowerInvariant() switch
        {
            "smooth" => ToneKind.Smooth,
            "textured" => ToneKind.Textured,
            "mid-grey" => ToneKind.MidGrey,
            "shadows" => ToneKind.Shadows,
            _ => throw _written.Wrong($"{Called(name)}: '{written}' is no tone that is known here: write smooth, textured, mid-grey or shadows."),
        }
        : null;

    private double? ReadTemperature()
    {
        if (_written.Text(PlanNames.Temperature) is not { } text)
            return null;
        string bare = text.Trim().TrimEnd('C', 'c', '\u00B0', ' ').Replace('\u2212', '-');
        return double.TryParse(bare, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out double celsius) && celsius is >= -50 and <= 90
            ? celsius
            : throw _written.Wrong($"{Called(PlanNames.Temperature)}: '{text}' is no temperature of a sensor: write degrees Celsius from −50 to 90, such as 20.");
    }

    private FilterSet ReadFilters(string name)
    {
        List<Filter> all = [];
        foreach (string text in _written.Texts(name))
        {
            if (!FilterSet.TryParse(text, out FilterSet filters, out string why))
                throw _written.Wrong($"{Called(name)}: {why}");
            all.AddRange(filters.Filters);
        }
        if (all.GroupBy(f => f.Name).FirstOrDefault(same => same.Count() > 1) is { } twice)
            throw _written.Wrong($"{Called(name)}: {twice.Key} is named twice: name it once, with the stops that all of it takes.");
        return new FilterSet([.. all]);
    }

    private string Called(string name) => _written.Called(name);
}
