using Leafstop.Core.Viewing;

namespace Leafstop.Core.Judging;

/// <summary>What a judging says about the two limits.</summary>
/// <param name="Tags">What they hold for.</param>
/// <param name="Clean">The question of the clean limit.</param>
/// <param name="Stretch">The question of the stretch limit.</param>
public sealed record JudgingResult(LimitTags Tags, QuestionReading Clean, QuestionReading Stretch);
