namespace Leafstop.Core.Judging.Curves;

/// <summary>How likely each curve of a space is after some answers (Bayes), and what another answer would tell about the threshold.</summary>
/// <remarks>The rule of the psi method (Kontsevich and Tyler 1999; PSY-17), with what is not asked for (spread, guesses, lapses) summed out before the entropy is taken, so that
/// answers are spent on the threshold alone. Entropies in nats.</remarks>
public sealed class CurveBelief
{
    private const double Negligible = 1e-9;

    private const int TwoWaySteps = 8192;

    private static readonly double[] TwoWayTable =
    [
        .. Enumerable.Range(0, TwoWaySteps + 1).Select(i => (double)i / TwoWaySteps).Select(p => p is > 0 and < 1 ? -p * Math.Log(p) - (1 - p) * Math.Log(1 - p) : 0),
    ];

    private readonly CurveSpace _space;
    private readonly double[] _weights;
    private double[]? _thresholdWeights;

    /// <summary>Belief before any answer.</summary>
    /// <param name="space">The curves held possible.</param>
    public CurveBelief(CurveSpace space)
    {
        _space = space;
        _weights = new double[space.Thresholds.Length * space.Spreads.Length * space.Guesses.Length * space.Lapses.Length];
        int at = 0;
        for (int t = 0; t < space.Thresholds.Length; t++)
        {
            foreach (Weighted spread in space.Spreads)
            {
                foreach (Weighted guess in space.Guesses)
                {
                    foreach (Weighted lapse in space.Lapses)
                        _weights[at++] = spread.Weight * guess.Weight * lapse.Weight / space.Thresholds.Length;
                }
            }
        }
    }

    /// <summary>Natural logarithm of how likely all answers so far were under the whole space.</summary>
    public double LogEvidence { get; private set; }

    /// <summary>How likely each threshold is; adds up to one.</summary>
    public ReadOnlySpan<double> ThresholdWeights => SummedThresholds();

    /// <summary>Takes an answer in.</summary>
    /// <param name="stimulus">What was shown.</param>
    /// <param name="yes">1 for the answer that the curve counts, 0 for the other, 0.5 for half of each ("unsure").</param>
    /// <exception cref="ArgumentOutOfRangeException">Not 0, 0.5 or 1.</exception>
    public void Take(double stimulus, double yes)
    {
        if (yes is not (0 or 0.5 or 1))
            throw new ArgumentOutOfRangeException(nameof(yes), yes, "An answer is 0, 0.5 or 1.");
        double[] rises = _space.Rises(stimulus);
        double sum = 0;
        int at = 0;
        foreach (double rise in rises)
        {
            foreach (Weighted guess in _space.Guesses)
            {
                foreach (Weighted lapse in _space.Lapses)
                {
                    double p = guess.Value + (1 - guess.Value - lapse.Value) * rise;
                    double likelihood = yes == 1 ? p : yes == 0 ? 1 - p : Math.Sqrt(p * (1 - p));
                    sum += _weights[at++] *= likelihood;
                }
            }
        }
        // With chances of 0 and 1 in the space an answer can be impossible; the grids of this program have none.
        if (!(sum > 0))
            throw new InvalidOperationException("No curve of the space allows these answers.");
        for (int i = 0; i < _weights.Length; i++)
            _weights[i] /= sum;
        LogEvidence += Math.Log(sum);
        _thresholdWeights = null;
    }

    /// <summary>Entropy of the threshold now, nats.</summary>
    public double Entropy() => -Sum(SummedThresholds(), w => w > 0 ? w * Math.Log(w) : 0);

    /// <summary>What the entropy of the threshold is expected to be after one more answer at a stimulus, nats.</summary>
    public double ExpectedEntropy(double stimulus) => Entropy() - ExpectedInformation([stimulus])[0];

    /// <summary>How much one more answer is expected to tell about the threshold, for each stimulus, nats.</summary>
    /// <param name="stimuli">What could be shown next.</param>
    public double[] ExpectedInformation(IReadOnlyList<double> stimuli)
    {
        int cells = _space.Thresholds.Length * _space.Spreads.Length;
        // With guess and lapse summed out the chance of the answer in a cell is floor + height · rise.
        double[] floors = new double[cells], heights = new double[cells], masses = new double[cells], gains = new double[stimuli.Count];
        for (int cell = 0, at = 0; cell < cells; cell++)
        {
            double floor = 0, height = 0, mass = 0;
            foreach (Weighted guess in _space.Guesses)
            {
                foreach (Weighted lapse in _space.Lapses)
                {
                    double weight = _weights[at++];
                    floor += weight * guess.Value;
                    height += weight * (1 - guess.Value - lapse.Value);
                    mass += weight;
                }
            }
            (floors[cell], heights[cell], masses[cell]) = (floor, height, mass);
        }
        // What is as good as ruled out tells nothing, and most cells soon are.
        int[] alive = [.. Enumerable.Range(0, cells).Where(cell => masses[cell] > Negligible)];
        for (int s = 0; s < gains.Length; s++)
        {
            double[] rises = _space.Rises(stimuli[s]);
            double all = 0, within = 0;
            for (int cell = 0; cell < cells; cell++)
                all += floors[cell] + heights[cell] * rises[cell];
            foreach (int cell in alive)
                within += masses[cell] * TwoWay((floors[cell] + heights[cell] * rises[cell]) / masses[cell]);
            gains[s] = TwoWay(all) - within;
        }
        return gains;
    }

    /// <summary>The threshold below which this share of the belief lies, between grid points by straight lines.</summary>
    /// <param name="share">Above 0 and below 1.</param>
    public double Quantile(double share)
    {
        double[] weights = SummedThresholds();
        double below = 0;
        for (int t = 0; t < weights.Length; t++)
        {
            if (below + weights[t] >= share && weights[t] > 0)
            {
                // Each point stands for the span half-way to its neighbours.
                double low = t == 0 ? _space.Thresholds[0] : (_space.Thresholds[t - 1] + _space.Thresholds[t]) / 2;
                double high = t == weights.Length - 1 ? _space.Thresholds[^1] : (_space.Thresholds[t] + _space.Thresholds[t + 1]) / 2;
                return low + (high - low) * (share - below) / weights[t];
            }
            below += weights[t];
        }
        return _space.Thresholds[^1];
    }

    /// <summary>How much of the belief lies above a threshold.</summary>
    public double Above(double threshold)
    {
        double[] weights = SummedThresholds();
        double sum = 0;
        for (int t = 0; t < weights.Length; t++)
            sum += _space.Thresholds[t] > threshold ? weights[t] : 0;
        return sum;
    }

    /// <summary>Mean spread.</summary>
    public double Spread() => Mean((spread, _, _) => spread);

    /// <summary>Mean guess.</summary>
    public double Guess() => Mean((_, guess, _) => guess);

    /// <summary>Mean lapse.</summary>
    public double Lapse() => Mean((_, _, lapse) => lapse);

    private double Mean(Func<double, double, double, double> value)
    {
        double sum = 0;
        int at = 0;
        for (int t = 0; t < _space.Thresholds.Length; t++)
        {
            foreach (Weighted spread in _space.Spreads)
            {
                foreach (Weighted guess in _space.Guesses)
                {
                    foreach (Weighted lapse in _space.Lapses)
                        sum += _weights[at++] * value(spread.Value, guess.Value, lapse.Value);
                }
            }
        }
        return sum;
    }

    private double[] SummedThresholds()
    {
        if (_thresholdWeights is { } known)
            return known;
        int each = _weights.Length / _space.Thresholds.Length;
        double[] sums = new double[_space.Thresholds.Length];
        for (int i = 0; i < _weights.Length; i++)
            sums[i / each] += _weights[i];
        return _thresholdWeights = sums;
    }

    // By straight lines through a table: h'' · step² / 8 is below 1e-6 nat from p = 0.002 on, and the same bits on every machine.
    private static double TwoWay(double p)
    {
        double at = Math.Clamp(p, 0, 1) * TwoWaySteps;
        int below = Math.Min((int)at, TwoWaySteps - 1);
        return TwoWayTable[below] + (at - below) * (TwoWayTable[below + 1] - TwoWayTable[below]);
    }

    private static double Sum(double[] values, Func<double, double> of)
    {
        double sum = 0;
        foreach (double value in values)
            sum += of(value);
        return sum;
    }
}
