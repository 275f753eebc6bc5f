using Leafstop.Core.Sensor;

namespace Leafstop.Raw.Developed;

/// <summary>How much a level was made brighter or darker in linear light so that its crops are as bright as those of the level that all are compared with.</summary>
/// <remarks>It makes levels comparable by brightness and leaves their noise as it is: a level that had another light has the noise of another ISO, however bright it is shown.</remarks>
/// <param name="Level">The level.</param>
/// <param name="Stops">The largest over its places and frames, on green; positive = brightened.</param>
public sealed record BrightnessCorrection(Level Level, double Stops);
