using Leafstop.Core.Sensor;
using Leafstop.Raw.Synthetic;
using Leafstop.Testing;

namespace Leafstop.Raw.Tests.Scenarios;

/// <summary>Each fault at its least and at its most is named, at the right level, and what can still be measured stays true. Derived.</summary>
public sealed class FaultTests
{
    private static readonly SampleOptions Short = AccuracyTests.Options(0, "2x2", 0) with { Isos = [400, 500, 640, 800, 1600, 3200] };

    public static TheoryData<int> Seeds => [.. Enumerable.Range(0, 5)];

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Lamp_drift(int seed)
    {
        foreach (double stops in (double[])[0.15, -0.15, 1])
        {
            BenchAnswer answer = Measure(seed, new SampleFaults { LampDriftIso = 1600, LampDriftStops = stops });
            Level level = At(answer, 1600);
            Assert.Contains(LevelFlag.LightDrift, level.Flags);
            Assert.Equal(stops, level.LightErrorStops!.Value, 0.02);
            Assert.True(level.Usable);
            Assert.Contains(answer.Findings, f => f.Code == FindingCode.LightDrift && f.Reshoot && f.Frames.Length == 2);
            // One stop more light also clips more than a hundredth of the frame, and is told so.
            if (stops < 1) OnlyHas(answer, LevelFlag.LightDrift, 1600);
        }
    }

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Smoothing(int seed)
    {
        foreach (string mosaic in (string[])["2x2", "6x6"])
        {
            foreach (double rho in (double[])[0.06, 0.3])
            {
                BenchAnswer answer = Measure(seed, new SampleFaults { SmoothingFromIso = 1600, SmoothingCorrelation = rho }, mosaic);
                Assert.Equal(rho, At(answer, 1600).NeighbourCorrelation!.Value, 0.015);
                OnlyHas(answer, LevelFlag.Smoothed, 1600, 3200);
                Assert.All(answer.Levels, l => Assert.Equal(l.Iso.Speed < 1600, l.Usable));
            }
        }
    }

    /// <summary>The filter of the generator runs along the rows, as the bands do.</summary>
    [Theory]
    [InlineData("2x2", 0, 0.12)]
    [InlineData("2x2", 2, 0.3)]
    [InlineData("6x6", 0, 0.3)]
    [InlineData("6x6", 2, 0.12)]
    public void Smoothing_behind_bands(string mosaic, int caps, double rho)
    {
        var faults = new SampleFaults { SmoothingFromIso = 1600, SmoothingCorrelation = rho, RowBanding = 0.3 };
        SampleOptions options = Short with { Seed = 51, Faults = faults, CapFramesPerLevel = caps, Mosaic = mosaic == "6x6" ? BenchMosaic.SixBySix : BenchMosaic.TwoByTwo };
        BenchAnswer answer = SyntheticMeasurement.Answer(options);
        Assert.Equal([1600.0, 3200.0], answer.Levels.Where(l => l.Flags.Contains(LevelFlag.Smoothed)).Select(l => l.Iso.Speed));
        Assert.All(answer.Levels, l => Assert.Equal(l.Iso.Speed < 1600, l.Usable));
        Assert.Equal(rho, At(answer, 1600).NeighbourCorrelation!.Value, 0.015);
        Assert.DoesNotContain(answer.Findings, f => f.Code == FindingCode.LightDrift);
    }

    [Theory]
    [InlineData("2x2")]
    [InlineData("6x6")]
    public void Bands_alone_are_no_smoothing(string mosaic)
    {
        foreach (double strength in (double[])[0.3, 2])
        {
            BenchAnswer answer = Measure(11_000, new SampleFaults { RowBanding = strength }, mosaic);
            Assert.All(answer.Levels, l => Assert.DoesNotContain(LevelFlag.Smoothed, l.Flags));
            Assert.DoesNotContain(answer.Findings, f => f.Code == FindingCode.SlightlySmoothed);
        }
    }

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Arithmetic_iso(int seed)
    {
        BenchAnswer answer = Measure(seed, new SampleFaults { ArithmeticIso = 640 });
        OnlyHas(answer, LevelFlag.Arithmetic, 640);
        Assert.False(At(answer, 640).Usable);
        Assert.False(At(Measure(seed, new SampleFaults { ArithmeticIso = 1600 }), 1600).Usable);
    }

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Moved_tripod(int seed)
    {
        foreach (var (x, y) in ((double, double)[])[(0.4, 0), (0, -0.4), (2, 2.2)])
        {
            foreach (string mosaic in (string[])["2x2", "6x6"])
            {
                BenchAnswer answer = Measure(seed, new SampleFaults { MovedIso = 500, MovedXPx = x, MovedYPx = y }, mosaic);
                OnlyHas(answer, LevelFlag.Moved, 500);
                Assert.False(At(answer, 500).Usable);
                Assert.Contains(answer.Findings, f => f.Code == FindingCode.Moved && f.Reshoot);
            }
        }
    }

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Hot_pixels(int seed)
    {
        foreach (double share in (double[])[0.0002, 0.005])
        {
            BenchAnswer answer = Measure(seed, new SampleFaults { HotPixelShare = share });
            Assert.Contains(answer.Findings, f => f.Code == FindingCode.HotPixels);
            Assert.All(answer.Levels, l => Assert.True(l.Usable));
        }
    }

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Row_banding(int seed)
    {
        foreach (double strength in (double[])[0.3, 2])
        {
            BenchAnswer answer = Measure(seed, new SampleFaults { RowBanding = strength });
            Assert.All(answer.Levels, l => Assert.Contains(LevelFlag.Banded, l.Flags));
            Assert.All(answer.Levels, l => Assert.True(l.Usable));
        }
    }

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Clipped_black(int seed)
    {
        BenchAnswer answer = Measure(seed, new SampleFaults { ClippedBlackFromIso = 800 });
        OnlyHas(answer, LevelFlag.BlackClipped, 800, 1600, 3200);
        Assert.All(answer.Levels, l => Assert.Equal(l.Iso.Speed < 800, l.Usable));
    }

    private static BenchAnswer Measure(int seed, SampleFaults faults, string mosaic = "2x2")
    {
        SampleOptions options = Short with { Seed = (ulong)(9000 + seed), Faults = faults, Mosaic = mosaic == "6x6" ? BenchMosaic.SixBySix : BenchMosaic.TwoByTwo };
        BenchAnswer answer = SyntheticMeasurement.Answer(options);
        Truth.HoldsFor(answer, options);
        return answer;
    }

    private static Level At(BenchAnswer answer, double iso) => Assert.Single(answer.Levels, l => l.Iso.Speed == iso);

    private static void OnlyHas(BenchAnswer answer, LevelFlag flag, params double[] isos)
    {
        Assert.Equal(isos, answer.Levels.Where(l => l.Flags.Contains(flag)).Select(l => l.Iso.Speed));
        Assert.All(answer.Levels, l => Assert.DoesNotContain(l.Flags, f => f != flag));
    }
}
