using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;

namespace Leafstop.Core.Viewing;

/// <summary>What limits are asked for. What is left out is not asked, and the limits' own tag stands.</summary>
public sealed record LimitUse
{
    /// <summary>Body and raw setting, in the words of <see cref="LimitTags.Body"/>.</summary>
    public string? Body { get; init; }

    /// <summary>Print and distance.</summary>
    public PrintCondition? Print { get; init; }

    /// <summary>Tone.</summary>
    public ToneKind? Tone { get; init; }

    /// <summary>Treatment against noise.</summary>
    public NoiseTreatment? Treatment { get; init; }

    /// <summary>Share of the width that a crop keeps, above 0, at most 1.</summary>
    public double WidthKept { get; init; } = 1;

    /// <summary>Shadows opened, zero or more stops.</summary>
    public Stops Lift { get; init; }

    /// <summary>Widths of the sensor formats of the limits and of the use, for a body of like build.</summary>
    public (Length From, Length To)? Format { get; init; }

    /// <summary>Frames averaged, 1 or more.</summary>
    public int FramesAveraged { get; init; } = 1;
}

/// <summary>Limits for a use, or the sentence that says why there are none.</summary>
public sealed record LimitAnswer
{
    private LimitAnswer(NoiseLimits? limits, string? refusal) => (Limits, Refusal) = (limits, refusal);

    /// <summary>The limits, with every step and its reason in <see cref="NoiseLimits.Shifts"/>; null when refused.</summary>
    public NoiseLimits? Limits { get; }

    /// <summary>Why there are none and what to do; null when there are.</summary>
    public string? Refusal { get; }

    internal static LimitAnswer Given(NoiseLimits limits) => new(limits, null);

    internal static LimitAnswer Refused(string why) => new(null, why);
}
