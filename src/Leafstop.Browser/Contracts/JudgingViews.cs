using System.ComponentModel;

namespace Leafstop.Browser.Contracts;

/// <summary>A judging under way as it goes out. As long as it is not over it tells nothing about what was shown, limits or blanks.</summary>
public sealed record RunningJudgingView(
    [property: Description("Stands for the judging in addresses.")] string Id,
    [property: Description("waiting, measuring, cutting, ready, over or failed.")] string State,
    [property: Description("Name of the camera that the answers belong to.")] string Camera,
    [property: Description("Full path of the raw files.")] string Folder,
    double PrintWidthMm,
    double ViewingDistanceMm,
    [property: Description("Files of the step that runs.")] int Done,
    int Total,
    [property: Description("One sentence when it failed.")] string? Why,
    [property: Description("How many so far, over both questions.")] int Answers,
    [property: Description("True when the last answer was stored with the camera.")] bool IsKept,
    [property: Description("False when no camera of that name is kept: answers are taken then and not stored.")] bool IsCameraKept,
    [property: Description("What is missing or was assumed, in sentences.")] IReadOnlyList<string> Notes,
    [property: Description("Where the crops lie; null before they are cut.")] CropsView? Crops,
    [property: Description("Levels that can be set side by side, lowest first; empty before the crops are cut.")] IReadOnlyList<double> Isos,
    [property: Description("How much each level was brightened in linear light to be as bright as the others; empty before the crops are cut.")] IReadOnlyList<BrightnessCorrectionView> Corrections,
    [property: Description("Visible noise of the smooth places by ISO; null until it is over, so that nobody judges by numbers.")] IReadOnlyList<CropNoiseView>? VisibleNoise,
    [property: Description("Null until it is over.")] ResultView? Result)
{
    /// <summary>What is judged next, so that nobody who answers has to ask again.</summary>
    [Description("In what an answer or taking one back is answered with: the trial that comes next, null when it is over. Else null.")]
    public TrialView? Next { get; init; }
}

/// <summary>By how many stops a level was brightened; negative = darkened.</summary>
public sealed record BrightnessCorrectionView(double Iso, double Stops);

/// <summary>Visible noise of one place at one level of a print: measured in its pair of crops and predicted from the sensor.</summary>
public sealed record CropNoiseView(
    double Iso, string Region, LabSpreadView Measured,
    [property: Description("Standard error of the measured lightness, as a share of it.")] double MeasuredRelativeError,
    [property: Description("Null where the sensor of this level is not known.")] LabSpreadView? Predicted,
    [property: Description("Row offsets as they are seen, standard deviation of L*.")] double Rows,
    [property: Description("Column offsets.")] double Columns,
    [property: Description("True when they stand out of the grain.")] bool IsBandingFound,
    [property: Description("Share of values cut off at black or white, 0 to 1.")] double AtBlackOrWhite);

/// <summary>Standard deviations of L*, a* and b*.</summary>
public sealed record LabSpreadView(double Lightness, double RedGreen, double YellowBlue);

/// <summary>Size of the crops and of the frame they lie in, sensor pixels, and their places.</summary>
public sealed record CropsView(int SidePixels, int FrameWidthPixels, int FrameHeightPixels, IReadOnlyList<CropPlaceView> Places,
    [property: Description("By how many stops the dark is lifted for showing, at every level; null where there is none.")] double? DarkLiftStops);

/// <summary>Where a crop lies.</summary>
public sealed record CropPlaceView(string Region, int Left, int Top);

/// <summary>What came of it.</summary>
public sealed record ResultView(JudgedLimitView Clean, JudgedLimitView Stretch, bool AreLimitsKept, IReadOnlyList<string> Words);

/// <summary>One limit with its 95 % interval; the ISOs are null where there is no limit.</summary>
public sealed record JudgedLimitView(string Outcome, int Answers, double? Iso, double? LowIso, double? HighIso);

/// <summary>A trial as it goes out.</summary>
public sealed record TrialView(
    [property: Description("Another one each time a trial is shown.")] string Token,
    int Number,
    [property: Description("The question as it is asked.")] string Question,
    [property: Description("True when every picture is shown left to right.")] bool IsMirrored,
    [property: Description("From left to right.")] IReadOnlyList<TrialPictureView> Pictures);

/// <summary>One picture of a trial.</summary>
public sealed record TrialPictureView(string Region, string Address);

/// <summary>A kept judging as it goes out. One that is unfinished tells nothing about levels, limits or blanks: its observer still has to be blind.</summary>
public sealed record JudgingView(
    [property: Description("With which it is gone on with; null when it is over or cannot be.")] string? Id,
    [property: Description("Stands for it in addresses.")] string Key,
    DateTimeOffset BegunAt, DateTimeOffset JudgedAt, [property: Description("When it was dropped; null while it speaks.")] DateTimeOffset? DroppedAt, string Source, double PrintWidthMm, double ViewingDistanceMm, string Tone, string Treatment, [property: Description("By how much the dark was lifted; null where that was not kept.")] double? DarkLiftStops,
    int Answers, bool IsFinished, JudgedLimitView? Clean, JudgedLimitView? Stretch, bool? AreLimitsKept, IReadOnlyList<string>? Words);
