using Leafstop.Core.Sensor;

namespace Leafstop.Core.Tests.Sensor;

/// <summary>Predicted limits of Body A for a 60 cm print seen from 60 cm.</summary>
public sealed class LimitPredictionTests
{
    private static readonly double[] Isos = [100, 200, 400, 500, 640, 800, 1600, 3200, 6400, 12800, 25600];

    private static readonly CameraIdentity BodyA = new() { Make = "Invented", Model = "Body A", Width = 8256, Height = 5504, Mosaic = "2x2", Bits = 14 };

    private static ModelCurve Curve()
    {
        BenchAnswer answer = ExactBench.Metered(Isos).Answer();
        return ModelCurve.Of(answer.Levels, answer.GainSteps)!;
    }

    private static PredictedLimit At(LimitTone tone, double widthMm, double distanceMm) =>
        LimitPrediction.Of(Curve(), BodyA, new PrintCondition(widthMm, distanceMm)).Single(l => l.Tone == tone);

    [Fact]
    public void At_the_limit_the_print_has_the_published_ratio()
    {
        // Derived, by hand for 8256 pixels over 600 mm from 600 mm: 144.1 px/degree, merged to 60, so squares of 2.40 pixels a side.
        PredictedLimit limit = At(LimitTone.Minus3Ev, 600, 600);
        double perPixel = MeteredTone.SignalToNoise(Curve().At(limit.CleanExact!.Speed), -3);
        double onPrint = perPixel * LuminanceNoise.For("2x2").SignalToNoiseGain(144.1 / 60);
        Assert.Equal(40 * 30.544 / 60, onPrint, 0.02); // Published: EXP-30 with EXP-33; four digits by hand.
    }

    [Fact]
    public void Clean_comes_before_stretch_and_stretch_before_acceptable()
    {
        PredictedLimit limit = At(LimitTone.Minus3Ev, 1500, 600);
        Assert.True(limit.CleanExact! < limit.StretchExact!);
        Assert.True(limit.StretchExact! < limit.AcceptableExact!);
    }

    [Fact]
    public void Shadows_reach_their_limit_before_mid_grey()
    {
        Assert.True(At(LimitTone.Minus3Ev, 1500, 600).CleanExact! < At(LimitTone.MidGrey, 1500, 600).CleanExact!);
    }

    [Fact]
    public void A_limit_beyond_the_ladder_is_not_told()
    {
        PredictedLimit small = At(LimitTone.MidGrey, 100, 1000);
        Assert.Null(small.CleanExact);
        PredictedLimit huge = At(LimitTone.Minus3Ev, 60000, 300);
        Assert.Null(huge.CleanExact);
    }

    [Fact]
    public void Where_shot_noise_rules_and_pixels_are_fine_the_limit_follows_distance_over_width_squared()
    {
        // Derived: without read noise the ratio squared falls with ISO, and once the seen square holds many pixels merging grows with its
        // area: 1.2² = 1.44 with 8 pixels a side. 3 %: what interpolation still leaves there. With 1.2 pixels a side it gains less: 1.40 with the interpolation of judged crops, which
        // leaves grain almost as fine as the pixels.
        double Gain(double side) => Math.Pow(LuminanceNoise.For("2x2").SignalToNoiseGain(1.2 * side) / LuminanceNoise.For("2x2").SignalToNoiseGain(side), 2);
        Assert.Equal(1.44, Gain(8), 0.045);
        Assert.InRange(Gain(1.2), 1.2, 1.44);
        double near = At(LimitTone.MidGrey, 1200, 600).CleanExact!.Speed, far = At(LimitTone.MidGrey, 1200, 720).CleanExact!.Speed;
        double side = PrintCriterion.MergedSide(PrintCriterion.PixelsPerDegree(8256 / 1200.0, 600));
        Assert.Equal(Gain(side), far / near, 0.03);
    }

    [Fact]
    public void The_five_tags_are_there()
    {
        PredictedLimit limit = At(LimitTone.MidGrey, 600, 600);
        Assert.Equal("Invented Body A, 14-bit raw, 8256 pixels across", limit.Body);
        Assert.Equal(new PrintCondition(600, 600), limit.Print);
        Assert.Equal("none", limit.Treatment);
    }

    [Fact]
    public void Between_levels_read_noise_runs_straight_and_never_across_the_step()
    {
        ModelCurve curve = Curve();
        Assert.Equal((1.4 + 1.3) / 2, curve.At(1600 * Math.Sqrt(2)).ReadNoiseElectrons, 1e-3); // Derived: half way in log2 ISO.
        Assert.Equal(3.1 - 0.2 * Math.Log2(450 / 400.0), curve.At(450).ReadNoiseElectrons, 1e-3); // 200 to 400 carried on.
        Assert.Equal(1.6, curve.At(500).ReadNoiseElectrons, 1e-3);
        Assert.Equal(50000 * 100 / 450.0, curve.At(450).SaturationElectrons, 1);
        Assert.Throws<ArgumentOutOfRangeException>(() => curve.At(50));
    }
}
