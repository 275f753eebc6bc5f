using Leafstop.Core.Sensor;
using Leafstop.Raw.Synthetic;

namespace Leafstop.Raw.Tests.Scenarios;

/// <summary>Compares an answer with what the generator was told.</summary>
internal static class Truth
{
    /// <summary>Findings that tell of the body or the lamp, not of a fault: Body A clips below its tag on purpose.</summary>
    private static readonly FindingCode[] Harmless = [FindingCode.ClipNotAtTag];

    /// <summary>The accuracy asked of the measurement: joint gain 1 %, read noise 5 % or 0.1 DN, saturation 1 %; a single plane 2 % and 10 %.</summary>
    public static void HoldsFor(BenchAnswer answer, SampleOptions options)
    {
        Dictionary<double, LevelTruth> truth = new SyntheticBench(options).Levels.ToDictionary(l => l.Iso);
        Assert.Equal(options.Isos.Length, answer.Levels.Length);
        foreach (Level level in answer.Levels.Where(l => l.Usable))
        {
            LevelTruth t = truth[level.Iso.Speed];
            Near(t, "gain", t.GainElectronsPerDn, level.GainElectronsPerDn!.Value.Value, 0.01 * t.GainElectronsPerDn);
            Near(t, "read noise", t.ReadNoiseElectrons, level.ReadNoiseElectrons!.Value.Value, Math.Max(0.05 * t.ReadNoiseElectrons, 0.1 * t.GainElectronsPerDn));
            Near(t, "saturation", t.SaturationElectrons, level.SaturationElectrons!.Value, 0.01 * t.SaturationElectrons);
            foreach (PlaneModel plane in level.Planes)
            {
                Near(t, $"gain of {plane.Plane}", t.GainElectronsPerDn, plane.GainElectronsPerDn.Value, 0.02 * t.GainElectronsPerDn);
                Near(t, $"read noise of {plane.Plane}", t.ReadNoiseElectrons, plane.ReadNoiseElectrons.Value, Math.Max(0.1 * t.ReadNoiseElectrons, 0.1 * t.GainElectronsPerDn));
            }
        }
    }

    /// <summary>A clean ladder: every level usable, nothing named.</summary>
    public static void NothingIsBlamed(BenchAnswer answer)
    {
        Assert.All(answer.Levels, l => Assert.True(l.Usable, $"ISO {l.Iso.Speed}: {l.Reason}"));
        Assert.All(answer.Levels, l => Assert.True(l.Flags.IsEmpty, $"ISO {l.Iso.Speed}: {string.Join(", ", l.Flags)}"));
        Assert.DoesNotContain(answer.Findings, f => !Harmless.Contains(f.Code));
    }

    private static void Near(LevelTruth level, string what, double expected, double actual, double tolerance) =>
        Assert.True(Math.Abs(actual - expected) <= tolerance, $"ISO {level.Iso}, {what}: {actual:G5} measured, {expected:G5} true, ± {tolerance:G3} allowed.");
}
