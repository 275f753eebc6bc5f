using Leafstop.Core.Quantities;

namespace Leafstop.Core.Exposure;

/// <summary>What a warm sensor adds by itself during a long exposure.</summary>
/// <remarks>Dark signal doubles every 6 to 8 °C and is about 0.1 e⁻/s a pixel at 20 °C: common practice, no source. Its noise is the root of its electrons
/// (counting statistics). Good to a factor of a few between bodies; hot pixels come on top.</remarks>
public static class DarkSignal
{
    /// <summary>Electrons a second and pixel at 20 °C, a typical figure of the trade.</summary>
    public const double TypicalElectronsPerSecond = 0.1;

    /// <summary>The temperature of that figure, °C.</summary>
    public const double TypicalCelsius = 20;

    /// <summary>Slowest doubling, °C.</summary>
    public const double SlowDoubling = 8;

    /// <summary>Fastest doubling, °C.</summary>
    public const double FastDoubling = 6;

    /// <summary>Above this time limits are tested separately, with the temperature noted.</summary>
    public static readonly ShutterTime OwnLimitsAbove = ShutterTime.FromSeconds(10);

    /// <summary>From this time on long-exposure noise reduction, or cap frames of one's own, is worth a thought. 30 on the dial is 32 s.</summary>
    public static readonly ShutterTime SubtractionFrom = ShutterTime.FromSeconds(30);

    /// <summary>Noise from dark signal, electrons a pixel: √(0.1 · 2^((T − 20)/doubling) · t).</summary>
    /// <param name="shutter">Exposure time.</param>
    /// <param name="sensorCelsius">Temperature of the sensor, °C, not of the air; finite.</param>
    /// <param name="doublingCelsius">Degrees that double it, above zero.</param>
    public static double NoiseElectrons(ShutterTime shutter, double sensorCelsius, double doublingCelsius)
    {
        if (!double.IsFinite(sensorCelsius)) throw new ArgumentOutOfRangeException(nameof(sensorCelsius), sensorCelsius, "A temperature is finite.");
        if (!(doublingCelsius > 0)) throw new ArgumentOutOfRangeException(nameof(doublingCelsius), doublingCelsius, "The doubling is above zero.");
        return Math.Sqrt(TypicalElectronsPerSecond * Math.Pow(2, (sensorCelsius - TypicalCelsius) / doublingCelsius) * shutter.Seconds);
    }
}
