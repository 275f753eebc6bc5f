namespace Leafstop.Cli.Telling;

/// <summary>How a number is known; said after every number that stands in a sentence.</summary>
public enum HowKnown
{
    /// <summary>Measured on the person's own camera.</summary>
    Measured,

    /// <summary>Worked out from measured numbers by a cited formula.</summary>
    WorkedOut,

    /// <summary>A rule of thumb.</summary>
    RuleOfThumb,
}

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
