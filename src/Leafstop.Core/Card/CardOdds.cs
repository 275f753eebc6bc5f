namespace Leafstop.Core.Card;

/// <summary>How many frames until one is good.</summary>
/// <param name="OneIn">One frame in so many was kept.</param>
/// <param name="Frames">Frames for a 95 % chance of one.</param>
public sealed record CardOdds(int OneIn, int Frames);
