using System.Collections.Immutable;
using Leafstop.Core.Quantities;

namespace Leafstop.Core.Motion;

/// <summary>Speeds of water to start from when none was measured.</summary>
/// <remarks>Ranges, worked out from <see cref="FallingWater"/>, <see cref="StreamFlow"/> and <see cref="SeaWave"/> except where the row names a measurement.
/// One test frame tells more: <see cref="WaterView.SpeedFrom"/>.</remarks>
public static class WaterSpeedTable
{
    // mean of 15 steep reaches with wood, Yochum et al. 2012, J. Hydrol. 424–425:84.
    private const double SteepReachMean = 0.44;

    // fastest of the row's examples, 0.4 m deep, slope 0.05, n 0.07.
    private static readonly Speed SteepReachFast = StreamFlow.Manning(Length.FromMetres(0.4), 0.05, 0.07);
    private static readonly Length Shallow = Length.FromMetres(0.2);

    /// <summary>The rows, slowest first within falls, streams and sea.</summary>
    public static ImmutableArray<WaterSpeedRow> Rows { get; } =
    [
        Fall("fall of 0.5 m", 0.5), Fall("fall of 1 m", 1), Fall("fall of 2 m", 2), Fall("fall of 3 m", 3), Fall("fall of 5 m", 5), Fall("fall of 10 m", 10), Fall("fall of 20 m", 20),
        new("pool, 20 cm deep", Speed.FromMetresPerSecond(0), StreamFlow.AtFroude(Shallow, StreamFlow.PoolFroude), "A-09, A-10"),
        new("run between pool and riffle, 20 cm deep", StreamFlow.AtFroude(Shallow, StreamFlow.PoolFroude), StreamFlow.AtFroude(Shallow, StreamFlow.RiffleFroude), "A-09, A-10"),
        new("riffle, 20 cm deep", StreamFlow.AtFroude(Shallow, StreamFlow.RiffleFroude), StreamFlow.AtFroude(Shallow, 1), "A-09, A-10; upper end where waves stand"),
        new("steep stream over boulders", Speed.FromMetresPerSecond(SteepReachMean), SteepReachFast, "A-07 measured, A-04"),
        new("surf, crest of a breaker of 1 to 2 m", SeaWave.BreakingCrest(Length.FromMetres(1)), SeaWave.BreakingCrest(Length.FromMetres(2)), "A-14"),
        new("surf, backwash", SeaWave.InShallowWater(Length.FromMetres(0.5)), SeaWave.BreakingCrest(Length.FromMetres(2)), "of the order of the crest: A-12, A-14, A-17"),
    ];

    private static WaterSpeedRow Fall(string name, double metres)
    {
        SpeedBand foot = FallingWater.AtFoot(Length.FromMetres(metres));
        return new WaterSpeedRow(name + ", at its foot", foot.Low, foot.High, "A-01, A-02");
    }
}

/// <summary>A kind of water and how fast it runs.</summary>
/// <param name="Name">What it is.</param>
/// <param name="Low">Lower end.</param>
/// <param name="High">Upper end.</param>
/// <param name="Source">Rows of the check table that it rests on.</param>
public sealed record WaterSpeedRow(string Name, Speed Low, Speed High, string Source);
