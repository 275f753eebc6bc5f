namespace Leafstop.Core.Developing;

/// <summary>The weighted mean of the two frames of a pair: the same brightness, less noise. It makes levels between those that were photographed.</summary>
/// <remarks>Weights w and 1 − w leave w² + (1 − w)² of the noise variance of one frame, 1 down to 1/2. Exact for noise that differs between the frames; what is the same in both, such as banding fixed
/// to the sensor, stays.</remarks>
public readonly record struct PairMix
{
    private readonly double _second;

    private PairMix(double second) => _second = second;

    /// <summary>The first frame alone.</summary>
    public static PairMix FirstAlone => default;

    /// <summary>The second frame alone.</summary>
    public static PairMix SecondAlone { get; } = new(1);

    /// <summary>Weight of the first frame, 0 to 1.</summary>
    public double First => 1 - _second;

    /// <summary>Weight of the second frame.</summary>
    public double Second => _second;

    /// <summary>Noise variance that is left of one frame's, 1/2 to 1.</summary>
    public double VarianceShare => First * First + Second * Second;

    /// <summary>How much more light would leave as little noise in a tone that photon noise rules, stops: 0 to 1.</summary>
    public double StopsCleaner => -Math.Log2(VarianceShare);

    /// <summary>Takes the weight of the first frame.</summary>
    /// <param name="first">0 to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">It is outside.</exception>
    public static PairMix OfFirst(double first) => first is >= 0 and <= 1
        ? new PairMix(1 - first)
        : throw new ArgumentOutOfRangeException(nameof(first), first, "A weight lies between 0 and 1.");

    /// <summary>The mix that leaves a share of the noise variance, the first frame being the heavier: w = (1 + √(2 v − 1)) / 2.</summary>
    /// <param name="share">1/2 to 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">Two frames can not leave so little, or so much.</exception>
    public static PairMix ForVarianceShare(double share) => share is >= 0.5 and <= 1
        ? OfFirst((1 + Math.Sqrt(2 * share - 1)) / 2)
        : throw new ArgumentOutOfRangeException(nameof(share), share, "Mixing two frames leaves between a half and all of the noise variance of one.");

    /// <summary>The mix of the noisier of two levels that stands between them, by the noise variance measured at each, at equal brightness; even steps of position are even steps of noise in stops.</summary>
    /// <param name="cleanerVariance">Noise variance of the cleaner level, any unit.</param>
    /// <param name="noisierVariance">That of the noisier level, same unit.</param>
    /// <param name="position">0 is the cleaner level, 1 the noisier.</param>
    /// <returns>Null where two frames of the noisier level do not get as clean: the levels lie further apart than a mix reaches.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A variance is not above zero, or the position is outside 0 to 1.</exception>
    public static PairMix? Between(double cleanerVariance, double noisierVariance, double position)
    {
        if (!(cleanerVariance > 0) || !(noisierVariance > 0)) throw new ArgumentOutOfRangeException(nameof(cleanerVariance), (cleanerVariance, noisierVariance), "A noise variance is above zero.");
        if (position is not (>= 0 and <= 1)) throw new ArgumentOutOfRangeException(nameof(position), position, "A position between two levels lies between 0 and 1.");
        double share = Math.Pow(cleanerVariance / noisierVariance, 1 - position);
        return share < 0.5 ? null : ForVarianceShare(Math.Min(1, share));
    }

    /// <summary>Mixes two values.</summary>
    public float Of(float first, float second) => (float)(First * first + Second * second);
}
