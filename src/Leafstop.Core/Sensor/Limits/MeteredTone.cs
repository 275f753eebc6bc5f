namespace Leafstop.Core.Sensor;

/// <summary>How many electrons a metered tone has at one ISO.</summary>
public static class MeteredTone
{
    /// <summary>Metered mid-grey as a share of saturation: 0.18 / √2 = 0.1273, which leaves 2.97 stops. Source: EXP-29 (saturation-based speed).</summary>
    public static readonly double MidGreyShare = 0.18 / Math.Sqrt(2);

    /// <summary>Signal in electrons of a tone when the scene is metered for the ISO of the model.</summary>
    /// <param name="model">Sensor at that ISO.</param>
    /// <param name="toneEv">Stops from mid-grey; −3 is three stops darker.</param>
    public static double SignalElectrons(NoiseModel model, double toneEv)
    {
        ArgumentNullException.ThrowIfNull(model);
        return model.SaturationElectrons * MidGreyShare * Math.Pow(2, toneEv);
    }

    /// <summary>Signal-to-noise ratio per pixel of a metered tone (SEN-15 at <see cref="SignalElectrons"/>).</summary>
    public static double SignalToNoise(NoiseModel model, double toneEv)
    {
        ArgumentNullException.ThrowIfNull(model);
        return model.SignalToNoise(SignalElectrons(model, toneEv));
    }
}
