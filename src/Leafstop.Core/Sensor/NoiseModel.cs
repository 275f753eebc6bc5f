namespace Leafstop.Core.Sensor;

/// <summary>The noise of a sensor at one ISO setting: gain, read noise and saturation, per pixel.</summary>
/// <param name="GainElectronsPerDn">Electrons for one raw step.</param>
/// <param name="ReadNoiseElectrons">Total temporal noise without light, quantisation included, electrons.</param>
/// <param name="SaturationElectrons">Electrons at which the raw value clips.</param>
public sealed record NoiseModel(double GainElectronsPerDn, double ReadNoiseElectrons, double SaturationElectrons)
{
    /// <summary>Signal-to-noise ratio at a signal in electrons: S / √(S + r²). Source: SEN-15 (CCD equation), no sky, no dark signal.</summary>
    public double SignalToNoise(double signalElectrons) =>
        signalElectrons / Math.Sqrt(signalElectrons + ReadNoiseElectrons * ReadNoiseElectrons);

    /// <summary>Engineering dynamic range in stops: log2(saturation / read noise). Source: SEN-16.</summary>
    public double DynamicRangeStops => Math.Log2(SaturationElectrons / ReadNoiseElectrons);
}
