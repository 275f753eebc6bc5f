using Leafstop.Core.Judging;

namespace Leafstop.Storage.Judgements;

/// <summary>A limit that an older judging of the same tags found, standing in where the newest one found none.</summary>
/// <param name="Question">Whose limit it is.</param>
/// <param name="JudgedAt">When it was judged, UTC.</param>
public sealed record BorrowedLimit(JudgingQuestion Question, DateTimeOffset JudgedAt);
