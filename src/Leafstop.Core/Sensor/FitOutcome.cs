
namespace Leafstop.Core.Sensor;

/// <summary>A photon-transfer fit, or the reason why there is none.</summary>
public sealed record FitOutcome
{
    /// <summary>Gain, e⁻/DN.</summary>
    public Estimate? GainElectronsPerDn { get; init; }

    /// <summary>Read noise, e⁻, quantisation included.</summary>
    public Estimate? ReadNoiseElectrons { get; init; }

    /// <summary>Read noise, DN.</summary>
    public Estimate? ReadNoiseDn { get; init; }

    /// <summary>Chi-squared of the residuals over its degrees of freedom; about 1 for a straight line.</summary>
    public double ReducedChiSquared { get; init; }

    /// <summary>True when the residuals are larger than chance allows (p below 0.001).</summary>
    public bool IsNotLinear { get; init; }

    /// <summary>Why there is no fit, in a sentence; null when there is one.</summary>
    public string? Refusal { get; init; }

    /// <summary>A refusal.</summary>
    public static FitOutcome Refused(string why) => new() { Refusal = why };
}
