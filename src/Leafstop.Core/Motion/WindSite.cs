namespace Leafstop.Core.Motion;

/// <summary>Where the leaves stand, against the open site that a wind is given for.</summary>
public enum WindSite
{
    /// <summary>Open ground, plants about 1.5 m high.</summary>
    Open,

    /// <summary>An old stand of trees with open trunk space.</summary>
    Stand,

    /// <summary>Near the floor of a dense stand.</summary>
    Floor,
}
