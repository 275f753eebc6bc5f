namespace Leafstop.Raw.Synthetic;

/// <summary>What is true of the raw values of one ISO level.</summary>
public sealed record LevelTruth
{
    /// <summary>ISO as dialled.</summary>
    public required double Iso { get; init; }

    /// <summary>The exact power that the mark means.</summary>
    public required double ExactIso { get; init; }

    /// <summary>Electrons for one raw step.</summary>
    public required double GainElectronsPerDn { get; init; }

    /// <summary>Total temporal noise without light, quantisation included, row offsets not, before any smoothing, electrons.</summary>
    public required double ReadNoiseElectrons { get; init; }

    /// <summary>The same in DN.</summary>
    public double ReadNoiseDn => ReadNoiseElectrons / GainElectronsPerDn;

    /// <summary>Electrons at which the raw value clips.</summary>
    public required double SaturationElectrons { get; init; }

    /// <summary>Black level in the samples, DN.</summary>
    public required double BlackDn { get; init; }

    /// <summary>Highest code, DN.</summary>
    public required int ClipDn { get; init; }

    /// <summary>Light over what the settings promise, stops.</summary>
    public double LampDriftStops { get; init; }

    /// <summary>Correlation of neighbouring samples of a colour along a row that the camera's smoothing gives to white noise; 0 when it does not smooth.</summary>
    public double SmoothingCorrelation { get; init; }

    /// <summary>Standard deviation after smoothing over before; 1 when it does not smooth.</summary>
    public double SmoothingSdRatio { get; init; } = 1;

    /// <summary>The ISO whose digitised values were multiplied; null for a level of its own.</summary>
    public double? ArithmeticFromIso { get; init; }

    /// <summary>Standard deviation of row offsets, electrons.</summary>
    public double RowOffsetElectrons { get; init; }

    /// <summary>True when the camera takes the black level off and cuts below zero.</summary>
    public bool BlackClipped { get; init; }
}
