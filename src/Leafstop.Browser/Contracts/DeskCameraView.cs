using System.ComponentModel;

namespace Leafstop.Browser.Contracts;

/// <summary>A kept camera as the first page shows it.</summary>
public sealed record DeskCameraView(
    string Name,
    [property: Description("When it was last measured, by the clock of the host; null when it is known from a card alone.")] DateTimeOffset? MeasuredAt,
    [property: Description("The newest finished judging with limits, its times by the clock of the host; null when there is none.")] JudgingView? Judged,
    [property: Description("The judging that can be gone on with; null when there is none.")] JudgingView? Unfinished);
