using Leafstop.Core.Developing;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;

namespace Leafstop.Core.Tests.Sensor;

/// <summary>A fact of the trade against the prediction. Common practice, no source: with some 26 megapixels on 23.5 × 15.6 mm, base ISO 160, looking at 100 % on a desktop screen, one
/// practitioner saw nothing at 1600, the first trace at 2500 (kept as clean) and plain noise at 5000 (kept as the most to be used).</summary>
/// <remarks>The model is invented, plausible, and shown with its reasons in docs/method/visible-noise.md. Neither the screen nor the developer of that practitioner is known; the
/// most plausible condition misses, and is pinned first.</remarks>
public sealed class TradeFactTests
{
    private const int Across = 6240, Down = 4160;

    // As much light a square micrometre at the same ISO as Body A of the job (50 000 e⁻ at ISO 100 on 4.36 µm), on 3.76 µm.
    private static readonly double ClipAtIso100 = 50_000 * (3.76 * 3.76) / (4.36 * 4.36);

    private static readonly MosaicPattern TwoByTwo = new() { Rows = 2, Columns = 2, Letters = "RGGB" };
    private static readonly MosaicPattern SixBySix = new() { Rows = 6, Columns = 6, Letters = "GGRGGBGGBGGRBRGRBGGGBGGRGGRGGBRBGBRG" };

    // Pinned: the condition that docs/decisions/0012 gives reasons for, an ordinary screen of 100 pixels an inch at 60 cm and the interpolation of our judged crops, MISSES the fact: clean by 1.1 stops more than the one
    // that is allowed, and stretch does not reach 5000. Whoever changes it should know.
    [Theory]
    [InlineData("2x2", -2.06)]
    [InlineData("6x6", -2.10)]
    public void On_the_ordinary_screen_the_fact_is_missed(string mosaic, double stops)
    {
        PredictedLimit limit = Predicted(mosaic, pixelsPerInch: 100);
        Assert.Equal(stops, Math.Log2(limit.CleanExact!.Speed / 2500), 0.05);
        Assert.InRange(limit.StretchExact!.Speed, 2200, 2500);
    }

    // Pinned: shares of a raw pixel's variance that the raw library's own methods leave in luminance, measured on white noise (docs/decisions/0012), with the criterion as it is. Every one that
    // follows edges misses; the fact needs 0.43 or less. Clean to 2 %: read noise is taken as 1.35 e⁻ at all of these.
    [Theory]
    [InlineData(0.836, 640)]
    [InlineData(0.747, 720)]
    [InlineData(0.676, 790)]
    [InlineData(0.602, 890)]
    [InlineData(0.43, 1250)]
    public void On_the_ordinary_screen_no_method_that_follows_edges_meets_it(double share, double clean)
    {
        double perDegree = PrintCriterion.PixelsPerDegree(100 / 25.4, 600), gain = 1 / Math.Sqrt(share);
        double predicted = 100 * ClipAtIso100 * MeteredTone.MidGreyShare / NeededSignal.Electrons(PrintCriterion.Needed(PrintCriterion.Clean, perDegree) / gain, 1.35);
        Assert.Equal(clean, predicted, 0.02 * clean);
        Assert.Equal(share > 0.43, Math.Log2(predicted / 2500) < -1.02);
    }

    // Conditions that meet it, found by trying and therefore no confirmation: a fine desktop screen, 163 pixels an inch at 60 cm, with the interpolation of our judged crops,
    [Theory]
    [InlineData("2x2")]
    [InlineData("6x6")]
    public void On_a_fine_screen_the_predicted_limits_meet_the_fact(string mosaic)
    {
        PredictedLimit limit = Predicted(mosaic, pixelsPerInch: 163);
        Assert.Equal(0, Math.Log2(limit.CleanExact!.Speed / 2500), 1.0);
        Assert.True(limit.StretchExact!.Speed >= 5000);
    }

    // and an ordinary screen with plain bilinear interpolation, the softest that is in use.
    [Theory]
    [InlineData("2x2")]
    [InlineData("6x6")]
    public void On_an_ordinary_screen_they_meet_it_when_the_picture_was_developed_softly(string mosaic)
    {
        double perDegree = PrintCriterion.PixelsPerDegree(100 / 25.4, 600);
        double gain = LuminanceNoise.Of(MosaicInterpolation.Bilinear(mosaic == "2x2" ? TwoByTwo : SixBySix)).SignalToNoiseGain(PrintCriterion.MergedSide(perDegree));
        Assert.Equal(0, Math.Log2(IsoAt(PrintCriterion.Clean) / 2500), 1.0);
        Assert.True(IsoAt(PrintCriterion.Stretch) >= 5000);

        double IsoAt(double level) =>
            100 * ClipAtIso100 * MeteredTone.MidGreyShare / NeededSignal.Electrons(PrintCriterion.Needed(level, perDegree) / gain, 1.3);
    }

    private static PredictedLimit Predicted(string mosaic, double pixelsPerInch)
    {
        (double Iso, double ReadNoise)[] levels = [(160, 3.3), (400, 3.1), (800, 1.5), (1600, 1.4), (3200, 1.3), (12800, 1.25)];
        ModelCurve curve = ModelCurve.Of(
            levels.Select(l => (Iso.FromSpeed(l.Iso), new NoiseModel(1, l.ReadNoise, ClipAtIso100 * 100 / l.Iso))), [(Iso.FromSpeed(400), Iso.FromSpeed(800))])!;
        CameraIdentity camera = new() { Make = "Invented", Model = "Body C", Width = Across, Height = Down, Mosaic = mosaic, Bits = 14 };
        return LimitPrediction.Of(curve, camera, new PrintCondition(Across / pixelsPerInch * 25.4, 600)).Single(l => l.Tone == LimitTone.MidGrey);
    }
}
