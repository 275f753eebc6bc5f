using Leafstop.Core.Judging.Curves;

namespace Leafstop.Core.Judging;

/// <summary>Whether the answers to a question keep faith with each other: on repeats, and from first to last.</summary>
internal sealed class AnswerChecks(JudgingQuestion question, CurveBelief belief, IReadOnlyList<JudgingAnswer> answers)
{
    private const int FewestForDrift = 15;

    private readonly AnswerCurve _curve = new(SigmoidShape.Normal, belief.Quantile(0.5), belief.Spread(), belief.Guess(), belief.Lapse());

    /// <summary>Every pair of answers to one level. A steady eye agrees with itself with p² + (1 − p)².</summary>
    public RepeatConsistency? Repeats()
    {
        int agreeing = 0, pairs = 0;
        double expected = 0;
        foreach (IGrouping<double, JudgingAnswer> level in answers.Where(a => a.Reply != JudgingReply.Unsure).GroupBy(a => a.Shown.EquivalentStops))
        {
            int against = level.Count(a => question.Against(a.Reply) == 1), count = level.Count(), other = count - against;
            int here = count * (count - 1) / 2;
            double p = _curve.At(level.Key);
            agreeing += (against * (against - 1) + other * (other - 1)) / 2;
            pairs += here;
            expected += here * (p * p + (1 - p) * (1 - p));
        }
        return pairs > 0 ? new RepeatConsistency(agreeing, pairs, expected / pairs) : null;
    }

    /// <summary>The score test for a limit that moves evenly in time: residuals against time, weighted as the curve's slope allows. Derived from the likelihood; first order.</summary>
    public LimitDrift? Drift()
    {
        if (answers.Count < FewestForDrift)
            return null;
        // Residual and weight of each answer with respect to the place of the curve.
        (double Time, double Score, double Weight)[] terms =
        [
            .. answers.Select((answer, i) =>
            {
                double x = answer.Shown.EquivalentStops, p = _curve.At(x), z = (x - _curve.Place) / _curve.Spread;
                double slope = -(1 - _curve.Guess - _curve.Lapse) * Math.Exp(-z * z / 2) / (_curve.Spread * Math.Sqrt(2 * Math.PI));
                double scale = slope / (p * (1 - p));
                return ((double)i / (answers.Count - 1), (question.Against(answer.Reply) - p) * scale, slope * scale);
            }),
        ];
        double weight = terms.Sum(t => t.Weight);
        double middle = terms.Sum(t => t.Weight * t.Time) / weight;
        double information = terms.Sum(t => t.Weight * (t.Time - middle) * (t.Time - middle));
        double score = terms.Sum(t => t.Score * (t.Time - middle));
        return information > 0 ? new LimitDrift(score / information, score / Math.Sqrt(information)) : null;
    }
}
