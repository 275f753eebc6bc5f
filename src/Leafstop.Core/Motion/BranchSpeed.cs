using Leafstop.Core.Quantities;

namespace Leafstop.Core.Motion;

/// <summary>How fast branches and crowns of trees out in the wind move towards and from an observer.</summary>
/// <remarks>Billingsley, Low-Angle Radar Land Clutter (2002), W-14: speeds of radial motion are distributed as ½β·e^(−β|v|) with
/// 1/β = 0.1048·(log10 w + 0.4147) m/s, w the wind in miles an hour. Use the larger of this and <see cref="LeafSpeed"/> when whole branches are in
/// the picture; with 5 cm leaves they cross near 6 m/s (W-15). Radar sees motion along its beam; motion across it is taken as alike.</remarks>
public sealed record BranchSpeed
{
    private BranchSpeed(double scale) => Mean = Speed.FromMetresPerSecond(scale);

    /// <summary>Mean speed, 1/β.</summary>
    public Speed Mean { get; }

    /// <summary>Root mean square speed, √2/β.</summary>
    public Speed RootMeanSquare => Speed.FromMetresPerSecond(Math.Sqrt(2) * Mean.MetresPerSecond);

    /// <summary>The speed that a share of the moving parts stays below: −ln(1 − share)/β.</summary>
    /// <param name="share">Below 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">All of them: the law has no end.</exception>
    public Speed Below(Chance share) => share.Share < 1
        ? Speed.FromMetresPerSecond(-Math.Log(1 - share.Share) * Mean.MetresPerSecond)
        : throw new ArgumentOutOfRangeException(nameof(share), share.Share, "No speed is above them all: ask for less than 100 %.");

    /// <summary>Takes the wind in the open.</summary>
    /// <returns>The speeds; null below 0.5 m/s and above 20 m/s, where the law says nothing.</returns>
    public static BranchSpeed? In(Speed openWind) => openWind.MetresPerSecond is >= 0.5 and <= 20
        ? new BranchSpeed(0.1048 * (Math.Log10(openWind.MilesPerHour) + 0.4147))
        : null;
}
