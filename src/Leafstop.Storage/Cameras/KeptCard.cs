using Leafstop.Core.Card;

namespace Leafstop.Storage.Cameras;

/// <summary>A pocket card that was read back, as it is kept.</summary>
/// <param name="KeptAt">When it was read, UTC, to the second.</param>
/// <param name="Card">What it says. What a card does not carry (intervals, frames, single answers, the number of the body) is not known through it.</param>
public sealed record KeptCard(DateTimeOffset KeptAt, CardText Card);
