namespace Leafstop.Core.Colour;

/// <summary>A colour in linear light of an RGB space: twice the number is twice the light, white is 1, 1, 1. Values outside 0 to 1 are kept.</summary>
/// <param name="R">Red.</param>
/// <param name="G">Green.</param>
/// <param name="B">Blue.</param>
public readonly record struct LinearRgb(double R, double G, double B)
{
    /// <summary>A neutral of some luminance.</summary>
    /// <param name="luminance">1 for white.</param>
    public static LinearRgb Neutral(double luminance) => new(luminance, luminance, luminance);
}
