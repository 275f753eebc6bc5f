using Leafstop.Core.Sensor;

namespace Leafstop.Core.Tests.Sensor;

/// <summary>Noise in the brightness maps must not pass for a moved tripod or a drifting lamp. Derived: nothing moved, nothing drifted.</summary>
public sealed class MapNoiseTests
{
    private static readonly double[] Isos = [100, 200, 400, 800, 1600, 3200, 6400, 12800];

    [Fact]
    public void Shot_noise_of_sound_ladders_makes_no_finding()
    {
        for (int seed = 1; seed <= 20; seed++)
        {
            ExactBench bench = seed % 2 == 0 ? ExactBench.Metered(Isos) : ExactBench.SameLight(1600, [.. Isos.Take(7)]);
            Roughen(bench, new Random(seed));
            Finding[] wrong = [.. bench.Answer().Findings.Where(f => f.Code is not FindingCode.SameLightOnly)];
            Assert.True(wrong.Length == 0, $"seed {seed}: {string.Join(" / ", wrong.Select(f => f.Text))}");
        }
    }

    [Fact]
    public void A_shift_of_four_tenths_is_found_in_spite_of_noise()
    {
        for (int seed = 1; seed <= 10; seed++)
        {
            ExactBench bench = ExactBench.Metered(Isos);
            foreach (double iso in Isos.Skip(4))
                bench.ChangeFrames(iso, f => f with { Map = f.Map with { MeanRawDn = [.. ExactBench.Scene(0.4).Select(ExactBench.Raw)] } });
            Roughen(bench, new Random(seed));
            Finding finding = Assert.Single(bench.Answer().Findings);
            Assert.Contains("between ISO\u00a0800 and ISO\u00a01600", finding.Text, StringComparison.Ordinal);
        }
    }

    /// <summary>Adds the noise of a mean of 312 green samples (25 × 25 block) to every block.</summary>
    private static void Roughen(ExactBench bench, Random random)
    {
        foreach (double iso in bench.Frames.Select(f => f.Header.Iso!.Value).Distinct().ToArray())
        {
            NoiseModel model = ExactBench.Model(iso);
            bench.ChangeFrames(iso, f => f with
            {
                Map = f.Map with
                {
                    MeanRawDn = [.. f.Map.MeanRawDn.Select(v =>
                    {
                        if (v < 0) return v;
                        double electrons = (v - ExactBench.BlackDn) * model.GainElectronsPerDn;
                        double sd = Math.Sqrt((electrons + model.ReadNoiseElectrons * model.ReadNoiseElectrons) / 312);
                        double normal = Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
                        return (float)(v + normal * sd / model.GainElectronsPerDn);
                    })],
                },
            });
        }
    }
}
