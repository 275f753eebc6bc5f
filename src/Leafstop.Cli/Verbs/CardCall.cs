using System.Collections.Immutable;
using System.CommandLine;
using Leafstop.Cli.CommandLine;
using Leafstop.Cli.Paper;
using Leafstop.Cli.Paper.Card;
using Leafstop.Core.Card;
using Leafstop.Core.Motion;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;
using Leafstop.Storage;
using Leafstop.Storage.Cameras;

namespace Leafstop.Cli.Verbs;

/// <summary>What was asked of leafstop card, read and checked.</summary>
internal sealed class CardCall
{
    private readonly ParseResult _call;
    private readonly Surroundings _say;
    private readonly WrittenOptions _written;
    private readonly List<string> _assumed = [];

    private CardCall(ParseResult call, Surroundings say) => (_call, _say, _written) = (call, say, new WrittenOptions(call, NumberReading.Marks));

    /// <summary>The size of the card.</summary>
    public PaperSheet Sheet { get; private set; } = null!;

    /// <summary>What stands on it.</summary>
    public PocketCard Card { get; private set; } = null!;

    /// <summary>What it rests on though nobody said it, in sentences.</summary>
    public IReadOnlyList<string> Assumed => _assumed;

    /// <summary>Reads the call.</summary>
    /// <exception cref="Refusal">Something is missing, unreadable, out of range or not kept.</exception>
    public static CardCall Read(ParseResult call, Surroundings say)
    {
        CardCall read = new(call, say);
        read.Sheet = read.ReadSheet();
        CardWish wish = read.ReadWish();
        KeptCamera? camera = read.FindCamera();
        try
        {
            CardText full = camera is null ? read.TextOfLimits() : read.TextOf(camera), text = full.Fitted();
            if (text.Levels.Length < full.Levels.Length)
                read._assumed.Add($"The code carries {text.Levels.Length} of the {full.Levels.Length} levels of {full.Name}: those that tell most of its noise.");
            read.Card = PocketCard.Of(text, wish);
        }
        catch (ArgumentException wrong)
        {
            throw Refusal.NoAnswer(Refusal.Sentence(wrong));
        }
        return read;
    }

    private PaperSheet ReadSheet()
    {
        string name = (_call.GetValue(CardOptions.Size) ?? "").Trim();
        return ((PaperSheet[])[PaperSheet.A6, PaperSheet.Wallet]).FirstOrDefault(s => s.Name.Equals(name, StringComparison.OrdinalIgnoreCase))
            ?? throw Refusal.WrongCall($"--size: '{name}' is no size that is known here: a6 or wallet.");
    }

    private CardWish ReadWish()
    {
        FrameFormat? format = LimitReading.Format(_written);
        if (format is null)
            _assumed.Add($"The frame is taken to be {FrameFormat.FullFrame.ToDisplay()}; give yours with --format.");
        CardWish usual = new() { Lenses = ReadLenses(), Format = format ?? FrameFormat.FullFrame };
        CardWish wish = usual with
        {
            Taste = _written.Struct<Streak>(CardOptions.Streak, Streak.TryParse, s => s.Percent is >= 0.01 and <= 100, "a streak lies between 0.01% and 100%") ?? usual.Taste,
            Water = _written.Struct<Speed>(CardOptions.WaterSpeed, Speed.TryParse, s => s.MetresPerSecond is > 0 and <= 60, "water runs faster than 0 and slower than 60 m/s") ?? usual.Water,
            Screen = _written.Struct<Length>(CardOptions.Screen, Length.TryParse, l => l.Centimetres is >= 2 and <= 30, "write the diagonal of the camera's screen, 2 to 30 cm, such as 3in") ?? usual.Screen,
        };
        if (!_written.Has(CardOptions.Streak) || !_written.Has(CardOptions.WaterSpeed))
            _assumed.Add($"Water: a streak of {wish.Taste.ToDisplay()} at {wish.Water.ToDisplay()}. Leaves: a swing of {wish.Leaf.Amplitude.ToDisplay()} either way, {Figures.Fixed(wish.Leaf.FrequencyHertz, 0)} a second. (rule of thumb)");
        return wish;
    }

    private ImmutableArray<Length> ReadLenses()
    {
        SortedSet<double> lenses = [.. LensList.Read(CardOptions.Lenses.Name, _call.GetValue(CardOptions.Lenses) ?? "").Select(l => l.Millimetres)];
        int most = Sheet == PaperSheet.A6 ? CardOfA6.MostLenses : CardForWallet.MostLenses;
        return lenses.Count <= most
            ? [.. lenses.Select(Length.FromMillimetres)]
            : throw Refusal.WrongCall($"--lenses: {lenses.Count} are more than the card has room for: {most} at most.");
    }

    /// <summary>The camera that is meant; null where none is kept at all and the call gives limits: the card is of those alone.</summary>
    private KeptCamera? FindCamera()
    {
        if (_written.Has(PlanOptions.Clean) && new CameraStore(new DataFile(_say.DataFolder(_call))).List().IsEmpty)
            return null;
        (KeptCamera? camera, string? remark) = PlanLimits.Find(_written.Has(CardOptions.Camera) ? _call.GetValue(CardOptions.Camera) : null, _say.DataFolder(_call));
        return camera ?? throw (remark is null
            ? Refusal.NoAnswer("no camera is kept yet: measure yours with leafstop measure DIR --save NAME, then ask for its card, or give your limits with --clean and --stretch.")
            : Refusal.WrongCall(remark));
    }

    /// <summary>A card of limits that the call gives, for a camera that was never measured.</summary>
    private CardText TextOfLimits()
    {
        string name = CameraName();
        OwnLimits given = Given(CardText.NoBody)!;
        _assumed.Add("No camera is kept, so the card and its code carry the limits alone, without noise.");
        return new CardText
        {
            Name = name,
            Camera = CardText.NoBody,
            BaseIso = ReadBase(null),
            Limits = given.Limits,
            Print = Asked() ?? given.Limits.Tags.Print,
            MadeOn = Today(),
        };
    }

    private string CameraName()
    {
        try
        {
            return _written.Has(CardOptions.Camera) ? CameraStore.TidyName(_call.GetValue(CardOptions.Camera)!) : "Your camera";
        }
        catch (ArgumentException wrong)
        {
            throw Refusal.WrongCall($"--camera: {Refusal.Sentence(wrong)}");
        }
    }

    private DateOnly Today()
    {
        DateTime today = _say.Clock.GetLocalNow().Date;
        return new DateOnly(today.Year, today.Month, today.Day);
    }

    private CardText TextOf(KeptCamera camera)
    {
        (OwnLimits? own, string? why) = Given(camera.Body) is { } given ? (given, null) : PlanLimits.Own(camera, PlanLimits.UseOf(camera, Asked()), _say.DataFolder(_call));
        if (why is not null)
            _assumed.Add(why);
        PrintCondition print = Asked() ?? own?.Limits.Tags.Print ?? new PrintCondition(600, 600);
        WorkedOutLimits? worked = own is null ? PlanLimits.Of(camera, print, LimitTone.MidGrey) : null;
        // A limit that the measured levels do not reach is none: the card says how far they go.
        NoiseLimits? limits = own?.Limits ?? worked?.Reached;
        if (limits is null && worked is null)
            _assumed.Add($"{camera.ForPlan([]).WhyNoneWorkedOut} Judge a strip, or give your own with --clean and --stretch.");
        CardText text = (camera.Newest is { } newest ? Measured(camera, newest) : camera.NewestCard!.Card) with
        {
            Name = camera.Name,
            BaseIso = ReadBase(camera),
            Limits = limits,
            MeasuredTo = worked?.MeasuredTo,
            JudgedOn = own?.JudgedOn,
            CleanRange = own?.CleanRange,
            StretchRange = own?.StretchRange,
            Print = print,
            MadeOn = Today(),
        };
        return text;
    }

    private static CardText Measured(KeptCamera camera, KeptMeasurement newest)
    {
        DateTime day = newest.MeasuredAt.UtcDateTime;
        return new CardText
        {
            Name = camera.Name,
            Camera = newest.Camera with { BodyFingerprint = null },
            BaseIso = Iso.FromMarking(100),
            MeasuredOn = new DateOnly(day.Year, day.Month, day.Day),
            Levels =
            [
                .. newest.MeteredLevels.DistinctBy(l => l.Iso.Speed).OrderBy(l => l.Iso)
                    .Select(l => new CardLevel(l.Iso, new NoiseModel(l.GainElectronsPerDn!.Value.Value, l.ReadNoiseElectrons!.Value.Value, l.SaturationElectrons!.Value))),
            ],
            Steps = [.. newest.GainSteps.Select(s => new CardStep(s.Below, s.Above))],
            Print = new PrintCondition(600, 600),
            MadeOn = new DateOnly(day.Year, day.Month, day.Day),
        };
    }

    private Iso ReadBase(KeptCamera? camera)
    {
        if (LimitReading.Base(_written) is { } given)
            return given;
        if (camera is not null && PlanLimits.BaseIso(camera) is { } known)
            return known;
        _assumed.Add("Base ISO 100 is assumed; give yours with --base.");
        return Iso.FromMarking(100);
    }

    /// <summary>The limits of the call, which go before all others; null when it has none.</summary>
    private OwnLimits? Given(CameraIdentity body)
    {
        PrintCondition? own = PrintOf(PlanNames.LimitPrint, PlanNames.LimitDistance);
        if (LimitReading.Given(_written, PlanNames.LimitPrint, PlanNames.LimitDistance) is not var (clean, stretch))
            return null;
        LimitTags tags = new(body.ToWords(), own ?? Asked() ?? new PrintCondition(600, 600), ToneKind.NotStated, NoiseTreatment.NotStated);
        return new OwnLimits(NoiseLimits.Of(clean, stretch, tags, LimitOrigin.Given), null, null, null);
    }

    private PrintCondition? Asked() => PrintOf(PlanNames.Print, PlanNames.Distance);

    /// <summary>A print, where width or distance is written; the other is 60 cm then.</summary>
    private PrintCondition? PrintOf(string width, string distance)
    {
        Length? w = LimitReading.Side(_written, width), d = LimitReading.Side(_written, distance);
        return w is null && d is null ? null : new PrintCondition((w ?? Length.FromCentimetres(60)).Millimetres, (d ?? Length.FromCentimetres(60)).Millimetres);
    }
}
