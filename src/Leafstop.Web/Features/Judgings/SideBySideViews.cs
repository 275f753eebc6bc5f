using System.ComponentModel;
using System.Text.Json.Serialization;
using Leafstop.Core.Judging;

namespace Leafstop.Web.Features.Judgings;

/// <summary>What a side-by-side check is started with, as it comes in.</summary>
[JsonUnmappedMemberHandling(JsonUnmappedMemberHandling.Disallow)]
internal sealed record SideBySideWish(
    [property: Description("A level of the ladder.")] double? CleanerIso,
    [property: Description("A higher one.")] double? NoisierIso,
    [property: Description("10 to 200; 20 without it.")] int? Trials = null,
    [property: Description("Decides every side; drawn at random without it.")] long? Seed = null);

/// <summary>A side-by-side check as it goes out. Its result has no member that could be taken for a limit.</summary>
internal sealed record SideBySideView(double CleanerIso, double NoisierIso, int Answers, int Trials, SideBySideResultView? Result)
{
    public static SideBySideView Of(SideBySideCheck check, int trials) => new(
        check.Cleaner.Speed, check.Noisier.Speed, check.Replies.Length, trials, check.Result() is { } result ? SideBySideResultView.Of(result) : null);
}

/// <summary>Whether a difference was seen.</summary>
internal sealed record SideBySideResultView(
    [property: Description("seen or notShown.")] string Outcome,
    [property: Description("Right answers; of the ties half.")] int Right,
    [property: Description("Unsure.")] int Ties,
    int Answers,
    [property: Description("The chance that guessing is right as often.")] double ChanceOfGuessing,
    [property: Description("The same in words, which say that this is no limit.")] string Words)
{
    public static SideBySideResultView Of(SideBySideResult result) =>
        new(result.IsSeen ? "seen" : "notShown", result.Right, result.Ties, result.Answers, result.ByGuessing.Share, result.ToSentence());
}

/// <summary>A pair as it goes out.</summary>
internal sealed record SideBySideTrialView(
    [property: Description("Another one each time a pair is shown.")] string Token,
    int Number,
    [property: Description("How many there will be.")] int Of,
    [property: Description("The question as it is asked.")] string Question,
    [property: Description("dark, mid or texture.")] string Region,
    [property: Description("True when both are shown left to right.")] bool IsMirrored,
    [property: Description("Address of the left picture.")] string Left,
    [property: Description("Address of the right picture.")] string Right)
{
    public static SideBySideTrialView From(string id, ShownPair shown) => new(
        shown.Token, shown.Trial.Number, shown.Trial.Of, SideBySideCheck.Question, JudgingAnswers.Camel(shown.Trial.Region), shown.Trial.IsMirrored,
        $"/api/judgings/{id}/side-by-side/pictures/{shown.Left}", $"/api/judgings/{id}/side-by-side/pictures/{shown.Right}");
}
