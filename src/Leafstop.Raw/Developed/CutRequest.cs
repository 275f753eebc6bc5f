using Leafstop.Core.Sensor;
using Leafstop.Raw.Crops;

namespace Leafstop.Raw.Developed;

/// <summary>What a worker is told to cut out of the frames of one level.</summary>
internal sealed record CutRequest
{
    /// <summary>Samples around a crop that its interpolation needs.</summary>
    public const int Margin = 3;

    /// <summary>Pixels along a crop, the margin not counted.</summary>
    public required int Side { get; init; }

    /// <summary>Places that are given.</summary>
    public CropPosition[] Places { get; init; } = [];

    /// <summary>True at the reference level: subjects that <see cref="Places"/> lacks are looked for.</summary>
    public bool Search { get; init; }

    /// <summary>Where the mid tone is looked for, stops from metered mid-grey.</summary>
    public double MidStops { get; init; }

    /// <summary>Black by plane name, DN; a plane that is missing is read from the frame.</summary>
    public Dictionary<string, double> BlackDn { get; init; } = [];

    /// <summary>Clip level by plane name, DN; as above.</summary>
    public Dictionary<string, double> ClipDn { get; init; } = [];
}

/// <summary>What comes back: samples as the sensor gave them.</summary>
internal sealed record CutAnswer
{
    public required CropPosition[] Places { get; init; }

    public required FrameCut[] Frames { get; init; }

    /// <summary>Refuses more than was agreed: at most two frames, three areas each, none larger than the largest crop.</summary>
    /// <exception cref="InvalidOperationException">A worker sent more, or pieces that do not fit together.</exception>
    public CutAnswer Bounded()
    {
        const int most = CropWish.MostSide + 2 * CutRequest.Margin;
        bool fits = Frames.Length <= 2 && Places.Length <= 3 && Frames.All(f => f.Areas.Length <= 3 && f.Fits() && f.Areas.All(a => a.Side <= most));
        return fits ? this : throw new InvalidOperationException("A decoding worker sent crops that are larger than was asked for, or damaged.");
    }
}

/// <summary>Pieces of one frame, and what is needed to develop them.</summary>
internal sealed record FrameCut
{
    public required string File { get; init; }

    public required MosaicPattern Mosaic { get; init; }

    public required int Width { get; init; }

    public required int Height { get; init; }

    /// <summary>[plane], DN.</summary>
    public required double[] BlackDn { get; init; }

    /// <summary>Raw value of a neutral in red, green, blue; empty when not stated.</summary>
    public required double[] Neutral { get; init; }

    /// <summary>XYZ to camera, row by row; empty when not stated.</summary>
    public required double[] XyzToCamera { get; init; }

    /// <summary>x and y of the light of that matrix.</summary>
    public required double[] ColourLight { get; init; }

    public required CutArea[] Areas { get; init; }

    public bool Fits() => Width > 0 && Height > 0 && Mosaic.Rows is > 0 and <= 8 && Mosaic.Columns is > 0 and <= 8 && Mosaic.Letters.Length == Mosaic.Rows * Mosaic.Columns
        && BlackDn.Length == Mosaic.PlaneNames().Count && Neutral.Length is 0 or 3 && XyzToCamera.Length is 0 or 9 && ColourLight is [_, > 0]
        && Areas.All(a => a.Side > 2 * CutRequest.Margin && a.Samples.Length == 2 * a.Side * a.Side && a.Left >= 0 && a.Top >= 0 && a.Left + a.Side <= Width && a.Top + a.Side <= Height);
}

/// <summary>A square of samples, margin included.</summary>
/// <param name="Subject">What it shows.</param>
/// <param name="Left">First column of the margin in the active area.</param>
/// <param name="Top">First row of the margin.</param>
/// <param name="Side">Samples along it.</param>
/// <param name="Samples">Two bytes a sample, row by row, as this machine writes numbers.</param>
internal sealed record CutArea(CropSubject Subject, int Left, int Top, int Side, byte[] Samples);
