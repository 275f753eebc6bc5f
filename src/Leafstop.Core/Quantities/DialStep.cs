namespace Leafstop.Core.Quantities;

/// <summary>The step between neighbouring marks of a dial.</summary>
public enum DialStep
{
    /// <summary>Thirds of a stop.</summary>
    Thirds,

    /// <summary>Half stops.</summary>
    Halves,

    /// <summary>Whole stops.</summary>
    Wholes,
}
