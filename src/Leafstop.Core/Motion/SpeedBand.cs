using Leafstop.Core.Quantities;
using Leafstop.Core.Text;

namespace Leafstop.Core.Motion;

/// <summary>A speed that is known within a band.</summary>
/// <param name="Best">Best value.</param>
/// <param name="Low">Lower end.</param>
/// <param name="High">Upper end.</param>
public readonly record struct SpeedBand(Speed Best, Speed Low, Speed High)
{
    /// <summary>How many times the best value the upper end is; 1 at rest.</summary>
    public double Factor => Best.MetresPerSecond > 0 ? High.MetresPerSecond / Best.MetresPerSecond : 1;

    /// <summary>A band of a factor either way.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The factor is below one.</exception>
    public static SpeedBand WithinFactor(Speed best, double factor) => double.IsFinite(factor) && factor >= 1
        ? new SpeedBand(best, Speed.FromMetresPerSecond(best.MetresPerSecond / factor), Speed.FromMetresPerSecond(best.MetresPerSecond * factor))
        : throw new ArgumentOutOfRangeException(nameof(factor), factor, "The factor of a band is one or more.");

    /// <summary>A band between two ends, best in the middle of their ratio.</summary>
    internal static SpeedBand Between(double low, double high) => new(
        Speed.FromMetresPerSecond(Math.Sqrt(low * high)), Speed.FromMetresPerSecond(low), Speed.FromMetresPerSecond(high));

    /// <summary>"2.43 cm/s (0.811 cm/s to 7.3 cm/s, a factor of 3 either way)"; a band that is not even is given by its ends alone.</summary>
    public string ToDisplay()
    {
        string ends = $"{Best.ToDisplay()} ({Low.ToDisplay()} to {High.ToDisplay()}";
        bool isEven = Best.MetresPerSecond > 0 && Factor > 1 && Math.Abs(Low.MetresPerSecond * Factor / Best.MetresPerSecond - 1) < 1e-6;
        return isEven ? $"{ends}, a factor of {Written.Short(Factor)} either way)" : $"{ends})";
    }
}
