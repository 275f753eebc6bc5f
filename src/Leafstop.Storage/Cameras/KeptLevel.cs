using System.Collections.Immutable;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;

namespace Leafstop.Storage.Cameras;

/// <summary>One ISO level as kept: the sensor model without the frames and curves behind it.</summary>
public sealed record KeptLevel
{
    /// <summary>ISO as the camera labels it.</summary>
    public required Iso Iso { get; init; }

    /// <summary>The ladder the level belongs to.</summary>
    public required LadderKind Ladder { get; init; }

    /// <summary>Gain, e⁻/DN, with its 95 % interval; null when it could not be fitted.</summary>
    public Estimate? GainElectronsPerDn { get; init; }

    /// <summary>Read noise, e⁻, with its 95 % interval; null when it could not be fitted.</summary>
    public Estimate? ReadNoiseElectrons { get; init; }

    /// <summary>What the read noise was taken from; null when unknown.</summary>
    public ReadNoiseSource? ReadNoiseSource { get; init; }

    /// <summary>Electrons at the clip level; null when unknown.</summary>
    public double? SaturationElectrons { get; init; }

    /// <summary>True when a clip was seen in the samples.</summary>
    public bool ClipSeen { get; init; }

    /// <summary>False when the level is left off the curve.</summary>
    public required bool Usable { get; init; }

    /// <summary>What was noticed.</summary>
    public ImmutableArray<LevelFlag> Flags { get; init; } = [];

    /// <summary>Why it is not usable; null when it is.</summary>
    public string? Reason { get; init; }

    /// <summary>Range to the noise floor in stops, log2(saturation / read noise) (SEN-16); null when either is unknown.</summary>
    public double? DynamicRangeStops => ReadNoiseElectrons is { } r && SaturationElectrons is { } s ? Math.Log2(s / r.Value) : null;

    /// <summary>What is kept of a level.</summary>
    public static KeptLevel Of(Level level) => new()
    {
        Iso = level.Iso,
        Ladder = level.Ladder,
        GainElectronsPerDn = level.GainElectronsPerDn,
        ReadNoiseElectrons = level.ReadNoiseElectrons,
        ReadNoiseSource = level.ReadNoiseSource,
        SaturationElectrons = level.SaturationElectrons,
        ClipSeen = level.ClipSeen,
        Usable = level.Usable,
        Flags = level.Flags,
        Reason = level.Reason,
    };

    /// <summary>True when both say the same.</summary>
    public bool SaysTheSameAs(KeptLevel other) =>
        this with { Flags = [] } == other with { Flags = [] } && Flags.SequenceEqual(other.Flags);
}
