using System.Collections.Immutable;
using Leafstop.Core.Quantities;

namespace Leafstop.Core.Sensor;

/// <summary>One ISO level of a bench ladder, measured.</summary>
/// <remarks>A level that fails a test stays in the answer with <see cref="Usable"/> false and its <see cref="Reason"/>.</remarks>
public sealed record Level
{
    /// <summary>ISO as the camera labels it.</summary>
    public required Iso Iso { get; init; }

    /// <summary>The ladder that the level belongs to: metered, same light, or none.</summary>
    public required LadderKind Ladder { get; init; }

    /// <summary>Files with light, cap frames not counted.</summary>
    public required ImmutableArray<string> Frames { get; init; }

    /// <summary>Cap-frame files at this ISO.</summary>
    public ImmutableArray<string> CapFrames { get; init; } = [];

    /// <summary>Exposure time in seconds as the files state it; null when not stated.</summary>
    public double? ShutterSeconds { get; init; }

    /// <summary>f-number as the files state it; null when not stated.</summary>
    public double? FNumber { get; init; }

    /// <summary>Gain in e⁻/DN, joint over planes; null when it could not be fitted.</summary>
    public Estimate? GainElectronsPerDn { get; init; }

    /// <summary>Read noise in e⁻, joint over planes, quantisation included.</summary>
    public Estimate? ReadNoiseElectrons { get; init; }

    /// <summary>Read noise in DN.</summary>
    public double? ReadNoiseDn { get; init; }

    /// <summary>All temporal noise of a pixel without light in e⁻, the row offsets that change from frame to frame included; null without a pair.</summary>
    /// <remarks>What EMVA 1288 calls temporal dark noise (SEN-03, SEN-04), quantisation included. <see cref="ReadNoiseElectrons"/> is what is left without the row offsets, which are stripes and no grain.</remarks>
    public double? DarkNoiseElectrons { get; init; }

    /// <summary>The same in DN.</summary>
    public double? DarkNoiseDn { get; init; }

    /// <summary>What the read noise was taken from.</summary>
    public ReadNoiseSource? ReadNoiseSource { get; init; }

    /// <summary>Electrons at the clip level, from the clip seen where there is one.</summary>
    public double? SaturationElectrons { get; init; }

    /// <summary>True when a clip was seen in the samples; false when <see cref="SaturationElectrons"/> rests on the file's tag alone.</summary>
    public bool ClipSeen { get; init; }

    /// <summary>log2 of measured light over the light that the settings promise, relative to the median level; positive = more light; null when it cannot be told.</summary>
    public double? LightErrorStops { get; init; }

    /// <summary>The larger of the x and y neighbour correlation, median over planes; null without a pair.</summary>
    public double? NeighbourCorrelation { get; init; }

    /// <summary>Row offset noise in e⁻ a frame.</summary>
    public double? RowNoiseElectrons { get; init; }

    /// <summary>Column offset noise in e⁻ a frame.</summary>
    public double? ColumnNoiseElectrons { get; init; }

    /// <summary>Share of samples at the clip level, 0 to 1.</summary>
    public double ClippedShare { get; init; }

    /// <summary>Hot pixels found, and how many pixels were searched.</summary>
    public long HotPixels { get; init; }

    /// <summary>Pixels searched for <see cref="HotPixels"/>.</summary>
    public long HotPixelsSearched { get; init; }

    /// <summary>How far the picture of its first frame lies to the right of that of the level that was shot first, sensor pixels; 0 where the tripod was not seen to move (it is from 0.3 px on).</summary>
    public double ShiftXPx { get; init; }

    /// <summary>How far it lies below, sensor pixels.</summary>
    public double ShiftYPx { get; init; }

    /// <summary>Mean green signal of the scene in electrons as it was shot, for the record; null without a model.</summary>
    public double? MeanSignalElectrons { get; init; }

    /// <summary>One model a plane.</summary>
    public ImmutableArray<PlaneModel> Planes { get; init; } = [];

    /// <summary>The photon-transfer points of each plane, signal above black; for plots and exports.</summary>
    public ImmutableArray<TransferPoint> Curve { get; init; } = [];

    /// <summary>False when the level is left off the curve.</summary>
    public required bool Usable { get; init; }

    /// <summary>Everything that was noticed.</summary>
    public ImmutableArray<LevelFlag> Flags { get; init; } = [];

    /// <summary>Why it is not usable, in a sentence; null when it is.</summary>
    public string? Reason { get; init; }

    /// <summary>Gain, read noise and saturation together; null unless all three are known.</summary>
    public NoiseModel? Model => GainElectronsPerDn is { } g && ReadNoiseElectrons is { } r && SaturationElectrons is { } s
        ? new NoiseModel(g.Value, r.Value, s)
        : null;
}
