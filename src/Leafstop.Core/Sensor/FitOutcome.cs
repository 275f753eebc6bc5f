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

    /// <summary>How far the points lie from the line beyond what chance explains, root mean square, as a share of the variance.</summary>
    public double ExcessDeviation { get; init; }

    /// <summary>True when the points leave the line by more than chance and by more than a hundredth.</summary>
    public bool IsNotLinear { get; init; }

    /// <summary>Why there is no fit, in a sentence; null when there is one.</summary>
    public string? Refusal { get; init; }

    /// <summary>The line itself, for joining planes; null when refused.</summary>
    internal VarianceLine? Line { get; init; }

    /// <summary>A refusal.</summary>
    public static FitOutcome Refused(string why) => new() { Refusal = why };
}
