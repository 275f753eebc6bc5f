using Leafstop.Core.Sensor;

namespace Leafstop.Core.Viewing;

/// <summary>A tone in one plane of the sensor, and what white balance and exposure make of it.</summary>
/// <param name="Model">Noise of the plane at its ISO.</param>
/// <param name="SignalElectrons">Light of the tone, electrons, zero or more.</param>
/// <param name="Balance">White-balance gain times any lift: a saturated sample becomes this number. Above zero.</param>
public sealed record PlaneTone(NoiseModel Model, double SignalElectrons, double Balance)
{
    /// <summary>The tone after balancing.</summary>
    public double Mean => SignalElectrons / Model.SaturationElectrons * Balance;

    /// <summary>Noise variance after balancing: signal and noise are multiplied alike (WB-01).</summary>
    public double Variance
    {
        get
        {
            double perElectron = Balance / Model.SaturationElectrons;
            return (SignalElectrons + Model.ReadNoiseElectrons * Model.ReadNoiseElectrons) * perElectron * perElectron;
        }
    }
}
