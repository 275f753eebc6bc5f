using Leafstop.Core.Viewing;

namespace Leafstop.Core.Judging;

/// <summary>What a judging is about. The same setup and the same answers always ask the same next question.</summary>
/// <param name="Seed">Decides every order and side; kept with the answers.</param>
/// <param name="Ladder">What can be shown.</param>
/// <param name="Tags">What the limits will hold for; the tone decides which crops are shown.</param>
public sealed record JudgingSetup(long Seed, JudgingLadder Ladder, LimitTags Tags);
