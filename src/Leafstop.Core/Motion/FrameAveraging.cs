using Leafstop.Core.Quantities;

namespace Leafstop.Core.Motion;

/// <summary>What several equal frames added together gain, and what they do to things that move.</summary>
/// <remarks>Frames equally exposed, tripod and light steady. What does not change between frames, such as banding and hot pixels, does not average away
/// without cap frames. Water becomes softer and longer, leaves ghost: average the rock and take the water from one frame.</remarks>
public static class FrameAveraging
{
    /// <summary>Light gained by the mean of n frames: log2 n stops, 4 frames are 2 stops. Row M-01: noise falls by √n.</summary>
    /// <param name="frames">1 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">No frame.</exception>
    public static Stops Gain(int frames)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(frames, 1);
        return Stops.FromRatio(frames);
    }

    /// <summary>The fewest frames whose mean gains so many stops: 2^stops, rounded up; null past two thousand million.</summary>
    public static int? FramesFor(Stops gain) => gain.Ratio < int.MaxValue
        ? Math.Max(1, (int)Math.Ceiling(gain.Ratio * (1 - Stops.Hair)))
        : null;

    /// <summary>Noise of the mean over noise of one frame: 1/√n. Row M-01.</summary>
    /// <param name="frames">1 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">No frame.</exception>
    public static double MeanNoise(int frames)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(frames, 1);
        return 1 / Math.Sqrt(frames);
    }

    /// <summary>Noise of the median over noise of one frame, for noise of normal distribution and an odd number of frames. Row M-02.</summary>
    /// <remarks>Derived: variance of the middle of n order statistics, ∫x²·f(x)dx with f(x) = n!/(m!)²·Φᵐ(1−Φ)ᵐφ, m = (n−1)/2, summed from −9 to 9. About
    /// 1.2533/√n when n is large: a median costs a third of the light a mean would keep.</remarks>
    /// <param name="frames">Odd, 1 to 999.</param>
    /// <exception cref="ArgumentOutOfRangeException">Even or out of range.</exception>
    public static double MedianNoise(int frames)
    {
        if (frames is < 1 or > 999 || frames % 2 == 0)
            throw new ArgumentOutOfRangeException(nameof(frames), frames, "The median is told for an odd number of frames, 1 to 999.");
        int half = (frames - 1) / 2;
        double front = MathNet.Numerics.SpecialFunctions.FactorialLn(frames) - 2 * MathNet.Numerics.SpecialFunctions.FactorialLn(half);
        const int steps = 7200;
        double sum = 0;
        // The integrand and its slope vanish at both ends, so that a plain sum is exact to rounding.
        for (int i = 0; i <= steps; i++)
        {
            double x = -9 + 18.0 * i / steps;
            double below = MathNet.Numerics.Distributions.Normal.CDF(0, 1, x), above = MathNet.Numerics.Distributions.Normal.CDF(0, 1, -x);
            if (below <= 0 || above <= 0) continue;
            sum += x * x * Math.Exp(front + half * (Math.Log(below) + Math.Log(above)) - x * x / 2);
        }
        return Math.Sqrt(sum * 18 / steps / Math.Sqrt(2 * Math.PI));
    }

    /// <summary>Roughness left of water whose light comes and goes at random, over that of an instant: several exposures added. Rows M-03 to M-05, M-10.</summary>
    /// <remarks>Derived: standard deviation of the mean of a process whose correlation falls as e^(−Δ/τ); τ is about the size of the texture over the speed of
    /// the water. For one long exposure √((2/x)(1 − (1 − e^(−x))/x)), x = T/τ. Gaps never make water rougher: they lengthen the record.</remarks>
    /// <param name="shutter">Each exposure.</param>
    /// <param name="frames">Exposures, 1 or more.</param>
    /// <param name="gap">From the end of one to the start of the next, not negative.</param>
    /// <param name="correlation">τ, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">Out of range.</exception>
    public static double WaterRoughness(ShutterTime shutter, int frames, TimeSpan gap, TimeSpan correlation)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(frames, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(gap, TimeSpan.Zero);
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(correlation, TimeSpan.Zero);
        double x = shutter.Seconds / correlation.TotalSeconds, apart = x + gap.TotalSeconds / correlation.TotalSeconds;
        // Below 1e-4 the closed forms lose digits; their series are 1 − x/3 and 1 there.
        double own = x < 1e-4 ? 1 - x / 3 : 2 / x * (1 + Math.Exp(-x) / x - 1 / x);
        double pair = x < 1e-4 ? 1 : Math.Pow(2 * Math.Sinh(Math.Min(x, 300) / 2) / x, 2);
        double variance = frames * own;
        for (int k = 1; k < frames; k++)
        {
            double between = x > 300 ? 0 : pair * Math.Exp(-k * apart);
            if (between == 0) break;
            variance += 2 * (frames - k) * between;
        }
        return Math.Sqrt(variance) / frames;
    }

    /// <summary>True when the median of a stack keeps something that passes; false when it removes it. Rows M-07 and M-08.</summary>
    /// <remarks>Derived: the middle of n frames shows the thing where it stands in more than half of them, so it stays, full width, when it is wider than
    /// (n−1)/2 steps. A median therefore removes people and keeps silk out of water (M-09): silk needs the mean.</remarks>
    /// <param name="width">Width along its path.</param>
    /// <param name="step">How far it goes from frame to frame.</param>
    /// <param name="frames">Odd, 1 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">An even number of frames or none.</exception>
    public static bool MedianKeeps(Length width, Length step, int frames)
    {
        if (frames < 1 || frames % 2 == 0)
            throw new ArgumentOutOfRangeException(nameof(frames), frames, "The median is told for an odd number of frames.");
        return width.Millimetres > (frames - 1) / 2 * step.Millimetres;
    }
}
