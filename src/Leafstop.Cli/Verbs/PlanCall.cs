using System.CommandLine;
using System.Globalization;
using Leafstop.Cli.CommandLine;
using Leafstop.Core.Exposure;
using Leafstop.Core.Judging;
using Leafstop.Core.Planning;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;
using Leafstop.Storage.Cameras;

namespace Leafstop.Cli.Verbs;

/// <summary>What was asked of leafstop plan, read and checked.</summary>
internal sealed class PlanCall
{
    private readonly ParseResult _call;
    private readonly WrittenOptions _written;
    private readonly List<string> _assumed = [];

    private readonly Surroundings _say;

    private PlanCall(ParseResult call, Surroundings say)
    {
        _call = call;
        _say = say;
        Reading = call.GetValue(PlanOptions.Literal) ? NumberReading.Literal : NumberReading.Marks;
        _written = new WrittenOptions(call, Reading);
    }

    /// <summary>Marks or literal numbers.</summary>
    public NumberReading Reading { get; }

    /// <summary>The scene.</summary>
    public Scene Scene { get; private set; } = null!;

    /// <summary>The camera whose limits or base were used; null when none was.</summary>
    public KeptCamera? Camera { get; private set; }

    /// <summary>The camera's limit three stops below mid-grey, for the same print; null when it is not known.</summary>
    public NoiseLimits? Shadows { get; private set; }

    /// <summary>What the answer rests on though nobody said it, in sentences.</summary>
    public IReadOnlyList<string> Assumed => _assumed;

    /// <summary>Reads the call.</summary>
    /// <exception cref="Refusal">Something is missing, unreadable or out of range.</exception>
    public static PlanCall Read(ParseResult call, Surroundings say)
    {
        PlanCall read = new(call, say);
        read.Scene = read.ReadScene();
        return read;
    }

    private Scene ReadScene()
    {
        FNumber? aperture = _written.Marked<FNumber>(PlanOptions.Aperture, FNumber.TryParse, f => f.Ratio is >= 0.5 and <= 256, "no lens opens wider than f/0.5 or closes beyond f/256");
        ShutterTime? shutter = _written.Marked<ShutterTime>(PlanOptions.Shutter, ShutterTime.TryParse, t => t.Seconds is >= 1e-5 and <= 86400, "write a time from 1/100000 s to a day (86400 s)");
        PrintCondition? print = LimitReading.Print(_written, PlanOptions.Print, PlanOptions.Distance);
        ToneKind? tone = ReadTone(PlanOptions.Tone);
        FindCamera();
        Iso baseIso = ReadBase();
        NoiseLimits? limits = ReadLimits(print, tone, aperture);
        FilterSet on = ReadFilters(PlanOptions.Filters);
        Share crop = _written.Struct<Share>(PlanOptions.Crop, Share.TryParse, s => s.Value >= 0.01, "keep at least a hundredth of the width, such as 2/3") ?? Share.Whole;
        PlanLight? worked = ReadWorkedLight();
        PlanWishes wishes = new(_call, _written, _assumed);
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
            FiltersAfter = ReadFilters(PlanOptions.FiltersAfter),
            Limits = limits,
            Print = print,
            Tone = tone,
            Lift = _written.Struct<Stops>(PlanOptions.Lift, Stops.TryParse, s => s.Value is >= 0 and <= 10, "a lift is 0 to 10 stops") ?? default,
            WidthKept = crop.Value,
            FoamOverMidGrey = _written.Struct<Stops>(PlanOptions.Foam, Stops.TryParse, s => s.Value is >= -10 and <= 10, "foam lies within 10 stops of mid-grey"),
            Depth = wishes.Depth(),
            Water = wishes.Water(),
            Leaves = wishes.Leaves(),
            Trial = wishes.Trial(),
            SensorCelsius = ReadTemperature(),
            FramesAveraged = ReadFrames(),
        };
        return aperture is not null && shutter is not null ? asked : Chosen(asked, aperture is null, shutter is null);
    }

    private Scene Chosen(Scene asked, bool findAperture, bool findShutter)
    {
        if (findAperture && (asked.Depth is null || asked.PrintAsked is null))
            throw Refusal.WrongCall("--aperture is missing: write the aperture you insist on, such as --aperture 11, or what must be sharp with --near, --far, --focal and the print.");
        if (findShutter && asked.Water is null && (asked.Leaves is null || asked.PrintAsked is null))
            throw Refusal.WrongCall("--shutter is missing: write the shutter you insist on, such as --shutter 1/4, or how the water shall look with --water, or --leaves still and the print.");
        Scene found = Planner.Choose(asked, findAperture, findShutter)
            ?? throw Refusal.NoAnswer($"no {(findAperture ? findShutter ? "aperture and shutter" : "aperture from f/1 to f/64" : "shutter from 1/8000 to 30 s")} does what is asked. Ask for less depth, or name the {(findAperture ? "aperture" : "shutter")} yourself and see what it costs.");
        if (findAperture)
            _assumed.Add($"{found.Aperture.ToDisplay()} was chosen: the widest mark that holds near and far.");
        if (findShutter)
            _assumed.Add($"{found.Shutter.ToDisplay()} was chosen: {(found.Water is { } water ? $"the mark nearest to the middle of {water.Name}" : "the longest mark that holds the leaves")}.");
        return found;
    }

    private int ReadFrames()
    {
        if (!_written.Has(PlanOptions.Average))
            return 1;
        string text = _call.GetValue(PlanOptions.Average)!.Trim();
        return int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out int frames) && frames is >= 1 and <= 1000
            ? frames
            : throw Refusal.WrongCall($"--average: '{text}' is no number of frames: write a whole number from 1 to 1000, such as 4.");
    }

    private PlanLight? ReadWorkedLight()
    {
        if (!_written.Has(PlanOptions.Light))
        {
            return PlanLight.Options.FirstOrDefault(_written.Has) is { } alone
                ? throw Refusal.WrongCall($"{alone.Name} belongs to --light: say for what time, such as --light 07:40.")
                : null;
        }
        if (new Option[] { PlanOptions.Under, PlanOptions.Meter, PlanOptions.Ev }.FirstOrDefault(_written.Has) is { } metered)
            throw Refusal.WrongCall($"{metered.Name} and --light both tell the light: what was metered wins, so leave out --light.");
        var light = PlanLight.Read(_call, _call.GetValue(PlanOptions.Light)!, _say);
        _assumed.Add(light.Sentence);
        return light;
    }

    private ExposureValue ReadLight(FNumber? aperture, ShutterTime? shutter, Iso baseIso)
    {
        Option[] given = [.. new Option[] { PlanOptions.Under, PlanOptions.Meter, PlanOptions.Ev }.Where(_written.Has)];
        if (given.Length == 0)
            throw Refusal.WrongCall("The light is missing: give what the meter says with --under \"2 1/3\", --meter \"f/8 1/30 ISO 400\" or --ev 6.7, or a time with --light.");
        (Option Option, ExposureValue Light)[] lights = [.. given.Select(o => (o, Light(o)))];
        if (lights.Length > 1)
        {
            double apart = Math.Abs((lights[0].Light - lights[1].Light).Value);
            throw Refusal.WrongCall(string.Create(CultureInfo.InvariantCulture, $"{lights[0].Option.Name} and {lights[1].Option.Name} both tell the light and {(apart < 0.01 ? "say the same" : $"lie {apart:0.0#} stops apart")}: give one of them."));
        }
        return lights[0].Light.Value is >= -20 and <= 30
            ? lights[0].Light
            : throw Refusal.WrongCall(string.Create(CultureInfo.InvariantCulture, $"{lights[0].Option.Name}: that would be a light of EV {lights[0].Light.Value:0.#}; light to photograph by lies between EV −20 and EV 30."));

        ExposureValue Light(Option option)
        {
            if (option == PlanOptions.Under && (aperture is null || shutter is null))
                throw Refusal.WrongCall($"--under is said of an aperture and a shutter: {(aperture is null ? "--aperture" : "--shutter")} is missing; or tell the light with --meter or --ev.");
            if (option == PlanOptions.Under)
                return ExposureGap.LightWhen(_written.Struct<Stops>(PlanOptions.Under, Stops.TryParse, s => s.Value is >= -30 and <= 30, "write stops between −30 and 30, such as \"2 1/3\"")!.Value, aperture!, shutter!, baseIso);
            if (option == PlanOptions.Ev)
                return _written.Struct<ExposureValue>(PlanOptions.Ev, ExposureValue.TryParse)!.Value;
            return _written.Marked<MeterReading>(
                PlanOptions.Meter, MeterReading.TryParse, m => m.Aperture.Ratio is >= 0.5 and <= 256 && m.Shutter.Seconds is >= 1e-5 and <= 86400 && m.Iso.Speed is >= 1 and <= 1e7,
                "f/0.5 to f/256, 1/100000 s to a day, ISO 1 to 10000000")!.Light;
        }
    }

    private void FindCamera()
    {
        bool isNamed = _written.Has(PlanOptions.Camera);
        // Own limits and an own base leave nothing to ask a camera for.
        if (!isNamed && _written.Has(PlanOptions.Clean) && _written.Has(PlanOptions.Base))
            return;
        (Camera, string? remark) = PlanLimits.Find(isNamed ? _call.GetValue(PlanOptions.Camera) : null, _say.DataFolder(_call));
        if (remark is not null && !_written.Has(PlanOptions.Clean))
            _assumed.Add(remark);
    }

    private Iso ReadBase()
    {
        if (LimitReading.Base(_written) is { } given)
            return given;
        if (Camera is not null && PlanLimits.LowestIso(Camera) is { } lowest)
        {
            _assumed.Add($"Base ISO {lowest.ToDisplay()} is the lowest that was measured on {Camera.Name}.");
            return Iso.FromMarking(lowest.Speed);
        }
        if (Camera?.NewestCard is { } carried)
        {
            _assumed.Add($"Base ISO {carried.Card.BaseIso.ToDisplay()} is what the card of {Camera.Name} says.");
            return carried.Card.BaseIso;
        }
        _assumed.Add("Base ISO 100 is assumed; give yours with --base.");
        return Iso.FromMarking(100);
    }

    private NoiseLimits? ReadLimits(PrintCondition? print, ToneKind? tone, FNumber? aperture)
    {
        PrintCondition? own = LimitReading.Print(_written, PlanOptions.LimitPrint, PlanOptions.LimitDistance);
        if (LimitReading.Given(_written, PlanOptions.LimitPrint, PlanOptions.LimitDistance, PlanOptions.LimitFormat, PlanOptions.LimitTone) is not var (clean, stretch))
            return CameraLimits(print, tone);
        if (own is null && print is null)
            throw Refusal.WrongCall("A limit holds for one print: say for which with --limit-print 60cm --limit-distance 60cm.");
        if (own is null)
            _assumed.Add("Your limits are taken to hold for the print you ask; give --limit-print and --limit-distance where they do not.");
        LimitTags tags = new(Camera is not null && _written.Has(PlanOptions.Camera) ? Camera.Name : "", own ?? print!, ReadTone(PlanOptions.LimitTone) ?? ToneKind.NotStated, NoiseTreatment.NotStated);
        NoiseLimits limits = NoiseLimits.Of(clean, stretch, tags, LimitOrigin.Given);
        if (_written.Class<FrameFormat>(PlanOptions.LimitFormat, FrameFormat.TryParse, PlanWishes.IsFormat, PlanWishes.FormatRange) is not { } from)
            return limits;
        FrameFormat to = _written.Class<FrameFormat>(PlanOptions.Format, FrameFormat.TryParse, PlanWishes.IsFormat, PlanWishes.FormatRange)
            ?? throw Refusal.WrongCall("--limit-format needs --format: say what format you will use.");
        if (aperture is not null)
            _assumed.Add($"{aperture.ToDisplay()} on {to.ToDisplay()} has the depth of {LimitScaling.EqualDepth(aperture, to.Width, from.Width).ToDisplay()} on {from.ToDisplay()}.");
        return limits.ForUse(new LimitUse { Format = (from.Width, to.Width) }).Limits;
    }

    private NoiseLimits? CameraLimits(PrintCondition? print, ToneKind? tone)
    {
        if (Camera is null)
            return null;
        (OwnLimits? own, string? why) = PlanLimits.Own(Camera, PlanLimits.UseOf(Camera, print, tone), _say.DataFolder(_call));
        if (why is not null)
            _assumed.Add(why);
        if (own is not null)
        {
            PrintCondition held = own.Limits.Tags.Print;
            string?[] from = [own.IsFromCard ? "from a card" : null, own.JudgedOn is { } day ? $"judged on {day.ToString("d MMMM yyyy", CultureInfo.InvariantCulture)}{(own.Judging?.Borrowed is { } older ? $" ({older.Question.Limit()} on {older.JudgedAt.ToString("d MMMM yyyy", CultureInfo.InvariantCulture)})" : "")}" : null];
            _assumed.Add($"Limits of {Camera.Name} are your own, {string.Join(", ", from.OfType<string>())} for a print {Figures.Length(held.WidthMm)} wide seen from {Figures.Length(held.ViewingDistanceMm)}"
                + $"{(print is null || print == held ? "." : $", and worked out for yours. {LimitScaling.BandingCaveat}")}");
            return own.Limits;
        }
        if (print is null)
        {
            _assumed.Add($"Limits of {Camera.Name} can be worked out for a print: name it with --print 60cm --distance 60cm.");
            return null;
        }
        if (PlanLimits.Of(Camera, print, tone == ToneKind.Shadows ? LimitTone.Minus3Ev : LimitTone.MidGrey) is not { } known)
        {
            _assumed.Add($"The levels kept of {Camera.Name} reach no limit for this print; give your own with --clean and --stretch.");
            return null;
        }
        if (known.Remark.Length > 0)
            _assumed.Add(known.Remark);
        Shadows = tone == ToneKind.Shadows ? null : PlanLimits.Of(Camera, print, LimitTone.Minus3Ev)?.Limits;
        return known.Limits;
    }

    private ToneKind? ReadTone(Option<string?> option) => _written.Has(option)
        ? (_call.GetValue(option) ?? "").Trim().ToLowerInvariant() switch
        {
            "smooth" => ToneKind.Smooth,
            "textured" => ToneKind.Textured,
            "mid-grey" => ToneKind.MidGrey,
            "shadows" => ToneKind.Shadows,
            _ => throw Refusal.WrongCall($"{option.Name}: '{_call.GetValue(option)?.Trim()}' is no tone that is known here: write smooth, textured, mid-grey or shadows."),
        }
        : null;

    private double? ReadTemperature()
    {
        if (!_written.Has(PlanOptions.Temperature))
            return null;
        string bare = _call.GetValue(PlanOptions.Temperature)!.Trim().TrimEnd('C', 'c', '\u00B0', ' ').Replace('\u2212', '-');
        return double.TryParse(bare, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out double celsius) && celsius is >= -50 and <= 90
            ? celsius
            : throw Refusal.WrongCall($"--temperature: '{_call.GetValue(PlanOptions.Temperature)}' is no temperature of a sensor: write degrees Celsius from −50 to 90, such as 20.");
    }

    private FilterSet ReadFilters(Option<string[]> option)
    {
        List<Filter> all = [];
        foreach (string text in _written.Has(option) ? _call.GetValue(option) ?? [] : [])
        {
            if (!FilterSet.TryParse(text, out FilterSet filters, out string why))
                throw Refusal.WrongCall($"{option.Name}: {why}");
            all.AddRange(filters.Filters);
        }
        if (all.GroupBy(f => f.Name).FirstOrDefault(same => same.Count() > 1) is { } twice)
            throw Refusal.WrongCall($"{option.Name}: {twice.Key} is named twice: name it once, with the stops that all of it takes.");
        return new FilterSet([.. all]);
    }
}
