using System.Collections.Immutable;
using Leafstop.Core.Sensor;
using Leafstop.Raw.Dng;

namespace Leafstop.Raw.Synthetic;

/// <summary>What ladder to make.</summary>
public sealed record SampleOptions
{
    /// <summary>The ISO levels of a usual ladder.</summary>
    public static ImmutableArray<double> UsualIsos { get; } = [100, 200, 400, 500, 640, 800, 1600, 3200, 6400, 12800];

    /// <summary>Colour filter pattern; see <see cref="BenchMosaic"/>.</summary>
    public MosaicPattern Mosaic { get; init; } = BenchMosaic.TwoByTwo;

    /// <summary>Active columns, even (a multiple of 6 is not needed), at least 120.</summary>
    public int Width { get; init; } = 2400;

    /// <summary>Active rows, at least 80.</summary>
    public int Height { get; init; } = 1600;

    /// <summary>Seed of all noise.</summary>
    public ulong Seed { get; init; } = 1;

    /// <summary>Seed of the textures of the scene; another scene is rendered anew, another <see cref="Seed"/> is not.</summary>
    public int SceneSeed { get; init; } = 1;

    /// <summary><see cref="LadderKind.Metered"/> or <see cref="LadderKind.SameLight"/>.</summary>
    public LadderKind Ladder { get; init; } = LadderKind.Metered;

    /// <summary>ISO marks, ascending.</summary>
    public ImmutableArray<double> Isos { get; init; } = UsualIsos;

    /// <summary>Frames of the scene a level, 1 or more.</summary>
    public int FramesPerLevel { get; init; } = 2;

    /// <summary>Cap frames a level, 0 or more.</summary>
    public int CapFramesPerLevel { get; init; } = 2;

    /// <summary>Pixel response non-uniformity: standard deviation of the fixed sensitivity of the pixels, 0.003 = 0.3 %.</summary>
    public double PixelResponseSpread { get; init; } = 0.003;

    /// <summary>What goes wrong on purpose.</summary>
    public SampleFaults Faults { get; init; } = SampleFaults.None;

    /// <summary>True to compress the raw data by lossless JPEG, false to store them as they are.</summary>
    public bool Lossless { get; init; } = true;

    /// <summary>What the NoiseProfile tag says.</summary>
    public NoiseProfileTag NoiseProfile { get; init; } = NoiseProfileTag.None;

    /// <summary>Camera clock at the first frame, no zone.</summary>
    public DateTime Start { get; init; } = new(2026, 11, 14, 19, 30, 0, DateTimeKind.Unspecified);

    /// <summary>Throws when a value makes no sense, with a sentence that says which.</summary>
    /// <exception cref="ArgumentException">Some value is out of its range.</exception>
    public void Validate()
    {
        if (Width < 120 || Height < 80 || Width % 2 != 0 || Width > 65_000 || Height > 65_000)
            throw new ArgumentException($"A sample frame is at least 120 x 80 pixels, at most 65000 a side, with an even width; {Width} x {Height} is not.");
        if (Ladder is not (LadderKind.Metered or LadderKind.SameLight))
            throw new ArgumentException("A sample ladder is metered or same-light.");
        if (Isos.IsDefaultOrEmpty || Isos.Any(i => !double.IsFinite(i) || i < 50 || i > 409_600))
            throw new ArgumentException("A sample ladder has at least one ISO, each between 50 and 409600.");
        if (FramesPerLevel < 1 || CapFramesPerLevel < 0)
            throw new ArgumentException("A sample ladder has at least one frame a level, and no fewer than no cap frames.");
        if (PixelResponseSpread is not (>= 0 and <= 0.1))
            throw new ArgumentException("The spread of pixel response lies between 0 and 0.1 (10 %).");
        ValidateFaults();
    }

    private void ValidateFaults()
    {
        double?[] named = [Faults.LampDriftIso, Faults.SmoothingFromIso, Faults.ArithmeticIso, Faults.MovedIso, Faults.ClippedBlackFromIso];
        foreach (double? iso in named)
            if (iso is { } mark && !Isos.Contains(mark))
                throw new ArgumentException($"A fault is set at ISO {mark}, which is not a level of this ladder.");
        if (Faults.SmoothingCorrelation is not (>= 0 and <= 0.4))
            throw new ArgumentException("The correlation of smoothed samples lies between 0 and 0.4.");
        if (Faults.HotPixelShare is not (>= 0 and <= 0.1))
            throw new ArgumentException("The share of hot pixels lies between 0 and 0.1.");
        if (Faults.RowBanding is not (>= 0 and <= 100))
            throw new ArgumentException("Row banding lies between 0 and 100 times the read noise.");
    }
}
