namespace Leafstop.Core.Colour;

/// <summary>A colour as CIE 1931 tristimulus values; white has Y = 1.</summary>
/// <param name="X">X.</param>
/// <param name="Y">Y, the luminance relative to white.</param>
/// <param name="Z">Z.</param>
public readonly record struct Xyz(double X, double Y, double Z);
