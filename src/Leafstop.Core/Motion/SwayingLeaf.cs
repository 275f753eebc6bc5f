using Leafstop.Core.Quantities;

namespace Leafstop.Core.Motion;

/// <summary>A leaf, fern or twig that swings to and fro, as a sine of steady amplitude and frequency.</summary>
/// <remarks>Derived; rows B-07 to B-09 and W-16. Travel is the whole length swept during an exposure that begins at a random moment, at the leaf and not
/// on the sensor: <see cref="MovingSubject.ImageTravel"/> takes it there. Real leaves flutter irregularly and swing in more than one direction,
/// so lengths are good to a factor rather than to a decimal. An exposure of a whole period and more sweeps twice the amplitude and
/// nothing beyond it.</remarks>
public sealed record SwayingLeaf
{
    /// <summary>Mean frequency of tall grass, hertz: 16 cereals on five windy days, Plant Methods 15 (2019), s13007-019-0437-5 (W-21). Broad leaves flutter 1 to 10
    /// times a second, from memory (W-22): count them.</summary>
    public const double TallGrassHertz = 1.37;

    private SwayingLeaf(Length amplitude, double hertz) => (Amplitude, FrequencyHertz) = (amplitude, hertz);

    /// <summary>Largest distance from the middle; the whole swing is twice as wide.</summary>
    public Length Amplitude { get; }

    /// <summary>Swings to and fro in a second.</summary>
    public double FrequencyHertz { get; }

    /// <summary>Time of one swing to and fro.</summary>
    public ShutterTime Period => ShutterTime.FromSeconds(1 / FrequencyHertz);

    /// <summary>Speed through the middle: 2πfA.</summary>
    public Speed PeakSpeed => Speed.FromMetresPerSecond(2 * Math.PI * FrequencyHertz * Amplitude.Metres);

    /// <summary>Root mean square speed: the peak over √2.</summary>
    public Speed RootMeanSquareSpeed => Speed.FromMetresPerSecond(PeakSpeed.MetresPerSecond / Math.Sqrt(2));

    /// <summary>Takes amplitude and frequency.</summary>
    /// <param name="amplitude">Above zero.</param>
    /// <param name="hertz">0.001 to 1000.</param>
    /// <exception cref="ArgumentOutOfRangeException">Out of range.</exception>
    public static SwayingLeaf Of(Length amplitude, double hertz)
    {
        if (amplitude.Millimetres <= 0)
            throw new ArgumentOutOfRangeException(nameof(amplitude), amplitude.Millimetres, "The amplitude of a swing is above zero.");
        if (!(hertz is >= 0.001 and <= 1000))
            throw new ArgumentOutOfRangeException(nameof(hertz), hertz, "A leaf swings between 0.001 and 1000 times a second.");
        return new SwayingLeaf(amplitude, hertz);
    }

    /// <summary>Frequency of a branch from its length: 2.55·L^−0.59 hertz, L in metres.</summary>
    /// <remarks>Coder 2000 as quoted in Habel et al. 2009, read second-hand only (W-20): a guess where nothing was counted.</remarks>
    /// <param name="branch">0.1 to 20 m.</param>
    /// <exception cref="ArgumentOutOfRangeException">Out of range.</exception>
    public static double BranchHertz(Length branch) => branch.Metres is >= 0.1 and <= 20
        ? 2.55 * Math.Pow(branch.Metres, -0.59)
        : throw new ArgumentOutOfRangeException(nameof(branch), branch.Metres, "The law of branches is for 0.1 to 20 m.");

    /// <summary>The share of the time during which it moves slower than a speed: (2/π)·arcsin(v/peak). Half the peak: a third of the time.</summary>
    public Chance TimeBelow(Speed speed) =>
        Chance.Of(2 / Math.PI * Math.Asin(Math.Min(1, speed.MetresPerSecond / PeakSpeed.MetresPerSecond)));

    /// <summary>Mean travel: (2A/π)(πt/T + sin(πt/T)), and 2A from a whole period on. Row B-07.</summary>
    public Length MeanTravel(ShutterTime shutter)
    {
        double a = HalfPhase(shutter);
        return Of(2 / Math.PI * (a + Math.Sin(a)));
    }

    /// <summary>Least travel, at the turning point: A(1 − cos(πt/T)), and 2A from a whole period on. Row B-08.</summary>
    public Length LeastTravel(ShutterTime shutter) => Of(1 - Math.Cos(HalfPhase(shutter)));

    /// <summary>Most travel, through the middle: 2A·sin(πt/T), and 2A from half a period on. Row B-08.</summary>
    public Length MostTravel(ShutterTime shutter) => Of(2 * Math.Sin(Math.Min(HalfPhase(shutter), Math.PI / 2)));

    /// <summary>The chance that a frame begun at a random moment has no more travel than that. Row B-09.</summary>
    /// <remarks>With a = πt/T: (2/π)(arccos(1 − e/A) − a) when the leaf turns back in the frame, (2/π)·arcsin(e/(2A·sin a)) for larger travel. From half a
    /// period on it always turns back, and only the first form is left.</remarks>
    /// <param name="travel">Travel e at the leaf.</param>
    /// <param name="shutter">Exposure time.</param>
    public Chance ChanceWithin(Length travel, ShutterTime shutter)
    {
        double a = HalfPhase(shutter), e = travel.Millimetres / Amplitude.Millimetres, sine = Math.Sin(a);
        if (e >= 2) return Chance.Of(1);
        bool turnsBack = a >= Math.PI / 2 || e <= 2 * sine * sine;
        double share = turnsBack
            ? 2 / Math.PI * (Math.Acos(1 - e) - a)
            : 2 / Math.PI * Math.Asin(Math.Min(1, e / (2 * sine)));
        return Chance.Of(Math.Clamp(share, 0, 1));
    }

    /// <summary>The longest exposure that holds at every moment of the swing, also through the middle: (T/π)·arcsin(e/2A).</summary>
    /// <param name="travel">Travel e that is allowed at the leaf, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">Nothing is allowed.</exception>
    public HoldingShutter LongestShutter(Length travel)
    {
        double half = Allowed(travel) / 2;
        return HoldingShutter.FromSeconds(half >= 1 ? double.PositiveInfinity : Math.Asin(half) / (Math.PI * FrequencyHertz));
    }

    /// <summary>The longest exposure that holds in at least that share of frames.</summary>
    /// <param name="travel">Travel e that is allowed at the leaf, above zero.</param>
    /// <param name="share">Chance of one frame, above 0; 1 is <see cref="LongestShutter(Length)"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">Nothing is allowed, or no chance is asked for.</exception>
    public HoldingShutter LongestShutter(Length travel, Chance share)
    {
        double e = Allowed(travel);
        if (share.Share <= 0)
            throw new ArgumentOutOfRangeException(nameof(share), share.Share, "A chance above zero must be asked for.");
        if (e >= 2) return HoldingShutter.FromSeconds(double.PositiveInfinity);
        // Both forms of the chance, solved for a. The form that turns back holds where its own answer lies in its own range.
        double quarter = Math.PI / 2 * share.Share;
        double turning = Math.Acos(1 - e) - quarter;
        bool turnsBack = turning > 0 && (turning >= Math.PI / 2 || e <= 2 * Math.Pow(Math.Sin(turning), 2));
        double a = turnsBack ? turning : Math.Asin(Math.Min(1, e / (2 * Math.Sin(quarter))));
        return HoldingShutter.FromSeconds(a / (Math.PI * FrequencyHertz));
    }

    // a = πt/T, held at a whole period: nothing more is swept after it.
    private double HalfPhase(ShutterTime shutter) => Math.Min(Math.PI, Math.PI * FrequencyHertz * shutter.Seconds);

    private Length Of(double amplitudes) => Length.FromMillimetres(Math.Max(0, amplitudes * Amplitude.Millimetres));

    private double Allowed(Length travel) => travel.Millimetres > 0
        ? travel.Millimetres / Amplitude.Millimetres
        : throw new ArgumentOutOfRangeException(nameof(travel), travel.Millimetres, "The travel that is allowed is above zero.");
}
