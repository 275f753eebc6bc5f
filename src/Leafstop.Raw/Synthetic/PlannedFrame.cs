namespace Leafstop.Raw.Synthetic;

/// <summary>What a frame of a ladder shows.</summary>
public enum FrameRole
{
    /// <summary>The bench scene.</summary>
    Scene,

    /// <summary>The lens cap: no light.</summary>
    Cap,
}

/// <summary>One frame of a ladder and all that decides it.</summary>
public sealed record PlannedFrame
{
    /// <summary>Position in the order of exposure, from 0.</summary>
    public required int Index { get; init; }

    /// <summary>File name without folder.</summary>
    public required string FileName { get; init; }

    /// <summary>Scene or cap.</summary>
    public required FrameRole Role { get; init; }

    /// <summary>ISO as dialled and as the file says.</summary>
    public required double Iso { get; init; }

    /// <summary>Exposure time that the camera really used, seconds.</summary>
    public required double ShutterSeconds { get; init; }

    /// <summary>Exposure time as the file says (1/30 for 1/32).</summary>
    public required double ShutterMarkSeconds { get; init; }

    /// <summary>f-number as the file says; the same in all frames.</summary>
    public double FNumber { get; init; } = 8;

    /// <summary>Camera clock.</summary>
    public required DateTime TakenAt { get; init; }

    /// <summary>Electrons of this frame over those of the metered ISO 100 frame; 0 for a cap frame.</summary>
    public required double LightScale { get; init; }

    /// <summary>How far the picture lies to the right of the first frame, sensor pixels.</summary>
    public double ShiftXPx { get; init; }

    /// <summary>How far it lies below the first frame, sensor pixels.</summary>
    public double ShiftYPx { get; init; }

    /// <summary>What is true of the level.</summary>
    public required LevelTruth Truth { get; init; }
}
