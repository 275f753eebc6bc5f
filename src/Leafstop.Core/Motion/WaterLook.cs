namespace Leafstop.Core.Motion;

/// <summary>How moving water looks, from stopped to dissolved. The words are the trade's or ours; where one ends and the next begins is taste.</summary>
public enum WaterLook
{
    /// <summary>Drops hang in the air.</summary>
    Frozen,

    /// <summary>Nearly stopped, with soft edges.</summary>
    SoftEdged,

    /// <summary>Flowing, with threads that can be told apart.</summary>
    Textured,

    /// <summary>Smooth bands.</summary>
    Silk,

    /// <summary>No form left but the place where the water was.</summary>
    Mist,
}
