using System.Collections.Immutable;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Leafstop.Core.Judging;
using Leafstop.Core.Viewing;

namespace Leafstop.Storage.Judgements;

/// <summary>Where a judging took place.</summary>
public enum JudgingSource
{
    /// <summary>On the screen, one picture after the other.</summary>
    Screen,

    /// <summary>On a paper strip.</summary>
    Paper,
}

/// <summary>A blind judging as it is kept: every answer, and what they said on that day.</summary>
/// <remarks>What was said is kept and not worked out anew, so that a later version of the fit does not change the past.</remarks>
public sealed record KeptJudging
{
    /// <summary>When it began, UTC, to the second; with the source and the seed it tells judgings apart.</summary>
    public required DateTimeOffset BegunAt { get; init; }

    /// <summary>When the last answer came, UTC, to the second.</summary>
    public required DateTimeOffset JudgedAt { get; init; }

    /// <summary>True when it came from a file.</summary>
    public bool IsImported { get; init; }

    /// <summary>Screen or paper.</summary>
    public required JudgingSource Source { get; init; }

    /// <summary>Seed of the session, or number of the strip.</summary>
    public required long Seed { get; init; }

    /// <summary>The ISOs that could be shown, lowest first.</summary>
    public required ImmutableArray<LadderIso> Ladder { get; init; }

    /// <summary>Every answer, in order.</summary>
    public required ImmutableArray<JudgingAnswer> Answers { get; init; }

    /// <summary>What the answers said, with the tags.</summary>
    public required JudgingResult Result { get; init; }

    /// <summary>What its pictures are made from; null for one on paper, from a file, or kept before scenes were.</summary>
    public KeptScene? Scene { get; init; }

    /// <summary>When the person dropped it, UTC, to the second: it stays in the history and speaks no more. Null while it speaks.</summary>
    public DateTimeOffset? DroppedAt { get; init; }

    /// <summary>The limit in <see cref="Result"/> that an older judging found; null for what was judged here. Set where judgings speak, never kept.</summary>
    public BorrowedLimit? Borrowed { get; init; }

    /// <summary>Stands for it in addresses: its begin and a mark of source and seed, which it does not give away.</summary>
    public string Key => string.Create(CultureInfo.InvariantCulture, $"{BegunAt.UtcDateTime:yyyyMMdd'T'HHmmss'Z'}-{Mark}");

    /// <summary>True when answers are still to come.</summary>
    public bool IsUnfinished => Result.Clean.Outcome == LimitOutcome.Unfinished || Result.Stretch.Outcome == LimitOutcome.Unfinished;

    /// <summary>What is kept of a session on the screen, finished or not.</summary>
    /// <param name="session">The session.</param>
    /// <param name="begunAt">When it began; the same at every save.</param>
    /// <param name="now">Time of the last answer, passed in by the host.</param>
    public static KeptJudging Of(JudgingSession session, DateTimeOffset begunAt, DateTimeOffset now) => new()
    {
        BegunAt = ToSecond(begunAt),
        JudgedAt = ToSecond(now),
        Source = JudgingSource.Screen,
        Seed = session.Setup.Seed,
        Ladder = session.Setup.Ladder.Isos,
        Answers = session.Answers,
        Result = session.Result(),
    };

    /// <summary>What is kept of a paper strip.</summary>
    /// <param name="answers">The typed answers.</param>
    /// <param name="result">What they say.</param>
    /// <param name="now">Time, passed in by the host.</param>
    public static KeptJudging Of(PaperAnswers answers, JudgingResult result, DateTimeOffset now) => new()
    {
        BegunAt = ToSecond(now),
        JudgedAt = ToSecond(now),
        Source = JudgingSource.Paper,
        Seed = answers.Key.Seed,
        Ladder = answers.Key.Ladder.Isos,
        Answers = answers.ToAnswers(),
        Result = result,
    };

    /// <summary>The session, to go on with.</summary>
    /// <exception cref="InvalidOperationException">This was judged on paper.</exception>
    /// <exception cref="ArgumentException">Answers and ladder do not belong together.</exception>
    public JudgingSession Resume() => Source == JudgingSource.Screen
        ? JudgingSession.Resume(new JudgingSetup(Seed, JudgingLadder.Of(Ladder), Result.Tags), Answers)
        : throw new InvalidOperationException("A judging on paper is not resumed: type all answers again.");

    /// <summary>The limits that were found, with the day and how sure they are; null where there are none.</summary>
    /// <exception cref="ArgumentException">The tags lack body, tone or treatment.</exception>
    public NoiseLimits? ToLimits() => Result.ToLimits(DateOnly.FromDateTime(JudgedAt.UtcDateTime));

    /// <summary>True when both are the same judging, wherever they came from.</summary>
    public bool IsSameAs(KeptJudging other) => (BegunAt, Source, Seed) == (other.BegunAt, other.Source, other.Seed);

    private string Mark => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(string.Create(CultureInfo.InvariantCulture, $"{Source} {Seed} {BegunAt.UtcTicks}"))).AsSpan(0, 4));

    private static DateTimeOffset ToSecond(DateTimeOffset time) => DateTimeOffset.FromUnixTimeSeconds(time.ToUnixTimeSeconds());
}
