using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;

namespace Leafstop.Core.Viewing;

/// <summary>The zoom at which the screen on the back of a camera shows a frame as large, to the eye, as the print will be.</summary>
/// <remarks>Worked out from similar triangles: (print width / distance to it) / (screen width / distance to it), the whole frame filling the width of the screen at a zoom
/// of 1. A 3-inch screen of 3:2 seen from 30 cm wants 4.73 for a print 60 cm wide seen from 60 cm. Sharpness only: the screen shows the developed preview, not the raw.</remarks>
public static class ScreenZoom
{
    /// <summary>Width over height of the screen when nothing else is known: that of a 36 × 24 mm frame (common practice, no source).</summary>
    public const double UsualShape = 1.5;

    /// <summary>Width of a screen that is named by its diagonal: d / √(1 + 1/s²).</summary>
    /// <param name="diagonal">Diagonal, above zero.</param>
    /// <param name="shape">Width over height, finite and above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">One of them is not above zero.</exception>
    public static Length Width(Length diagonal, double shape = UsualShape) => double.IsFinite(shape) && shape > 0
        ? Length.FromMillimetres(Positive(diagonal) / Math.Sqrt(1 + 1 / (shape * shape)))
        : throw new ArgumentOutOfRangeException(nameof(shape), shape, "The shape of a screen is finite and above zero.");

    /// <summary>The zoom over the whole frame.</summary>
    /// <param name="print">The print and the distance it is seen from.</param>
    /// <param name="screenWidth">Width of the screen, above zero.</param>
    /// <param name="distance">From the eye to the screen, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">A length is not above zero.</exception>
    public static double For(PrintCondition print, Length screenWidth, Length distance)
    {
        ArgumentNullException.ThrowIfNull(print);
        double onPrint = Positive(Length.FromMillimetres(print.WidthMm)) / Positive(Length.FromMillimetres(print.ViewingDistanceMm));
        return onPrint * Positive(distance) / Positive(screenWidth);
    }

    private static double Positive(Length length) => length.Millimetres > 0
        ? length.Millimetres
        : throw new ArgumentOutOfRangeException(nameof(length), length.Millimetres, "A screen, a print and their distances are above zero.");
}
