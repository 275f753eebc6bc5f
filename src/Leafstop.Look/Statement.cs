using Leafstop.Core.Quantities;

namespace Leafstop.Look;

/// <summary>A sentence together with how its numbers are known.</summary>
/// <param name="Text">The sentence, with its full stop.</param>
/// <param name="Known">How its numbers are known; null when it holds none.</param>
public sealed record Statement(string Text, HowKnown? Known = null)
{
    /// <summary>The word that every surface prints: measured, worked out or rule of thumb.</summary>
    public static string Word(HowKnown known) => known switch
    {
        HowKnown.Measured => "measured",
        HowKnown.WorkedOut => "worked out",
        _ => "rule of thumb",
    };
}
