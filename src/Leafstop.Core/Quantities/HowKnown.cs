namespace Leafstop.Core.Quantities;

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
