using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;

namespace Leafstop.Core.Tests.Sensor;

/// <summary>Steps of read noise. Derived: the curve is drawn from the model, so its steps are known.</summary>
public sealed class GainStepSearchTests
{
    private static readonly double[] Isos = [100, 200, 400, 800, 1600, 3200, 6400, 12800];

    private static Level At(double iso, double readNoise, double share = 0.04)
    {
        double gain = 3.255 * 100 / iso;
        return new Level
        {
            Iso = Iso.FromSpeed(iso),
            Ladder = LadderKind.Metered,
            Frames = [],
            GainElectronsPerDn = new Estimate(gain, gain * 0.995, gain * 1.005),
            ReadNoiseElectrons = new Estimate(readNoise, readNoise * (1 - share), readNoise * (1 + share)),
            SaturationElectrons = 50000 * 100 / iso,
            Usable = true,
        };
    }

    /// <summary>√(a² + (b·g)²).</summary>
    private static Level Drawn(double iso, double a, double b) => At(iso, Math.Sqrt(a * a + Math.Pow(b * 3.255 * 100 / iso, 2)));

    [Fact]
    public void A_curve_without_a_step_has_none()
    {
        foreach (double b in new[] { 0, 0.5, 1, 2, 4 })
            Assert.Empty(GainStepSearch.Of(Isos.Select(iso => Drawn(iso, 1.5, b))));
    }

    [Theory]
    [InlineData(1.3)]
    [InlineData(1.9)]
    [InlineData(3)]
    public void A_step_of_1_3_and_more_is_placed_wherever_it_lies(double ratio)
    {
        // Between the two lowest levels a small step cannot be told from noise behind the amplifier: there it needs more than 1.3.
        for (int cut = ratio < 1.5 ? 2 : 1; cut < Isos.Length; cut++)
        {
            double above = Isos[cut];
            GainStep step = Assert.Single(GainStepSearch.Of(Isos.Select(iso => Drawn(iso, iso < above ? 1.4 * ratio : 1.4, 0.4))));
            Assert.Equal(above, step.Above.Speed);
            Assert.Equal(Isos[cut - 1], step.Below.Speed);
        }
    }

    [Fact]
    public void Two_steps_are_two()
    {
        var steps = GainStepSearch.Of(Isos.Select(iso => Drawn(iso, iso < 400 ? 4 : iso < 3200 ? 2.5 : 1.4, 0.3)));
        Assert.Equal([400, 3200], steps.Select(s => s.Above.Speed));
    }

    [Fact]
    public void Scatter_within_the_errors_makes_no_step()
    {
        // Seeded scatter of the size that the intervals state: 400 curves, none may show a step (Δχ² over 16 is one in 10⁴ by chance).
        var random = new Random(7);
        int found = 0;
        for (int i = 0; i < 400; i++)
        {
            var levels = Isos.Select(iso => Drawn(iso, 1.5, 0.8)).Select(l => At(l.Iso.Speed, l.ReadNoiseElectrons!.Value.Value * (1 + 0.02 * Normal(random)))).ToArray();
            found += GainStepSearch.Of(levels).Length;
        }

        Assert.Equal(0, found);
    }

    [Fact]
    public void A_level_that_is_not_usable_is_left_out() =>
        Assert.Empty(GainStepSearch.Of(Isos.Select(iso => iso == 6400 ? At(iso, 0.9) with { Usable = false, Reason = "Smoothed." } : Drawn(iso, 1.5, 0.5))));

    private static double Normal(Random random) => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
