namespace Leafstop.Core.Sensor;

/// <summary>A coarse map of a frame's brightness: the mean of the green (or only) samples of equal blocks.</summary>
/// <remarks>Small enough to travel between processes, fine enough to compare light and framing between levels.</remarks>
public sealed record LevelMap
{
    /// <summary>Blocks across.</summary>
    public required int Columns { get; init; }

    /// <summary>Blocks down.</summary>
    public required int Rows { get; init; }

    /// <summary>Width of a block in sensor pixels.</summary>
    public required int BlockWidth { get; init; }

    /// <summary>Height of a block in sensor pixels.</summary>
    public required int BlockHeight { get; init; }

    /// <summary>Mean DN of each block, black included, row by row; negative where a sample of the block is clipped.</summary>
    public required float[] MeanRawDn { get; init; }
}
