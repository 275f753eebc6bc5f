using MathNet.Numerics;

namespace Leafstop.Core.Judging.Curves;

/// <summary>The chance of an answer against what is shown: guess + (1 − guess − lapse) · F(x).</summary>
/// <remarks>The usual psychometric curve; Weibull form as in Watson and Pelli 1983 (PSY-09), logistic as in PSY-11. Normal and logistic take F((x − place) / spread); Weibull takes
/// 1 − exp(−(x / place)^spread), where the "spread" is the slope and a larger one is steeper.</remarks>
/// <param name="Shape">F.</param>
/// <param name="Place">Where it turns, in the unit of the stimulus; above zero for Weibull.</param>
/// <param name="Spread">How slowly it turns, in the unit of the stimulus, above zero; the slope for Weibull.</param>
/// <param name="Guess">Chance of the answer where nothing is seen, 0 to 1; 0.5 for a choice of two.</param>
/// <param name="Lapse">Chance that the answer is missing where all is seen, 0 to 1 − guess.</param>
public readonly record struct AnswerCurve(SigmoidShape Shape, double Place, double Spread, double Guess, double Lapse)
{
    /// <summary>The chance of the answer at a stimulus, 0 to 1.</summary>
    /// <param name="stimulus">In the unit of the place; not below zero for Weibull.</param>
    public double At(double stimulus) => Guess + (1 - Guess - Lapse) * Rise(Shape, stimulus, Place, Spread);

    /// <summary>F alone, without guesses and lapses.</summary>
    /// <param name="shape">Which one.</param>
    /// <param name="stimulus">In the unit of the place.</param>
    /// <param name="place">Where it turns.</param>
    /// <param name="spread">Spread or slope.</param>
    public static double Rise(SigmoidShape shape, double stimulus, double place, double spread) => shape switch
    {
        SigmoidShape.Normal => 0.5 * SpecialFunctions.Erfc((place - stimulus) / (spread * Constants.Sqrt2)),
        SigmoidShape.Logistic => 1 / (1 + Math.Exp((place - stimulus) / spread)),
        _ => -Math.Exp(-Math.Pow(Math.Max(0, stimulus) / place, spread)) + 1,
    };
}
