namespace Leafstop.Raw.Frames;

/// <summary>A rectangle of light-shielded pixels, in raw coordinates; right and bottom are exclusive.</summary>
public readonly record struct MaskedArea(int Top, int Left, int Bottom, int Right);
