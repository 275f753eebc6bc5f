using System.ComponentModel;
using System.Text.Json;
using Leafstop.Core.Planning;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;

namespace Leafstop.Browser.Contracts;

/// <summary>What a plan needs to know of a camera: its noise over ISO, and the limits that the person judged.</summary>
public sealed record PlanCameraView(
    string Name,
    BodyView Body,
    [property: Description("The lowest usable ISO that was measured; null when none was.")] double? LowestMeasuredIso,
    [property: Description("The base ISO that a card carries; null without a card.")] double? CardBaseIso,
    [property: Description("Usable levels of a metered picture, lowest ISO first.")] IReadOnlyList<NoiseLevelView> Levels,
    IReadOnlyList<GainStepView> GainSteps,
    [property: Description("Limits by blind judging that speak, newest first.")] IReadOnlyList<OwnLimitsView> Judged,
    [property: Description("Limits that a pocket card carried here; null when there are none.")] OwnLimitsView? Carried)
{
    /// <summary>As it goes out.</summary>
    public static PlanCameraView Of(PlanCamera camera)
    {
        ArgumentNullException.ThrowIfNull(camera);
        return new(
            camera.Name, new(camera.Body.Make, camera.Body.Model, camera.Body.Width, camera.Body.Height, camera.Body.Mosaic, camera.Body.Bits), camera.LowestMeasured?.Speed, camera.CardBase?.Speed,
            [.. camera.Curve?.Isos.Select(iso => (iso, camera.Curve.At(iso))).Select(l => new NoiseLevelView(l.iso, l.Item2.GainElectronsPerDn, l.Item2.ReadNoiseElectrons, l.Item2.SaturationElectrons)) ?? []],
            [.. camera.Curve?.Steps.Select(s => new GainStepView(s.Below, s.Above)) ?? []],
            [.. camera.Judged.Select(OwnLimitsView.Of)], camera.Carried is { } carried ? OwnLimitsView.Of(carried) : null);
    }

    /// <summary>As a plan takes it.</summary>
    public PlanCamera ToPlan() => new()
    {
        Name = Name,
        Body = new CameraIdentity { Make = Body.Make, Model = Body.Model, Width = Body.WidthPx, Height = Body.HeightPx, Mosaic = Body.Mosaic, Bits = Body.Bits },
        LowestMeasured = LowestMeasuredIso is { } lowest ? Iso.FromSpeed(lowest) : null,
        CardBase = CardBaseIso is { } carried ? Iso.FromSpeed(carried) : null,
        Curve = ModelCurve.Of(
            Levels.Select(l => (Iso.FromSpeed(l.Iso), new NoiseModel(l.GainElectronsPerDn, l.ReadNoiseElectrons, l.SaturationElectrons))),
            GainSteps.Select(s => (Iso.FromSpeed(s.BelowIso), Iso.FromSpeed(s.AboveIso)))),
        Judged = [.. Judged.Select(j => j.ToPair())],
        Carried = Carried?.ToPair(),
    };
}

/// <summary>A body as its files name it.</summary>
public sealed record BodyView(string Make, string Model, int WidthPx, int HeightPx, string Mosaic, int Bits);

/// <summary>The sensor at one ISO.</summary>
public sealed record NoiseLevelView(double Iso, double GainElectronsPerDn, double ReadNoiseElectrons, double SaturationElectrons);

/// <summary>Last ISO before and first after a step of the gain.</summary>
public sealed record GainStepView(double BelowIso, double AboveIso);

/// <summary>A pair of limits of the person's own, with its tags.</summary>
public sealed record OwnLimitsView(
    double? CleanIso,
    double? StretchIso,
    [property: Description("judged, given or invented.")] string How,
    string Body,
    double PrintWidthMm,
    double ViewingDistanceMm,
    [property: Description("smooth, textured, midGrey, shadows or notStated.")] string Tone,
    [property: Description("none, usual or notStated.")] string Treatment,
    double? DarkLiftStops,
    DateOnly? JudgedOn,
    AnswersView? CleanJudged,
    AnswersView? StretchJudged,
    [property: Description("clean or stretch, where an older judging found it; else null.")] string? Borrowed,
    DateOnly? BorrowedOn)
{
    /// <summary>As it goes out.</summary>
    public static OwnLimitsView Of(OwnPair pair)
    {
        ArgumentNullException.ThrowIfNull(pair);
        (NoiseLimits limits, LimitTags tags) = (pair.Limits, pair.Limits.Tags);
        return new(
            limits.Clean?.Speed, limits.Stretch?.Speed, Camel(limits.Origin), tags.Body, tags.Print.WidthMm, tags.Print.ViewingDistanceMm, Camel(tags.Tone), Camel(tags.Treatment), tags.Lift?.Value,
            pair.JudgedOn ?? limits.Evidence?.JudgedOn, AnswersView.Of(limits.Evidence?.Clean), AnswersView.Of(limits.Evidence?.Stretch), pair.Borrowed?.Limit, pair.Borrowed?.JudgedOn);
    }

    /// <summary>As a plan takes it.</summary>
    public OwnPair ToPair()
    {
        LimitTags tags = new(Body, new PrintCondition(PrintWidthMm, ViewingDistanceMm), Enum.Parse<ToneKind>(Tone, true), Enum.Parse<NoiseTreatment>(Treatment, true), DarkLiftStops is { } lift ? Stops.Of(lift) : null);
        Iso? clean = CleanIso is { } c ? Iso.FromSpeed(c) : null, stretch = StretchIso is { } s ? Iso.FromSpeed(s) : null;
        LimitOrigin origin = Enum.Parse<LimitOrigin>(How, true);
        // A card says that limits were judged, and carries no answers.
        NoiseLimits limits = origin == LimitOrigin.Judged && JudgedOn is { } day && (CleanJudged ?? StretchJudged) is not null
            ? NoiseLimits.Judged(clean, stretch, tags, new LimitEvidence(day, CleanJudged?.ToAnswers(), StretchJudged?.ToAnswers()))
            : NoiseLimits.Of(clean, stretch, tags, origin);
        return new OwnPair(limits, JudgedOn) { Borrowed = Borrowed is { } limit && BorrowedOn is { } on ? (limit, on) : null };
    }

    private static string Camel<T>(T value) where T : struct, Enum => JsonNamingPolicy.CamelCase.ConvertName(value.ToString());
}

/// <summary>How sure a judged limit is.</summary>
public sealed record AnswersView(double LowIso, double HighIso, double SpreadStops, int Answers)
{
    /// <summary>As it goes out.</summary>
    public static AnswersView? Of(JudgedAnswers? answers) => answers is null ? null : new(answers.Low.Speed, answers.High.Speed, answers.Spread.Value, answers.Answers);

    /// <summary>As a plan takes it.</summary>
    public JudgedAnswers ToAnswers() => JudgedAnswers.Of(Iso.FromSpeed(LowIso), Iso.FromSpeed(HighIso), Stops.Of(SpreadStops), Answers);
}
