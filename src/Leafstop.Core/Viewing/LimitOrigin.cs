namespace Leafstop.Core.Viewing;

/// <summary>Where a pair of limits comes from.</summary>
public enum LimitOrigin
{
    /// <summary>The person's own blind judging.</summary>
    Judged,

    /// <summary>Numbers that the person gave; nobody has checked them here.</summary>
    Given,

    /// <summary>Worked out from the measured sensor by the published criterion; not the person's own.</summary>
    WorkedOut,

    /// <summary>Invented for a demonstration.</summary>
    Invented,
}
