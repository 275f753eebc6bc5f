using Leafstop.Core.Judging.Curves;
using MathNet.Numerics;

namespace Leafstop.Core.Judging;

/// <summary>What the answers to one question say about its limit: a normal curve over stops, its place, spread, guesses and lapses all unknown.</summary>
/// <remarks>Places are evenly likely over what the ladder shows and a stop and a half beyond. Spread: even in its logarithm but for a gentle fall away from 1/2 stop. Guesses and
/// lapses: mostly small; guesses up to two fifths and not rare, because blank checks measure those, and a prior that hardly allows them would take a finger that objects by itself for a lower limit. "Unsure" is half an answer each way: its likelihood is √(p(1 − p)).</remarks>
internal sealed class LimitBelief
{
    private const double Beyond = 1.5;
    private const int GridPerStop = 12;

    private readonly CurveBelief _belief;
    private double _yes;
    private int _answers;

    private LimitBelief(CurveSpace space) => _belief = new CurveBelief(space);

    public CurveBelief Curves => _belief;

    public double Value => _belief.Quantile(0.5);

    public double Low => _belief.Quantile(0.025);

    public double High => _belief.Quantile(0.975);

    public double HalfWidth => (High - Low) / 2;

    /// <summary>How many times likelier the answers are when they may depend on the noise than when one and the same chance is behind all of them (evenly likely from 0 to 1).</summary>
    public double LogDependence =>
        _belief.LogEvidence - (SpecialFunctions.GammaLn(_yes + 1) + SpecialFunctions.GammaLn(_answers - _yes + 1) - SpecialFunctions.GammaLn(_answers + 2));

    public static CurveSpace Space(JudgingLadder ladder)
    {
        double low = ladder.Cleanest.EquivalentStops - Beyond, high = ladder.Noisiest.EquivalentStops + Beyond;
        int points = (int)Math.Round((high - low) * GridPerStop) + 1;
        double[] spreads = [0.12, 0.18, 0.27, 0.4, 0.6, 0.9, 1.35, 2];
        return new CurveSpace(
            SigmoidShape.Normal,
            Enumerable.Range(0, points).Select(i => low + (high - low) * i / (points - 1)),
            spreads.Select(s => new Weighted(s, Math.Exp(-0.5 * Math.Pow(Math.Log(s / 0.42) / 0.7, 2)))),
            [new(0.005, 3), new(0.02, 3), new(0.06, 2), new(0.12, 1.5), new(0.2, 1), new(0.3, 0.7), new(0.42, 0.5)],
            [new(0.005, 4), new(0.02, 3), new(0.06, 1), new(0.15, 0.25)]);
    }

    public static LimitBelief After(CurveSpace space, JudgingQuestion question, IEnumerable<JudgingAnswer> answers)
    {
        LimitBelief belief = new(space);
        foreach (JudgingAnswer answer in answers)
        {
            if (answer.Question == question)
                belief.Take(answer.Shown.EquivalentStops, question.Against(answer.Reply));
        }
        return belief;
    }

    public void Take(double stops, double against)
    {
        _belief.Take(stops, against);
        _yes += against;
        _answers++;
    }

    /// <summary>True when no more answers are asked for.</summary>
    public bool IsEnough(JudgingLadder ladder) => _answers >= JudgingRules.MostAnswers || (_answers >= JudgingRules.FewestAnswers
        && (HalfWidth <= JudgingRules.WantedHalfWidthStops || IsAbove(ladder) || IsBelow(ladder)));

    /// <summary>True when the limit lies above all that can be shown, with 97.5 %.</summary>
    public bool IsAbove(JudgingLadder ladder) => Low > ladder.Noisiest.EquivalentStops;

    /// <summary>True when the limit lies below all that can be shown, with 97.5 %.</summary>
    public bool IsBelow(JudgingLadder ladder) => High < ladder.Cleanest.EquivalentStops;
}
