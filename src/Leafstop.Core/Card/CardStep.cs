using Leafstop.Core.Quantities;

namespace Leafstop.Core.Card;

/// <summary>Where the read noise of a camera drops by a step.</summary>
/// <param name="Below">Last ISO before it.</param>
/// <param name="Above">First ISO after it.</param>
public sealed record CardStep(Iso Below, Iso Above);
