using System.ComponentModel;
using Leafstop.Core.Judging;
using Leafstop.Raw.Developed;

namespace Leafstop.Web.Features.Judgings;

/// <summary>A judging under way as it goes out. As long as it is not over it tells nothing about what was shown, limits or blanks.</summary>
internal sealed record RunningJudgingView(
    [property: Description("Stands for the judging in addresses.")] string Id,
    [property: Description("waiting, measuring, cutting, ready, over or failed.")] string State,
    [property: Description("Files of the step that runs.")] int Done,
    int Total,
    [property: Description("One sentence when it failed.")] string? Why,
    [property: Description("How many so far, over both questions.")] int Answers,
    [property: Description("True when the last answer was stored with the camera.")] bool IsKept,
    [property: Description("False when no camera of that name is kept: answers are taken then and not stored.")] bool IsCameraKept,
    [property: Description("What is missing or was assumed, in sentences.")] IReadOnlyList<string> Notes,
    [property: Description("Where the crops lie; null before they are cut.")] CropsView? Crops,
    [property: Description("Levels that can be set side by side, lowest first; empty before the crops are cut.")] IReadOnlyList<double> Isos,
    [property: Description("Null until it is over.")] ResultView? Result);

/// <summary>Size of the crops and of the frame they lie in, sensor pixels, and their places.</summary>
internal sealed record CropsView(int SidePixels, int FrameWidthPixels, int FrameHeightPixels, IReadOnlyList<CropPlaceView> Places,
    [property: Description("By how many stops the dark is lifted for showing, at every level; null where there is none.")] double? DarkLiftStops);

/// <summary>Where a crop lies.</summary>
internal sealed record CropPlaceView(string Region, int Left, int Top)
{
    public static CropPlaceView Of(CropPosition place) => new(JudgingView.Camel(JudgingOrder.Region(place.Subject)), place.Left, place.Top);
}

/// <summary>What came of it.</summary>
internal sealed record ResultView(JudgedLimitView Clean, JudgedLimitView Stretch, bool AreLimitsKept, IReadOnlyList<string> Words)
{
    public static ResultView Of(JudgingResult result) =>
        new(JudgedLimitView.Of(result.Clean), JudgedLimitView.Of(result.Stretch), result.HasLimits, result.ToSentences());
}

/// <summary>A trial as it goes out.</summary>
internal sealed record TrialView(
    [property: Description("Another one each time a trial is shown.")] string Token,
    int Number,
    [property: Description("The question as it is asked.")] string Question,
    [property: Description("True when every picture is shown left to right.")] bool IsMirrored,
    [property: Description("From left to right.")] IReadOnlyList<TrialPictureView> Pictures)
{
    public static TrialView Of(string id, ShownTrial shown) => new(
        shown.Token, shown.Trial.Number, shown.Trial.Question.Ask(), shown.Trial.IsMirrored,
        [.. shown.Pictures.Select(p => new TrialPictureView(JudgingView.Camel(p.Region), $"/api/judgings/{id}/pictures/{p.Address}"))]);
}

/// <summary>One picture of a trial.</summary>
internal sealed record TrialPictureView(string Region, string Address);
