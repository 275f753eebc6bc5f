using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.Optimization;

namespace Leafstop.Core.Judging.Curves;

/// <summary>Answers to one stimulus.</summary>
/// <param name="Stimulus">What was shown.</param>
/// <param name="Yes">Answers that the curve counts.</param>
/// <param name="Count">All answers, above zero.</param>
public readonly record struct AnswerCount(double Stimulus, double Yes, double Count);

/// <summary>The curve under which the answers are likeliest (maximum likelihood), with its deviance.</summary>
/// <remarks>Checked by PSY-11, PSY-12 and PSY-14. The limits themselves are read from <see cref="CurveBelief"/>, whose intervals hold after few answers; this fit is the witness that
/// shares no code with it, and what is used where answers are many.</remarks>
/// <param name="Curve">The curve.</param>
/// <param name="Deviance">Twice the log-likelihood that is missing to a curve through every point.</param>
public sealed record CurveFit(AnswerCurve Curve, double Deviance)
{
    /// <summary>Fits place, spread and, where allowed, lapse.</summary>
    /// <param name="shape">Shape of the rise.</param>
    /// <param name="answers">At least two different stimuli.</param>
    /// <param name="guess">Chance of the answer where nothing is seen, fixed.</param>
    /// <param name="largestLapse">The lapse is searched from 0 to this; 0 fixes it.</param>
    /// <returns>The fit; null where the search does not settle, because the answers fit any steepness.</returns>
    /// <exception cref="ArgumentException">Fewer than two stimuli, or counts that cannot be.</exception>
    public static CurveFit? Of(SigmoidShape shape, IReadOnlyList<AnswerCount> answers, double guess, double largestLapse)
    {
        if (answers.Select(a => a.Stimulus).Distinct().Take(2).Count() < 2)
            throw new ArgumentException("A curve needs answers to at least two different stimuli.", nameof(answers));
        if (answers.Any(a => !(a.Count > 0) || !(a.Yes >= 0) || a.Yes > a.Count || !double.IsFinite(a.Stimulus) || (shape == SigmoidShape.Weibull && a.Stimulus <= 0)))
            throw new ArgumentException("Counts are between none and all, and a Weibull curve has stimuli above zero.", nameof(answers));
        double span = answers.Max(a => a.Stimulus) - answers.Min(a => a.Stimulus), middle = answers.Average(a => a.Stimulus);
        // Searched over numbers without bounds: place and logarithm of the spread in units of the data, and an angle for the lapse.
        AnswerCurve Curve(Vector<double> v) => new(
            shape,
            shape == SigmoidShape.Weibull ? middle * Math.Exp(v[0]) : middle + span * v[0],
            shape == SigmoidShape.Weibull ? 3 * Math.Exp(v[1]) : span / 6 * Math.Exp(v[1]),
            guess,
            largestLapse * Math.Sin(v[2]) * Math.Sin(v[2]));
        var deviance = ObjectiveFunction.Value(v => DevianceOf(Curve(v), answers));
        Vector<double> best = Vector<double>.Build.Dense([0, 0, 0.3]);
        try
        {
            // A simplex that has shrunk in a corner is spread out anew from where it came to.
            for (int round = 0; round < 3; round++)
                best = NelderMeadSimplex.Minimum(deviance, best, 1e-12, 5000).MinimizingPoint;
        }
        catch (MaximumIterationsException)
        {
            return null;
        }
        AnswerCurve curve = Curve(best);
        return double.IsFinite(curve.Place) && Math.Abs(best[1]) < 6 ? new CurveFit(curve, DevianceOf(curve, answers)) : null;
    }

    private static double DevianceOf(AnswerCurve curve, IReadOnlyList<AnswerCount> answers)
    {
        double sum = 0;
        foreach (AnswerCount a in answers)
        {
            double p = Math.Clamp(curve.At(a.Stimulus), 1e-12, 1 - 1e-12);
            sum += Part(a.Yes, a.Count * p) + Part(a.Count - a.Yes, a.Count * (1 - p));
        }
        return 2 * sum;
    }

    private static double Part(double seen, double expected) => seen > 0 ? seen * Math.Log(seen / expected) : 0;
}
