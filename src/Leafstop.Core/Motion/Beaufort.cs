using System.Collections.Immutable;
using Leafstop.Core.Quantities;

namespace Leafstop.Core.Motion;

/// <summary>A wind force as it is told from smoke, leaves and branches: forces 0 to 6, the ones in which anybody waits for a lull.</summary>
/// <remarks>The scale of the World Meteorological Organization, speeds at 10 m in the open (W-01). Speeds between two rows of the printed table, such as
/// 1.55 m/s, belong to the lower.</remarks>
public sealed record Beaufort
{
    private Beaufort(int force, double from, double to, string sign) =>
        (Force, From, To, Sign) = (force, Speed.FromMetresPerSecond(from), Speed.FromMetresPerSecond(to), sign);

    /// <summary>Forces 0 to 6.</summary>
    public static ImmutableArray<Beaufort> All { get; } =
    [
        new(0, 0, 0.2, "smoke goes straight up"),
        new(1, 0.3, 1.5, "smoke drifts"),
        new(2, 1.6, 3.3, "felt on the face, leaves rustle"),
        new(3, 3.4, 5.4, "leaves and small twigs never rest"),
        new(4, 5.5, 7.9, "small branches move"),
        new(5, 8.0, 10.7, "small trees in leaf sway"),
        new(6, 10.8, 13.8, "large branches move"),
    ];

    /// <summary>0 to 6.</summary>
    public int Force { get; }

    /// <summary>Lowest speed.</summary>
    public Speed From { get; }

    /// <summary>Highest speed.</summary>
    public Speed To { get; }

    /// <summary>What tells it on land.</summary>
    public string Sign { get; }

    /// <summary>The force of a wind; null above force 6.</summary>
    public static Beaufort? Of(Speed openWind) =>
        openWind.MetresPerSecond > 13.8 ? null : All.Last(force => force.From <= openWind);
}
