using System.Collections.Immutable;
using Leafstop.Core.Sensor;

namespace Leafstop.Core.Tests.Sensor;

public sealed class PhotonTransferTests
{
    [Fact]
    public void Gain_and_read_noise_from_two_flats_and_two_biases()
    {
        // Published: SEN-01 (IRAF findgain, Janesick's method): flats of 15 000 and 15 020, biases of 1000, sd of the flat
        // difference 150, of the bias difference 5: 1.2467186 e-/DN and 4.4078158 e-. The line needs three tones: two more lie on it.
        double slope = (150 * 150 - 25) / 2.0 / 14_010;
        SignalBin[] bins = [.. new[] { 140.1, 1401, 14_010 }.Select(s => Bin(1000 + s, 12.5 + slope * s, 10_000))];
        FitOutcome fit = PhotonTransfer.Fit([.. bins], 1000, 65_535, new Estimate(12.5, 12.4, 12.6));
        Assert.Equal(1.2467186, fit.GainElectronsPerDn!.Value.Value, 1e-6);
        Assert.Equal(4.4078158, fit.ReadNoiseElectrons!.Value.Value, 1e-6);
    }

    [Theory]
    [InlineData(1_000_000, 0.00141421)]
    [InlineData(10_000, 0.0141421)]
    public void The_variance_of_cap_frames_is_known_to_its_published_error(int samples, double share)
    {
        // Published: SEN-36, standard error of a variance sqrt(2/n): 0.141421 % at a million.
        Estimate dark = PhotonTransfer.DarkVariance([Bin(512, 9, samples)]);
        Assert.Equal(share * 9, (dark.High - dark.Low) / 2 / 1.959964, 1e-6 * 9);
    }

    [Fact]
    public void A_straight_line_comes_back_exactly()
    {
        // Derived: points without noise on 2.5 DN^2 + signal / 1.25 e-/DN.
        FitOutcome fit = PhotonTransfer.Fit(Line(2.5, 0.8), 500, 16_000, null);
        Assert.Equal(1.25, fit.GainElectronsPerDn!.Value.Value, 1e-9);
        Assert.Equal(Math.Sqrt(2.5) * 1.25, fit.ReadNoiseElectrons!.Value.Value, 1e-8);
        Assert.False(fit.IsNotLinear);
    }

    [Fact]
    public void Four_like_planes_joined_are_known_twice_as_well()
    {
        FitOutcome one = PhotonTransfer.Fit(Line(2.5, 0.8), 500, 16_000, null), joint = PhotonTransfer.Join([one, one, one, one]);
        Assert.Equal(one.GainElectronsPerDn!.Value.Value, joint.GainElectronsPerDn!.Value.Value, 1e-9);
        Assert.Equal(one.GainElectronsPerDn.Value.RelativeHalfWidth / 2, joint.GainElectronsPerDn.Value.RelativeHalfWidth, 1e-6);
        Assert.Equal(one.ReadNoiseElectrons!.Value.RelativeHalfWidth / 2, joint.ReadNoiseElectrons!.Value.RelativeHalfWidth, 1e-4);
    }

    [Fact]
    public void A_bent_curve_is_noticed_and_widens_the_interval()
    {
        // Derived: 4 % more variance in the middle tones, far beyond what 200 000 samples a point allow.
        ImmutableArray<SignalBin> straight = [.. Line(2.5, 0.8).Select(b => b with { DegreesOfFreedom = 200_000 })], bent = [.. straight.Select(b => b with { VarianceDn2 = b.VarianceDn2 * (b.MeanRawDn is > 700 and < 3000 ? 1.04 : 1) })];
        FitOutcome fit = PhotonTransfer.Fit(bent, 500, 16_000, null);
        Assert.True(fit.IsNotLinear);
        Assert.True(fit.GainElectronsPerDn!.Value.RelativeHalfWidth > 1.2 * PhotonTransfer.Fit(straight, 500, 16_000, null).GainElectronsPerDn!.Value.RelativeHalfWidth);
    }

    [Fact]
    public void Tones_near_clip_do_not_count()
    {
        // Derived: above 70 % of the way to clip anything may be written.
        ImmutableArray<SignalBin> bins = [.. Line(2.5, 0.8), Bin(500 + 0.75 * 15_500, 1, 100_000)];
        Assert.Equal(1.25, PhotonTransfer.Fit(bins, 500, 16_000, null).GainElectronsPerDn!.Value.Value, 1e-9);
    }

    [Fact]
    public void What_cannot_be_fitted_is_refused_with_a_reason()
    {
        Assert.Contains("3", PhotonTransfer.Fit([Bin(600, 50, 1000), Bin(900, 90, 1000)], 500, 16_000, null).Refusal, StringComparison.Ordinal);
        Assert.Contains("nearly the same", PhotonTransfer.Fit([Bin(1600, 50, 1000), Bin(1601, 50, 1000), Bin(1602, 50, 1000)], 500, 16_000, null).Refusal, StringComparison.Ordinal);
        Assert.Contains("no room", PhotonTransfer.Fit(Line(-30, 0.8), 500, 16_000, null).Refusal, StringComparison.Ordinal);
    }

    private static ImmutableArray<SignalBin> Line(double intercept, double slope) =>
        [.. Enumerable.Range(0, 24).Select(i => 3 * Math.Pow(1.4, i)).Where(s => s < 10_000).Select(s => Bin(500 + s, intercept + slope * s, 20_000))];

    private static SignalBin Bin(double mean, double variance, long samples) => new() { Samples = samples, DegreesOfFreedom = samples, MeanRawDn = mean, VarianceDn2 = variance };
}
