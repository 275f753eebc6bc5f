using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;

namespace Leafstop.Core.Card;

/// <summary>The noise of a camera at one ISO, as a card carries it: without intervals, frames or remarks.</summary>
/// <param name="Iso">ISO as the camera labels it.</param>
/// <param name="Model">Gain, read noise and saturation, each to four figures.</param>
public sealed record CardLevel(Iso Iso, NoiseModel Model);
