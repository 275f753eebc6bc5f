using Leafstop.Core.Developing;

namespace Leafstop.Raw.Developed;

/// <summary>What all levels of a subject are developed with.</summary>
/// <param name="Interpolation">How missing colours are worked out.</param>
/// <param name="Balance">White balance.</param>
/// <param name="Colour">Camera colours to sRGB.</param>
/// <param name="WhiteOfDn">Linear light (1 = white) of one DN of green at the reference level, lift included.</param>
/// <param name="LiftStops">How much of that is lift, stops.</param>
internal sealed record CropRecipe(MosaicInterpolation Interpolation, WhiteBalance Balance, CameraColour Colour, double WhiteOfDn, double LiftStops);
