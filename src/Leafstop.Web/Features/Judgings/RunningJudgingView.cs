using Leafstop.Core.Judging;
using Leafstop.Raw.Developed;

namespace Leafstop.Web.Features.Judgings;

/// <summary>A judging under way as it goes out. As long as it is not over it tells nothing about what was shown, limits or blanks.</summary>
internal sealed record RunningJudgingView(
    string Id, string State, int Done, int Total, string? Why, int Answers, bool IsKept, IReadOnlyList<string> Notes, CropsView? Crops, IReadOnlyList<double> Isos, ResultView? Result);

/// <summary>Size of the crops and of the frame they lie in, sensor pixels, and their places.</summary>
internal sealed record CropsView(int SidePixels, int FrameWidthPixels, int FrameHeightPixels, IReadOnlyList<CropPlaceView> Places);

/// <summary>Where a crop lies.</summary>
internal sealed record CropPlaceView(string Region, int Left, int Top)
{
    public static CropPlaceView Of(CropPosition place) => new(JudgingView.Camel(JudgingOrder.Region(place.Subject)), place.Left, place.Top);
}

/// <summary>What came of it.</summary>
internal sealed record ResultView(JudgedLimitView Clean, JudgedLimitView Stretch, bool AreLimitsKept, IReadOnlyList<string> Words)
{
    public static ResultView Of(JudgingResult result) =>
        new(JudgedLimitView.Of(result.Clean), JudgedLimitView.Of(result.Stretch), result.ToLimits() is not null, result.ToSentences());
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
