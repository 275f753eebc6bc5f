namespace Leafstop.Raw.Crops;

/// <summary>A place of the scene and how bright it is at the reference level.</summary>
/// <param name="Subject">What it shows.</param>
/// <param name="Left">First column in the active area.</param>
/// <param name="Top">First row in the active area.</param>
/// <param name="SignalDn">Mean of the green (or only) samples above black at the reference level, DN.</param>
/// <param name="LiftStops">How much brighter than a plain development it is shown, stops.</param>
internal sealed record CropPlace(CropSubject Subject, int Left, int Top, double SignalDn, double LiftStops);

/// <summary>What a worker is told to make pictures of one level.</summary>
internal sealed record CropRequest
{
    /// <summary>Places to show; null at the reference level, where they are looked for.</summary>
    public CropPlace[]? Places { get; init; }

    /// <summary>Factors for red, green and blue; null at the reference level, where they are settled.</summary>
    public double[]? Balance { get; init; }

    /// <summary>Black level by plane name, DN, as it was measured; a plane that is missing here is read from the frame.</summary>
    public Dictionary<string, double> BlackDn { get; init; } = [];

    /// <summary>Where the mid tone is looked for at the reference level, stops from metered mid-grey; below zero in a ladder in one light, whose lowest ISO is dark.</summary>
    public double MidStops { get; init; }

    /// <summary>How many stops brighter the reference level is by its settings.</summary>
    public double ExplainedStops { get; init; }
}

/// <summary>The pictures of one level, as they come back from a worker.</summary>
internal sealed record CropAnswer
{
    public required CropPlace[] Places { get; init; }

    public required double[] Balance { get; init; }

    public required CropPicture[] Pictures { get; init; }
}

/// <summary>One finished picture; see <see cref="BenchPicture"/>.</summary>
internal sealed record CropPicture(CropSubject Subject, byte[] Png)
{
    /// <summary>Larger pictures do not cross the border between processes.</summary>
    public const int MostSide = 512;

    public double LiftStops { get; init; }

    public double CorrectionStops { get; init; }

    public double? UnexplainedStops { get; init; }

    public bool IsMatched { get; init; }

    public double ClippedShare { get; init; }
}
