using Leafstop.Core.Judging;

namespace Leafstop.Web.Features.Judgings;

/// <summary>A judging under way as it goes out. As long as it is not over it tells nothing about levels, limits or blanks.</summary>
internal sealed record RunningJudgingView(
    string Id, string State, int Done, int Total, string? Why, int Answers, bool IsKept, IReadOnlyList<string> Notes, ResultView? Result);

/// <summary>What came of it.</summary>
internal sealed record ResultView(JudgedLimitView Clean, JudgedLimitView Stretch, bool AreLimitsKept, IReadOnlyList<string> Words)
{
    public static ResultView Of(JudgingResult result) =>
        new(JudgedLimitView.Of(result.Clean), JudgedLimitView.Of(result.Stretch), result.HasLimits, result.ToSentences());
}

/// <summary>A trial as it goes out.</summary>
internal sealed record TrialView(string Token, int Number, string Question, bool IsMirrored, IReadOnlyList<TrialPictureView> Pictures)
{
    public static TrialView Of(string id, ShownTrial shown) => new(
        shown.Token, shown.Trial.Number, shown.Trial.Question.Ask(), shown.Trial.IsMirrored,
        [.. shown.Pictures.Select(p => new TrialPictureView(JudgingView.Camel(p.Region), $"/api/judgings/{id}/pictures/{p.Address}"))]);
}

/// <summary>One picture of a trial.</summary>
internal sealed record TrialPictureView(string Region, string Address);
