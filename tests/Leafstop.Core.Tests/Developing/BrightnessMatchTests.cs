using Leafstop.Core.Developing;

namespace Leafstop.Core.Tests.Developing;

/// <summary>Derived: log2 of ratios.</summary>
public sealed class BrightnessMatchTests
{
    [Fact]
    public void Channels_are_matched_each_by_itself()
    {
        BrightnessMatch match = BrightnessMatch.Of(800, [100, 200, 80], [50, 110, 38], 1, 0);
        Assert.True(match.IsMatched);
        Assert.Equal(new[] { 2, 200 / 110.0, 80 / 38.0 }, match.Factors.Select(f => Math.Round(f, 12)), (a, b) => Math.Abs(a - b) < 1e-9);
        Assert.Equal(Math.Log2(200 / 110.0), match.CorrectionStops, 1e-12);
        Assert.Equal(Math.Log2(200 / 110.0) - 1, match.UnexplainedStops!.Value, 1e-12);
    }

    [Theory]
    [InlineData(142, true)]
    [InlineData(141, false)]
    [InlineData(282, true)]
    [InlineData(283, false)]
    public void Half_a_stop_beyond_the_settings_is_the_most(double own, bool matched)
    {
        // 200/√2 = 141.42 and 200·√2 = 282.84.
        BrightnessMatch match = BrightnessMatch.Of(1600, [200], [own], 0, 0);
        Assert.Equal(matched, match.IsMatched);
    }

    [Fact]
    public void A_refusal_says_what_is_wrong_and_what_to_do()
    {
        BrightnessMatch match = BrightnessMatch.Of(1600, [200, 200, 200], [200, 115, 200], 0, 0);
        Assert.Equal("This crop at ISO\u00a01600 is 0.8 stop darker than ISO, shutter and aperture explain; more than 1/2 stop is not matched. Shoot this level again in the same light as the others.", match.Refusal);
        Assert.Equal([1, 1, 1], match.Factors);
        Assert.Contains("clipped", BrightnessMatch.Of(1600, [200], [200], 0, 0.03).Refusal, StringComparison.Ordinal);
        BrightnessMatch dark = BrightnessMatch.Of(1600, [200], [-0.5], 0, 0);
        Assert.Null(dark.UnexplainedStops);
        // The same frame again would hold no more light.
        Assert.DoesNotContain("again in the same light", dark.Refusal, StringComparison.Ordinal);
        Assert.Contains("choose a brighter place", dark.Refusal, StringComparison.Ordinal);
        Assert.False(dark.IsMatched);
    }
}
