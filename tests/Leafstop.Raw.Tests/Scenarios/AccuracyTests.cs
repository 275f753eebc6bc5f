using Leafstop.Core.Sensor;
using Leafstop.Raw.Synthetic;
using Leafstop.Testing;

namespace Leafstop.Raw.Tests.Scenarios;

/// <summary>Body A measured at 1200×800, one pair a level, against its own truth. Derived: the truth is what the generator was told.</summary>
public sealed class AccuracyTests
{
    public static TheoryData<int, string, int> Seeds => [.. Enumerable.Range(0, 20).Select(i => new TheoryDataRow<int, string, int>(i, i % 2 == 0 ? "2x2" : "6x6", i % 4 < 2 ? 2 : 0))];

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Clean_ladders_come_out_true_and_unblamed(int seed, string mosaic, int caps)
    {
        SampleOptions options = Options(seed, mosaic, caps);
        BenchAnswer answer = SyntheticMeasurement.Answer(options);
        Truth.HoldsFor(answer, options);
        Truth.NothingIsBlamed(answer);
        Assert.Equal(LadderKind.Metered, answer.Ladder);
        Assert.Equal(500, Assert.Single(answer.GainSteps).Above.Speed);
    }

    [Fact]
    public void Forty_five_megapixels_come_out_true()
    {
        SampleOptions options = Options(1, "2x2", 0) with { Width = 8256, Height = 5504, Isos = [400, 500, 800] };
        BenchAnswer answer = SyntheticMeasurement.Answer(options);
        Truth.HoldsFor(answer, options);
        Truth.NothingIsBlamed(answer);
    }

    [Theory]
    [InlineData(0.003)]
    [InlineData(0.01)]
    [InlineData(0.02)]
    public void Uneven_pixels_cancel_in_the_pair(double spread)
    {
        SampleOptions options = Options(11, "2x2", 0) with { PixelResponseSpread = spread, Isos = [100, 200, 400, 500, 800] };
        BenchAnswer answer = SyntheticMeasurement.Answer(options);
        Truth.HoldsFor(answer, options);
        Truth.NothingIsBlamed(answer);
    }

    [Theory]
    [InlineData("2x2", 0)]
    [InlineData("6x6", 2)]
    public void Single_frames_are_measured_with_an_interval_that_holds_the_truth(string mosaic, int caps)
    {
        SampleOptions options = Options(5, mosaic, caps) with { FramesPerLevel = 1, Isos = [100, 400, 800, 3200] };
        Dictionary<double, LevelTruth> truth = new SyntheticBench(options).Levels.ToDictionary(l => l.Iso);
        BenchAnswer answer = SyntheticMeasurement.Answer(options);
        Assert.All(answer.Levels, level =>
        {
            LevelTruth t = truth[level.Iso.Speed];
            Assert.Contains(LevelFlag.SingleFrame, level.Flags);
            Assert.InRange(t.GainElectronsPerDn, level.GainElectronsPerDn!.Value.Low, level.GainElectronsPerDn.Value.High);
            Assert.InRange(t.ReadNoiseElectrons, level.ReadNoiseElectrons!.Value.Low, level.ReadNoiseElectrons.Value.High);
        });
    }

    internal static SampleOptions Options(int seed, string mosaic, int caps) => new()
    {
        Width = 1200,
        Height = 800,
        Seed = (ulong)(500 + seed),
        Mosaic = mosaic == "6x6" ? BenchMosaic.SixBySix : BenchMosaic.TwoByTwo,
        CapFramesPerLevel = caps,
    };
}
