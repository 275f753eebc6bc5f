using Leafstop.Core.Colour;

namespace Leafstop.Core.Developing;

/// <summary>From the balanced colours of a camera to linear sRGB.</summary>
/// <remarks>
/// <para>A file states how its camera sees a colour of known XYZ under one light. sRGB's primaries are taken through that matrix: linear sRGB → XYZ under D65 → XYZ under that light
/// (Bradford) → camera; then each row is scaled so that sRGB white gives 1 in every camera colour, as it does after the white balance; the inverse is what is used. So a
/// balanced neutral stays neutral exactly, whatever the light of the picture: the adaptation from that light is the white balance itself, factors on the camera's own colours.</para>
/// <para>Known error: a matrix is a fit; colours of real cameras come out within a few CIELAB units at best, more in a light far from the matrix's own (common practice, no source). Grain is
/// spread over the channels by the same matrix.</para>
/// </remarks>
public sealed record CameraColour
{
    private CameraColour(ColourMatrix toSrgb) => ToSrgb = toSrgb;

    /// <summary>Takes the camera's colours for sRGB: for a camera whose colours nobody states, and without filters.</summary>
    public static CameraColour AsRecorded { get; } = new(ColourMatrix.Identity);

    /// <summary>From balanced camera colours to linear sRGB; every row adds up to 1.</summary>
    public ColourMatrix ToSrgb { get; }

    /// <summary>Works the matrix out.</summary>
    /// <param name="xyzToCamera">XYZ to camera colours, on any scale, as a DNG's ColorMatrix tag or the raw library's table gives it.</param>
    /// <param name="light">White of the light that it was measured in: D65 for the table, the CalibrationIlluminant of a DNG.</param>
    /// <exception cref="ArgumentException">The matrix makes two colours one, or gives white no light in some colour.</exception>
    public static CameraColour FromMatrix(ColourMatrix xyzToCamera, Chromaticity light)
    {
        ArgumentNullException.ThrowIfNull(light);
        ColourMatrix seen = xyzToCamera * BradfordAdaptation.Matrix(Chromaticity.D65, light) * RgbSpace.Srgb.MatrixToXyz;
        var (red, green, blue) = seen.Apply(1, 1, 1);
        if (!(red > 0 && green > 0 && blue > 0)) throw new ArgumentException("This camera matrix gives white no light in some colour.", nameof(xyzToCamera));
        try
        {
            return new CameraColour((ColourMatrix.Diagonal(1 / red, 1 / green, 1 / blue) * seen).Inverse());
        }
        catch (InvalidOperationException e)
        {
            throw new ArgumentException("This camera matrix makes two colours one.", nameof(xyzToCamera), e);
        }
    }
}
