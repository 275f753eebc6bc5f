using NodaTime;

namespace Leafstop.Core.Light;

/// <summary>The years that the sun's place is promised for.</summary>
public static class Reach
{
    /// <summary>First year.</summary>
    public const int FirstYear = 1800;

    /// <summary>Last year.</summary>
    public const int LastYear = 2100;

    // Two days more at each end, because a local day reaches into its neighbours and a path is drawn through points before and after it.
    private static readonly Instant First = Instant.FromUtc(FirstYear, 1, 1, 0, 0) - Duration.FromDays(2);
    private static readonly Instant Last = Instant.FromUtc(LastYear + 1, 1, 1, 0, 0) + Duration.FromDays(2);

    /// <summary>True when the sun's place is promised on that date.</summary>
    public static bool Holds(LocalDate date) => date.Year is >= FirstYear and <= LastYear;

    /// <summary>The time itself when it is in reach.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside 1800 to 2100.</exception>
    internal static Instant Checked(Instant when) => when >= First && when <= Last
        ? when
        : throw new ArgumentOutOfRangeException(nameof(when), when, "The sun is worked out for the years 1800 to 2100.");
}
