using Leafstop.Core.Quantities;

namespace Leafstop.Core.Card;

/// <summary>One thing to give up.</summary>
/// <param name="Words">In a few words.</param>
/// <param name="FewWords">In fewer, for a smaller card.</param>
/// <param name="Least">Stops gained, above zero.</param>
/// <param name="Most">The same, where it depends; else as <paramref name="Least"/>.</param>
/// <param name="How">How that is known.</param>
public sealed record CardGiveUp(string Words, string FewWords, Stops Least, Stops Most, HowKnown How);
