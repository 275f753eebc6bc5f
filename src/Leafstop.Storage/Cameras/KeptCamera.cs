using System.Collections.Immutable;
using Leafstop.Core.Judging;
using Leafstop.Core.Planning;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;
using Leafstop.Storage.Judgements;

namespace Leafstop.Storage.Cameras;

/// <summary>A camera as it is kept: a name, every measuring of it, and the cards that were read back.</summary>
/// <param name="Name">The name the person gave, trimmed.</param>
/// <param name="Measurements">Oldest first; empty when the camera is known from a card alone.</param>
public sealed record KeptCamera(string Name, ImmutableArray<KeptMeasurement> Measurements)
{
    /// <summary>Blind judgings, oldest first.</summary>
    public ImmutableArray<KeptJudging> Judgings { get; init; } = [];

    /// <summary>Cards that were read back, oldest first; at least one where there is no measurement.</summary>
    public ImmutableArray<KeptCard> Cards { get; init; } = [];

    /// <summary>The measuring that speaks for the camera: the newest; null when it is known from a card alone.</summary>
    public KeptMeasurement? Newest => Measurements.LastOrDefault();

    /// <summary>The card that speaks where nothing was measured or judged: the one read last; null when there is none.</summary>
    public KeptCard? NewestCard => Cards.LastOrDefault();

    /// <summary>The body, as measured, else as the card has it.</summary>
    public CameraIdentity Body => Newest?.Camera ?? NewestCard!.Card.Camera;

    /// <summary>Why frames of a body do not belong to this camera, in a sentence; null when they do.</summary>
    /// <param name="body">The body as the frames state it.</param>
    public string? RefusalOf(CameraIdentity body)
    {
        ArgumentNullException.ThrowIfNull(body);
        return Body.FullModel == body.FullModel ? null : $"The folder holds frames of {body.Model}, and {Body.Model} is kept as \"{Name}\": choose the folder or the camera anew.";
    }

    /// <summary>Why a test strip does not belong to this camera, in a sentence; null when it does.</summary>
    /// <param name="strip">What the strip was made for.</param>
    public string? RefusalOf(LimitTags strip)
    {
        ArgumentNullException.ThrowIfNull(strip);
        // As Body.ToWords begins; a card has maker and model in one.
        return string.Join(' ', strip.Body.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)).StartsWith($"{Body.FullModel},", StringComparison.Ordinal)
            ? null
            : $"The strip shows frames of {strip.Body}, and {Body.Model} is kept as \"{Name}\": choose the strip or the camera anew.";
    }

    /// <summary>The lowest ISO that was measured and is usable; null when there is none.</summary>
    public Iso? LowestUsable => Newest?.Levels.Where(l => l.Usable).MinBy(l => l.Iso)?.Iso;

    /// <summary>What a plan needs to know of this camera.</summary>
    /// <param name="speaking">Its judgings that speak, newest first.</param>
    public PlanCamera ForPlan(ImmutableArray<KeptJudging> speaking) => new()
    {
        Name = Name,
        Body = Body,
        LowestMeasured = LowestUsable,
        CardBase = NewestCard?.Card.BaseIso,
        Curve = Newest is { } newest
            ? ModelCurve.Of(
                newest.MeteredLevels.Select(l => (l.Iso, new NoiseModel(l.GainElectronsPerDn!.Value.Value, l.ReadNoiseElectrons!.Value.Value, l.SaturationElectrons!.Value))),
                newest.GainSteps.Select(s => (s.Below, s.Above)))
            : NewestCard?.Card.Curve,
        Judged = [.. speaking.Select(Pair)],
        Carried = NewestCard?.Card is { Limits: { Origin: not LimitOrigin.WorkedOut } limits } card ? new OwnPair(limits, card.JudgedOn) : null,
    };

    private static OwnPair Pair(KeptJudging judging) => new(judging.ToLimits()!, Day(judging.JudgedAt))
    {
        Borrowed = judging.Borrowed is { } older ? (older.Question.Limit(), Day(older.JudgedAt)) : null,
    };

    private static DateOnly Day(DateTimeOffset at) => DateOnly.FromDateTime(at.UtcDateTime);
}

/// <summary>One measuring of a camera.</summary>
public sealed record KeptMeasurement
{
    /// <summary>When it was measured, UTC, to the second.</summary>
    public required DateTimeOffset MeasuredAt { get; init; }

    /// <summary>True when it came from a camera file, not from a folder of raws on this machine.</summary>
    public bool IsImported { get; init; }

    /// <summary>Full path of the folder of raws it was measured from; null where it is not known. Of this machine only: a camera file does not carry it.</summary>
    public string? Folder { get; init; }

    /// <summary>The body.</summary>
    public required CameraIdentity Camera { get; init; }

    /// <summary>Which ladder was measured.</summary>
    public required LadderKind Ladder { get; init; }

    /// <summary>Levels in the order of the answer.</summary>
    public required ImmutableArray<KeptLevel> Levels { get; init; }

    /// <summary>Gain steps, lowest first.</summary>
    public required ImmutableArray<KeptGainStep> GainSteps { get; init; }

    /// <summary>The levels of a metered picture that have a whole model; frames of one light say nothing of it.</summary>
    public IEnumerable<KeptLevel> MeteredLevels =>
        Levels.Where(l => l is { Usable: true, Ladder: LadderKind.Metered, GainElectronsPerDn: not null, ReadNoiseElectrons: not null, SaturationElectrons: not null });

    /// <summary>What is kept of a bench answer.</summary>
    /// <param name="answer">The answer; it must name its camera.</param>
    /// <param name="measuredAt">The time, passed in by the host.</param>
    /// <param name="folder">Full path of the folder of raws; null where it is not known.</param>
    /// <exception cref="ArgumentException">The answer has no camera.</exception>
    public static KeptMeasurement Of(BenchAnswer answer, DateTimeOffset measuredAt, string? folder = null) => new()
    {
        MeasuredAt = ToSecond(measuredAt),
        Folder = folder,
        Camera = answer.Camera ?? throw new ArgumentException("An answer without a camera cannot be kept.", nameof(answer)),
        Ladder = answer.Ladder,
        Levels = [.. answer.Levels.Select(KeptLevel.Of)],
        GainSteps = [.. answer.GainSteps.Select(s => new KeptGainStep(s.Below, s.Above, s.Ratio))],
    };

    /// <summary>True when both say the same of the same body at the same time, wherever they came from.</summary>
    public bool SaysTheSameAs(KeptMeasurement other) =>
        MeasuredAt == other.MeasuredAt && Camera == other.Camera && Ladder == other.Ladder
        && GainSteps.SequenceEqual(other.GainSteps)
        && Levels.Length == other.Levels.Length && Levels.Zip(other.Levels).All(p => p.First.SaysTheSameAs(p.Second));

    private static DateTimeOffset ToSecond(DateTimeOffset time) =>
        DateTimeOffset.FromUnixTimeSeconds(time.ToUnixTimeSeconds());
}

/// <summary>A gain step as kept.</summary>
/// <param name="Below">Last ISO before the drop.</param>
/// <param name="Above">First ISO after it.</param>
/// <param name="ReadNoiseRatio">Read noise before over after, above 1.</param>
public sealed record KeptGainStep(Iso Below, Iso Above, double ReadNoiseRatio);
