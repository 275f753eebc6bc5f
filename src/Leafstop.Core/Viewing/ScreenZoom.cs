using Leafstop.Core.Quantities;

namespace Leafstop.Core.Viewing;

/// <summary>How far a picture is enlarged on the screen of a camera until it looks as large as in the print.</summary>
/// <remarks>Derived: a picture fills the same angle when width over distance is the same. Counted from the whole frame shown on the screen, which is 1.</remarks>
public static class ScreenZoom
{
    /// <summary>A screen of 3 inches from corner to corner, in the shape of a 36 × 24 mm frame: what most cameras have (common practice, no source).</summary>
    public static readonly Length UsualDiagonal = Length.FromMillimetres(76.2);

    /// <summary>How far from the eye a camera's screen is held: 30 cm (common practice, no source).</summary>
    public static readonly Length UsualDistance = Length.FromCentimetres(30);

    /// <summary>The zoom that equals a print: (print width / its distance) / (width of the frame on the screen / the screen's distance).</summary>
    /// <param name="printWidth">Above zero.</param>
    /// <param name="printDistance">Above zero.</param>
    /// <param name="frame">The frame; its shape is taken for the screen's.</param>
    /// <param name="screenDiagonal">Corner to corner, above zero.</param>
    /// <param name="screenDistance">From the eye to the screen, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">A length is zero.</exception>
    public static double EqualTo(Length printWidth, Length printDistance, FrameFormat frame, Length screenDiagonal, Length screenDistance)
    {
        foreach (Length length in (ReadOnlySpan<Length>)[printWidth, printDistance, screenDiagonal, screenDistance])
            ArgumentOutOfRangeException.ThrowIfNegativeOrZero(length.Millimetres);
        double shown = screenDiagonal.Millimetres * (frame.Width.Millimetres / frame.Diagonal.Millimetres);
        return printWidth.Millimetres / printDistance.Millimetres / (shown / screenDistance.Millimetres);
    }
}
