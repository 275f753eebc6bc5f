using Leafstop.Core.Judging;

namespace Leafstop.Web.Features.Judgings;

/// <summary>What a side-by-side check is started with, as it comes in.</summary>
internal sealed record SideBySideWish(double? CleanerIso, double? NoisierIso, int? Trials, long? Seed);

/// <summary>A side-by-side check as it goes out. Its result has no member that could be taken for a limit.</summary>
internal sealed record SideBySideView(double CleanerIso, double NoisierIso, int Answers, int Trials, SideBySideResultView? Result)
{
    public static SideBySideView Of(SideBySideCheck check, int trials) => new(
        check.Cleaner.Speed, check.Noisier.Speed, check.Replies.Length, trials, check.Result() is { } result ? SideBySideResultView.Of(result) : null);
}

/// <summary>Whether a difference was seen.</summary>
internal sealed record SideBySideResultView(string Outcome, int Right, int Ties, int Answers, double ChanceOfGuessing, string Words)
{
    public static SideBySideResultView Of(SideBySideResult result) =>
        new(result.IsSeen ? "seen" : "notShown", result.Right, result.Ties, result.Answers, result.ByGuessing.Share, result.ToSentence());
}

/// <summary>A pair as it goes out.</summary>
internal sealed record SideBySideTrialView(string Token, int Number, int Of, string Question, string Region, bool IsMirrored, string Left, string Right)
{
    public static SideBySideTrialView From(string id, ShownPair shown) => new(
        shown.Token, shown.Trial.Number, shown.Trial.Of, SideBySideCheck.Question, JudgingView.Camel(shown.Trial.Region), shown.Trial.IsMirrored,
        $"/api/judgings/{id}/side-by-side/pictures/{shown.Left}", $"/api/judgings/{id}/side-by-side/pictures/{shown.Right}");
}
