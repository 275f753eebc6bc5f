namespace Leafstop.Core.Viewing;

/// <summary>Contrast sensitivity of the three opponent axes at some pixels per degree.</summary>
internal sealed class SeenFrequencies(double pixelsPerDegree)
{
    /// <summary>Cycles per degree above which less than a thousandth is left of any axis.</summary>
    public const double Highest = 120;

    public double PixelsPerDegree { get; } = double.IsFinite(pixelsPerDegree) && pixelsPerDegree > 0
        ? pixelsPerDegree
        : throw new ArgumentOutOfRangeException(nameof(pixelsPerDegree), pixelsPerDegree, "Pixels per degree are above zero.");

    /// <summary>What the eye takes of an axis at cycles per pixel across and down.</summary>
    public double Share(int axis, double across, double down)
    {
        double f = Math.Sqrt(across * across + down * down) * PixelsPerDegree;
        return axis switch
        {
            0 => ContrastSensitivity.LuminanceShare(f),
            1 => ContrastSensitivity.RedGreen(f),
            _ => ContrastSensitivity.BlueYellow(f),
        };
    }
}
