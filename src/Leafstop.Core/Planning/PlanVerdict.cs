namespace Leafstop.Core.Planning;

/// <summary>Where a picture lies against the two limits.</summary>
public enum PlanVerdict
{
    /// <summary>At or below the clean limit.</summary>
    Clean,

    /// <summary>Above clean, at or below the stretch limit.</summary>
    Stretch,

    /// <summary>Above the stretch limit.</summary>
    Beyond,

    /// <summary>No limit is known that could tell.</summary>
    Unknown,
}
