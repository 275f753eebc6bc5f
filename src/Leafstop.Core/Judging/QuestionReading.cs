using Leafstop.Core.Motion;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;

namespace Leafstop.Core.Judging;

/// <summary>What came of a question.</summary>
public enum LimitOutcome
{
    /// <summary>A limit with a half-width of a third of a stop or less.</summary>
    Reached,

    /// <summary>A limit, but less sure than that.</summary>
    Wide,

    /// <summary>Answers are still to come; what there is so far is shown, not used.</summary>
    Unfinished,

    /// <summary>The limit lies above the noisiest that could be shown.</summary>
    AboveLadder,

    /// <summary>The limit lies below the cleanest that could be shown.</summary>
    BelowLadder,

    /// <summary>The answers do not depend on the noise, or not enough to tell.</summary>
    NotByNoise,

    /// <summary>Too many objections without cause, blank checks refused among them: what disturbs is not the noise.</summary>
    BlanksRefused,

    /// <summary>The answers leave it open by more than <see cref="JudgingRules.WidestHalfWidthStops"/> either way.</summary>
    CannotSay,
}

/// <summary>How often the same level got the same answer.</summary>
/// <param name="Agreeing">Pairs of answers at one level that agree; "unsure" takes no part.</param>
/// <param name="Pairs">All such pairs.</param>
/// <param name="Expected">The share that would agree for a steady eye of this spread, 0.5 to 1.</param>
public sealed record RepeatConsistency(int Agreeing, int Pairs, double Expected);

/// <summary>How far a limit moved from the first answer to the last.</summary>
/// <param name="Stops">Stops; positive = more tolerant.</param>
/// <param name="StandardErrors">The same in its own standard errors.</param>
public sealed record LimitDrift(double Stops, double StandardErrors);

/// <summary>What the answers to one question say.</summary>
public sealed record QuestionReading
{
    /// <summary>The question.</summary>
    public required JudgingQuestion Question { get; init; }

    /// <summary>Answers, blank checks among them.</summary>
    public required int Answers { get; init; }

    /// <summary>Blank checks answered; "unsure" is left out.</summary>
    public required int Blanks { get; init; }

    /// <summary>Blank checks in which the cleanest picture was refused.</summary>
    public required int BlanksRefused { get; init; }

    /// <summary>Answers that speak against the noise, "unsure" left out; null where that was not kept.</summary>
    public int? Objections { get; init; }

    /// <summary>What came of it.</summary>
    public required LimitOutcome Outcome { get; init; }

    /// <summary>The limit in stops above ISO 100 with its 95 % interval, unrounded; what there is so far when unfinished, null where there is none.</summary>
    public Estimate? LimitStops { get; init; }

    /// <summary>Spread of the answers: from half to 84 % of objections, stops; null where there is no limit.</summary>
    public double? SpreadStops { get; init; }

    /// <summary>Agreement on repeats; null without any.</summary>
    public RepeatConsistency? Repeats { get; init; }

    /// <summary>How far the limit moved; null where that cannot be told.</summary>
    public LimitDrift? Drift { get; init; }

    /// <summary>True when there is a limit to keep.</summary>
    public bool HasLimit => Outcome is LimitOutcome.Reached or LimitOutcome.Wide;

    /// <summary>The limit at the nearest third, as its exact power; null without one. Judged limits are rounded to the nearest, because the error goes either way.</summary>
    public Iso? Limit => HasLimit ? ShownLevel.FromStops(Stops.Of(LimitStops!.Value.Value).NearestThird().Value) : null;

    /// <summary>Lower end of the 95 % interval, rounded outwards to a third; null without a limit.</summary>
    public Iso? Low => HasLimit ? ShownLevel.FromStops(Stops.Of(LimitStops!.Value.Low).ThirdAtOrBelow().Value) : null;

    /// <summary>Upper end of the 95 % interval, rounded outwards to a third; null without a limit.</summary>
    public Iso? High => HasLimit ? ShownLevel.FromStops(-Stops.Of(-LimitStops!.Value.High).ThirdAtOrBelow().Value) : null;

    /// <summary>The chance of refusing the cleanest picture, measured by the blank checks (Clopper and Pearson); null without any.</summary>
    public KeeperTrial? BlankRate => Blanks > 0 ? KeeperTrial.Of(BlanksRefused, Blanks) : null;

    /// <summary>The same with its objections counted anew from the answers, for one that was kept without them.</summary>
    /// <param name="answers">Answers to both questions.</param>
    public QuestionReading Counting(IEnumerable<JudgingAnswer> answers) =>
        this with { Objections = answers.Count(a => a.Question == Question && Question.Against(a.Reply) == 1) };

    internal static QuestionReading Of(JudgingQuestion question, JudgingLadder ladder, LimitBelief belief, IEnumerable<JudgingAnswer> all, bool isOver = false)
    {
        JudgingAnswer[] answers = [.. all.Where(a => a.Question == question)];
        JudgingAnswer[] blanks = [.. answers.Where(a => a.IsBlank && a.Reply != JudgingReply.Unsure)];
        int refused = blanks.Count(a => question.Against(a.Reply) == 1);
        LimitOutcome outcome = Outcomes(question, ladder, belief, answers, refused, isOver);
        bool isKnown = outcome is LimitOutcome.Reached or LimitOutcome.Wide || (outcome == LimitOutcome.Unfinished && answers.Length > 0);
        AnswerChecks checks = new(question, belief.Curves, answers);
        return new QuestionReading
        {
            Question = question,
            Answers = answers.Length,
            Blanks = blanks.Length,
            BlanksRefused = refused,
            Objections = answers.Count(a => question.Against(a.Reply) == 1),
            Outcome = outcome,
            LimitStops = isKnown ? new Estimate(belief.Value, belief.Low, belief.High) : null,
            SpreadStops = isKnown ? belief.Curves.Spread() : null,
            Repeats = checks.Repeats(),
            Drift = outcome is LimitOutcome.Reached or LimitOutcome.Wide ? checks.Drift() : null,
        };
    }

    private static LimitOutcome Outcomes(JudgingQuestion question, JudgingLadder ladder, LimitBelief belief, JudgingAnswer[] answers, int refused, bool isOver)
    {
        if (!isOver && !belief.IsEnough(ladder))
            return LimitOutcome.Unfinished;
        // One answer every time, up to the end of the ladder, says on which side the limit lies, and no more than that.
        double[] said = [.. answers.Select(a => question.Against(a.Reply)).Distinct().Take(2)];
        if (said is [0] && answers.Any(a => a.Shown.EquivalentStops >= ladder.Noisiest.EquivalentStops - Stops.Hair))
            return LimitOutcome.AboveLadder;
        if (said is [1] && answers.Any(a => a.Shown.EquivalentStops <= ladder.Cleanest.EquivalentStops + Stops.Hair))
            return LimitOutcome.BelowLadder;
        return said.Length == 1 || belief.LogDependence < Math.Log(JudgingRules.DependenceWanted) ? LimitOutcome.NotByNoise
            : refused >= JudgingRules.FewestBlanksRefused && belief.Curves.Guess() > JudgingRules.BlanksRefused ? LimitOutcome.BlanksRefused
            : belief.IsAbove(ladder) || belief.Value > ladder.Noisiest.EquivalentStops ? LimitOutcome.AboveLadder
            : belief.IsBelow(ladder) || belief.Value < ladder.Cleanest.EquivalentStops ? LimitOutcome.BelowLadder
            : belief.HalfWidth <= JudgingRules.WantedHalfWidthStops ? LimitOutcome.Reached
            : belief.HalfWidth <= JudgingRules.WidestHalfWidthStops ? LimitOutcome.Wide
            : LimitOutcome.CannotSay;
    }
}
