using Leafstop.Core.Quantities;
using MathNet.Numerics.RootFinding;

namespace Leafstop.Core.Motion;

/// <summary>Length and speed of a wave of one period: linear theory.</summary>
/// <remarks>Rows. The crest runs at this speed; the water in it moves far slower until it breaks. Never turn your back on the sea: the large wave
/// keeps to no table, and local warnings come first.</remarks>
/// <param name="WaveLength">Crest to crest.</param>
/// <param name="CrestSpeed">Speed of the crest.</param>
public sealed record SeaWave(Length WaveLength, Speed CrestSpeed)
{
    /// <summary>Height over depth at which a lone wave breaks: 0.78 (A-14, after Kamphuis 2000).</summary>
    public const double BreakingShare = 0.78;

    /// <summary>In deep water: L = gT²/2π, c = gT/2π. Row A-11.</summary>
    /// <param name="period">Crest to crest in time, 0.1 to 100 s.</param>
    /// <exception cref="ArgumentOutOfRangeException">Out of range.</exception>
    public static SeaWave InDeepWater(TimeSpan period)
    {
        double t = Seconds(period), speed = FallingWater.Gravity * t / (2 * Math.PI);
        return new SeaWave(Length.FromMetres(speed * t), Speed.FromMetresPerSecond(speed));
    }

    /// <summary>At any depth: ω² = gk·tanh(kd), solved for k. Row A-13.</summary>
    /// <param name="period">Crest to crest in time, 0.1 to 100 s.</param>
    /// <param name="depth">0.01 m to 11 km.</param>
    /// <exception cref="ArgumentOutOfRangeException">Out of range.</exception>
    public static SeaWave AtDepth(TimeSpan period, Length depth)
    {
        double t = Seconds(period), d = depth.Metres;
        if (!(d is >= 0.01 and <= 11_000))
            throw new ArgumentOutOfRangeException(nameof(depth), d, "A depth is from 1 cm to 11 km.");
        double omega = 2 * Math.PI / t, target = omega * omega * d / FallingWater.Gravity;
        // x·tanh x = target: x lies above √target (shallow) and above target (deep), and below their sum.
        double x = Brent.FindRoot(kd => kd * Math.Tanh(kd) - target, Math.Max(target, Math.Sqrt(target)) * (1 - 1e-9), target + Math.Sqrt(target), 1e-13, 200);
        double length = 2 * Math.PI * d / x;
        return new SeaWave(Length.FromMetres(length), Speed.FromMetresPerSecond(length / t));
    }

    /// <summary>Speed of any long wave over shallow water: √(gd). Row A-12.</summary>
    public static Speed InShallowWater(Length depth) => StreamFlow.AtFroude(depth, 1);

    /// <summary>Speed of the crest of a breaker of a height: √(g·H/0.78). Row A-14.</summary>
    public static Speed BreakingCrest(Length height) => InShallowWater(Length.FromMetres(height.Metres / BreakingShare));

    private static double Seconds(TimeSpan period) => period.TotalSeconds is >= 0.1 and <= 100
        ? period.TotalSeconds
        : throw new ArgumentOutOfRangeException(nameof(period), period, "The period of a wave is from 0.1 to 100 s.");
}
