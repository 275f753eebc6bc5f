using System.Collections.Immutable;

namespace Leafstop.Core.Judging;

/// <summary>One picture to be judged, as a surface may know it: the ISO is not in it.</summary>
/// <param name="Token">Stands for the trial when its picture is asked for and when it is answered; tells nothing else.</param>
/// <param name="Number">1 and up over both questions.</param>
/// <param name="Question">What is asked.</param>
/// <param name="Regions">The crops to show side by side, from left to right.</param>
/// <param name="IsMirrored">True when every crop is shown left to right, so that no pattern of grain is learnt by heart.</param>
public sealed record JudgingTrial(string Token, int Number, JudgingQuestion Question, ImmutableArray<CropRegion> Regions, bool IsMirrored);

/// <summary>How the picture of a trial is made; for the host that makes it, not for the surface that shows it.</summary>
/// <param name="Level">ISO and weights.</param>
/// <param name="IsSecondFrameFirst">True when the second frame of the pair has <see cref="ShownLevel.Weight"/>, so that one level is not always the same grain.</param>
public sealed record TrialPicture(ShownLevel Level, bool IsSecondFrameFirst);

/// <summary>An answer as it is kept.</summary>
/// <param name="Number">Number of its trial.</param>
/// <param name="Question">What was asked.</param>
/// <param name="Shown">What was shown.</param>
/// <param name="IsBlank">True for a blank check.</param>
/// <param name="Reply">What was answered.</param>
public sealed record JudgingAnswer(int Number, JudgingQuestion Question, ShownLevel Shown, bool IsBlank, JudgingReply Reply);
