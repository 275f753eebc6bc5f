namespace Leafstop.Core.Colour;

/// <summary>How colours seen under one white are told under another, by Bradford's linear rule.</summary>
/// <remarks>Cone-like responses by the Bradford matrix (Lam 1985, constants as read in the colour-science library, dated 2023), each scaled by the ratio of the whites,
/// and back. Row PER-36. The blue response is taken as linear, as profiles do.</remarks>
public static class BradfordAdaptation
{
    private static readonly ColourMatrix Responses = new(
        0.8951, 0.2664, -0.1614,
        -0.7502, 1.7135, 0.0367,
        0.0389, -0.0685, 1.0296);

    /// <summary>The matrix on XYZ from one white to another; takes the first white to the second exactly.</summary>
    public static ColourMatrix Matrix(Chromaticity from, Chromaticity to)
    {
        Xyz source = from.AtLuminance(), target = to.AtLuminance();
        var (a, b, c) = Responses.Apply(source.X, source.Y, source.Z);
        var (d, e, f) = Responses.Apply(target.X, target.Y, target.Z);
        return Responses.Inverse() * ColourMatrix.Diagonal(d / a, e / b, f / c) * Responses;
    }
}
