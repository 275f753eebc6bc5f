using System.ComponentModel;
using System.Text.Json;
using Leafstop.Core.Judging;
using Leafstop.Core.Viewing;
using Leafstop.Storage.Judgements;

namespace Leafstop.Web.Features.Judgings;

/// <summary>A kept judging as it goes out. One that is unfinished tells nothing about levels, limits or blanks: its observer still has to be blind.</summary>
internal sealed record JudgingView(
    [property: Description("With which it is gone on with; null when it is over or cannot be.")] string? Id,
    [property: Description("Stands for it in addresses.")] string Key,
    DateTimeOffset BegunAt, DateTimeOffset JudgedAt, [property: Description("When it was dropped; null while it speaks.")] DateTimeOffset? DroppedAt, string Source, double PrintWidthMm, double ViewingDistanceMm, string Tone, string Treatment, [property: Description("By how much the dark was lifted; null where that was not kept.")] double? DarkLiftStops,
    int Answers, bool IsFinished, JudgedLimitView? Clean, JudgedLimitView? Stretch, bool? AreLimitsKept, IReadOnlyList<string>? Words)
{
    public static JudgingView Of(KeptJudging kept)
    {
        LimitTags tags = kept.Result.Tags;
        bool isFinished = !kept.IsUnfinished;
        return new(
            isFinished ? null : kept.Scene?.Name, kept.Key, kept.BegunAt, kept.JudgedAt, kept.DroppedAt, Camel(kept.Source), tags.Print.WidthMm, tags.Print.ViewingDistanceMm, Camel(tags.Tone), Camel(tags.Treatment), tags.Lift?.Value,
            kept.Answers.Length, isFinished,
            isFinished ? JudgedLimitView.Of(kept.Result.Clean) : null,
            isFinished ? JudgedLimitView.Of(kept.Result.Stretch) : null,
            isFinished ? kept.Result.HasLimits : null,
            isFinished ? kept.Result.ToSentences() : null);
    }

    internal static string Camel<T>(T value) where T : struct, Enum => JsonNamingPolicy.CamelCase.ConvertName(value.ToString());
}

/// <summary>One limit with its 95 % interval; the ISOs are null where there is no limit.</summary>
internal sealed record JudgedLimitView(string Outcome, int Answers, double? Iso, double? LowIso, double? HighIso)
{
    public static JudgedLimitView Of(QuestionReading reading) =>
        new(JudgingView.Camel(reading.Outcome), reading.Answers, reading.Limit?.Speed, reading.Low?.Speed, reading.High?.Speed);
}
