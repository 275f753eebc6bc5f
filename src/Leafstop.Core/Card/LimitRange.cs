using Leafstop.Core.Quantities;

namespace Leafstop.Core.Card;

/// <summary>How sure a judged limit is: the ends of its 95 % interval.</summary>
/// <param name="Low">Lower end.</param>
/// <param name="High">Upper end, not below the lower.</param>
public sealed record LimitRange(Iso Low, Iso High);
