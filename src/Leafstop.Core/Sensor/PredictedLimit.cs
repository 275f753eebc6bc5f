using Leafstop.Core.Quantities;

namespace Leafstop.Core.Sensor;

/// <summary>A limit worked out from the sensor model by the published print criterion. The person's own judging replaces it.</summary>
/// <remarks>Carries the five tags without which a limit means nothing: body with raw setting, print width, viewing distance, tone, treatment.</remarks>
public sealed record PredictedLimit
{
    /// <summary>The tone at which the criterion is asked.</summary>
    public required LimitTone Tone { get; init; }

    /// <summary>Signal-to-noise 40, "first excellent" (EXP-30): the exact ISO; null when the ladder does not reach it.</summary>
    public Iso? CleanExact { get; init; }

    /// <summary>Signal-to-noise 20, a rule of thumb of ours between the two published levels.</summary>
    public Iso? StretchExact { get; init; }

    /// <summary>Signal-to-noise 10, "first acceptable" (EXP-30).</summary>
    public Iso? AcceptableExact { get; init; }

    /// <summary>Body and raw setting.</summary>
    public required string Body { get; init; }

    /// <summary>Print width and viewing distance.</summary>
    public required PrintCondition Print { get; init; }

    /// <summary>"none": no noise reduction, no sharpening.</summary>
    public required string Treatment { get; init; }
}
