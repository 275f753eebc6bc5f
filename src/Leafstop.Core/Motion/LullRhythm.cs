using Leafstop.Core.Quantities;
using MathNet.Numerics;
using MathNet.Numerics.Distributions;

namespace Leafstop.Core.Motion;

/// <summary>Lulls and gusts that take turns, and what frames shot into them are worth.</summary>
/// <remarks>Worked out for a two-state Markov process: lulls and gusts of exponential length with the means given, independent of each other
/// (checked by W-23 and W-24). Real gusts keep no such law; take the two means from watching the grass and the answer as a guide. A frame is
/// good when the lull lasts from its start to its end.</remarks>
public sealed record LullRhythm
{
    private readonly double lull;
    private readonly double gust;

    private LullRhythm(double lullSeconds, double gustSeconds) => (lull, gust) = (lullSeconds, gustSeconds);

    /// <summary>Mean length of a lull.</summary>
    public TimeSpan MeanLull => TimeSpan.FromSeconds(lull);

    /// <summary>Mean length of a gust.</summary>
    public TimeSpan MeanGust => TimeSpan.FromSeconds(gust);

    /// <summary>The share of the time that is lull.</summary>
    public Chance LullShare => Chance.Of(lull / (lull + gust));

    /// <summary>Takes the two means.</summary>
    /// <exception cref="ArgumentOutOfRangeException">One of them is not above zero.</exception>
    public static LullRhythm Of(TimeSpan meanLull, TimeSpan meanGust)
    {
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(meanLull, TimeSpan.Zero);
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(meanGust, TimeSpan.Zero);
        return new LullRhythm(meanLull.TotalSeconds, meanGust.TotalSeconds);
    }

    /// <summary>The chance that a frame begun at any moment lies whole within a lull: τL/(τL+τG)·e^(−t/τL).</summary>
    public Chance OneFrame(ShutterTime shutter) => Chance.Of(LullShare.Share * Staying(shutter));

    /// <summary>The chance of at least one good frame when frames are so far apart that each is a fresh try.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A negative number of frames.</exception>
    public Chance AtLeastOneIndependent(ShutterTime shutter, int frames) => FrameOdds.AtLeastOne(OneFrame(shutter), frames);

    /// <summary>The chance of at least one good frame of a run at even spacing, the first begun at any moment.</summary>
    /// <remarks>Derived: the chances of being in a lull or a gust with no good frame so far are carried from frame to frame; a frame takes away
    /// the part that stays in the lull throughout.</remarks>
    /// <param name="shutter">Exposure time of each frame.</param>
    /// <param name="frames">Number of frames, 0 or more.</param>
    /// <param name="spacing">From the start of one frame to the start of the next, not shorter than the exposure.</param>
    /// <exception cref="ArgumentOutOfRangeException">A negative number of frames, or frames that overlap.</exception>
    public Chance AtLeastOne(ShutterTime shutter, int frames, TimeSpan spacing)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(frames);
        double pause = spacing.TotalSeconds - shutter.Seconds;
        // One tick of a TimeSpan: 1/64 s is not a whole number of them.
        if (pause < -1e-7)
            throw new ArgumentOutOfRangeException(nameof(spacing), spacing, "The spacing runs from start to start and is not shorter than the exposure.");
        double inLull = LullShare.Share, inGust = LullShare.Not.Share;
        for (int frame = 0; frame < frames; frame++)
        {
            double good = inLull * Staying(shutter);
            (inLull, inGust) = After(shutter.Seconds, inLull, inGust);
            (inLull, inGust) = After(Math.Max(0, pause), inLull - good, inGust);
        }
        return Chance.Of(Math.Clamp(1 - inLull - inGust, 0, 1));
    }

    /// <summary>How many fresh tries a run of frames is worth; never more than the run has.</summary>
    /// <remarks>Derived: ln(1−P)/ln(1−p), P the chance of <see cref="AtLeastOne"/>, p that of <see cref="OneFrame"/>.</remarks>
    /// <exception cref="ArgumentOutOfRangeException">A negative number of frames, or frames that overlap.</exception>
    public double WorthFreshTries(ShutterTime shutter, int frames, TimeSpan spacing)
    {
        double one = OneFrame(shutter).Share;
        return one == 0 ? 0 : Math.Min(frames, SpecialFunctions.Log1p(-AtLeastOne(shutter, frames, spacing).Share) / SpecialFunctions.Log1p(-one));
    }

    /// <summary>The mean time that a wind of normal distribution stays below a level: Rice's formula, checked by W-26.</summary>
    /// <remarks>Φ(c) / (ν·e^(−c²/2)). Air under trees has long quiet spells and is not normal, so there this is a lower bound.</remarks>
    /// <param name="upCrossingsPerSecond">How often the wind rises through its mean, 0.0001 to 100.</param>
    /// <param name="levelInDeviations">The level c, in standard deviations above the mean; −1 is a good lull.</param>
    /// <exception cref="ArgumentOutOfRangeException">A rate or a level not from −4 to 4.</exception>
    public static TimeSpan MeanTimeBelow(double upCrossingsPerSecond, double levelInDeviations)
    {
        if (!(upCrossingsPerSecond is >= 1e-4 and <= 100))
            throw new ArgumentOutOfRangeException(nameof(upCrossingsPerSecond), upCrossingsPerSecond, "A rate of crossings is from 0.0001 to 100 a second.");
        if (!(levelInDeviations is >= -4 and <= 4))
            throw new ArgumentOutOfRangeException(nameof(levelInDeviations), levelInDeviations, "A level is from −4 to 4 standard deviations.");
        double share = Normal.CDF(0, 1, levelInDeviations);
        return TimeSpan.FromSeconds(share / (upCrossingsPerSecond * Math.Exp(-levelInDeviations * levelInDeviations / 2)));
    }

    private double Staying(ShutterTime shutter) => Math.Exp(-shutter.Seconds / lull);

    private (double InLull, double InGust) After(double seconds, double inLull, double inGust)
    {
        double total = inLull + inGust, settled = total * LullShare.Share;
        double later = settled + (inLull - settled) * Math.Exp(-seconds * (1 / lull + 1 / gust));
        return (later, total - later);
    }
}
