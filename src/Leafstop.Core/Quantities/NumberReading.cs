namespace Leafstop.Core.Quantities;

/// <summary>How a written number is taken.</summary>
public enum NumberReading
{
    /// <summary>A number equal to a mark in thirds means the exact power (11 is 11.314, 1/60 is 1/64); any other is literal.</summary>
    Marks,

    /// <summary>The number as it stands.</summary>
    Literal,
}
