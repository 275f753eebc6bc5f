namespace Leafstop.Raw.Synthetic;

/// <summary>What goes wrong on purpose. Everything null or zero: a clean ladder.</summary>
/// <remarks>ISOs are marks as dialled and must be levels of the ladder.</remarks>
public sealed record SampleFaults
{
    /// <summary>No faults.</summary>
    public static SampleFaults None { get; } = new();

    /// <summary>The ISO at which the lamp was brighter or darker, in all its frames.</summary>
    public double? LampDriftIso { get; init; }

    /// <summary>How much more light (positive) or less, stops.</summary>
    public double LampDriftStops { get; init; }

    /// <summary>From this ISO on the camera smooths its raw values.</summary>
    public double? SmoothingFromIso { get; init; }

    /// <summary>Correlation of neighbouring samples of a colour that the smoothing gives to white noise, 0 to 0.4.</summary>
    public double SmoothingCorrelation { get; init; }

    /// <summary>An ISO that is arithmetic: the next lower level of the ladder, digitised, then multiplied.</summary>
    public double? ArithmeticIso { get; init; }

    /// <summary>The ISO at which the tripod moves, between its first and its second frame, for good.</summary>
    public double? MovedIso { get; init; }

    /// <summary>How far the picture moves to the right, sensor pixels.</summary>
    public double MovedXPx { get; init; }

    /// <summary>How far the picture moves down, sensor pixels.</summary>
    public double MovedYPx { get; init; }

    /// <summary>Share of pixels that are hot, 0 to 0.1; each has a fixed 200 to 4000 electrons too many in every frame.</summary>
    public double HotPixelShare { get; init; }

    /// <summary>Standard deviation of the offset of each row of each frame, as a multiple of the read noise of the level.</summary>
    public double RowBanding { get; init; }

    /// <summary>From this ISO on the camera takes the black level off itself and cuts what is below zero.</summary>
    public double? ClippedBlackFromIso { get; init; }
}
