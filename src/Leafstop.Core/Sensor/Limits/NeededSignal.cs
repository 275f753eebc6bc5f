namespace Leafstop.Core.Sensor;

/// <summary>How much light a wanted signal-to-noise ratio needs.</summary>
public static class NeededSignal
{
    /// <summary>Electrons for a signal-to-noise ratio s with read noise r: (s²/2)(1 + √(1 + 4r²/s²)), the exact inverse of SEN-15. Source: SEN-13.</summary>
    /// <param name="signalToNoise">Above zero; 1 gives the floor of SEN-11.</param>
    /// <param name="readNoiseElectrons">Zero or more, electrons.</param>
    /// <exception cref="ArgumentOutOfRangeException">The ratio is not above zero, or the noise is negative.</exception>
    public static double Electrons(double signalToNoise, double readNoiseElectrons)
    {
        if (!(signalToNoise > 0)) throw new ArgumentOutOfRangeException(nameof(signalToNoise), signalToNoise, "A signal-to-noise ratio is above zero.");
        if (!(readNoiseElectrons >= 0)) throw new ArgumentOutOfRangeException(nameof(readNoiseElectrons), readNoiseElectrons, "Read noise is zero or more.");
        double squared = signalToNoise * signalToNoise;
        return squared / 2 * (1 + Math.Sqrt(1 + 4 * readNoiseElectrons * readNoiseElectrons / squared));
    }
}
