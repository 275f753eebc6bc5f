using System.Collections.Immutable;

namespace Leafstop.Core.Sensor;

/// <summary>The temporal noise of one plane of a pair.</summary>
public sealed record PairPlane
{
    /// <summary>Plane name.</summary>
    public required string Plane { get; init; }

    /// <summary>Noise against signal, darkest first.</summary>
    public required ImmutableArray<SignalBin> Bins { get; init; }

    /// <summary>Tiles examined.</summary>
    public required long Tiles { get; init; }

    /// <summary>Tiles left out because a sample sits at the clip level or the floor.</summary>
    public long ClippedTiles { get; init; }

    /// <summary>Tiles left out because they change far more than noise does (something moved, a hot pixel).</summary>
    public long RestlessTiles { get; init; }

    /// <summary>Brightness of the first frame over the second, black taken off.</summary>
    public double BrightnessRatio { get; init; } = 1;

    /// <summary>Row-to-row offset noise of one frame, DN; what white noise alone would give is taken off; 0 when it is not above that.</summary>
    public double RowNoiseDn { get; init; }

    /// <summary>Standard error of the square of <see cref="RowNoiseDn"/>, DN².</summary>
    public double RowNoiseErrorDn2 { get; init; }

    /// <summary>Column-to-column offset noise of one frame, as for rows.</summary>
    public double ColumnNoiseDn { get; init; }

    /// <summary>Correlation of neighbouring samples of the same colour along a row, on normalised differences.</summary>
    public double CorrelationX { get; init; }

    /// <summary>Correlation of neighbouring samples of the same colour along a column.</summary>
    public double CorrelationY { get; init; }

    /// <summary>Sample pairs behind the smaller of the two correlations; 0 when not measured.</summary>
    public long CorrelationSamples { get; init; }
}
