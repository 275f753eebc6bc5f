using System.Globalization;
using Leafstop.Core.Sensor;
using Leafstop.Raw.Synthetic;
using Leafstop.Testing;

namespace Leafstop.Benchmarks;

/// <summary>Sets each fault at its least and at its most, over many seeds, and tells how often it is named at the right levels and what else is.</summary>
internal static class FaultCampaign
{
    private sealed record Fault(string Name, SampleFaults Faults, LevelFlag Flag, params double[] Isos);

    private static readonly double[] Isos = [100, 400, 500, 640, 800, 1600, 3200];

    private static readonly Fault[] All =
    [
        new("lamp +0.15", new SampleFaults { LampDriftIso = 1600, LampDriftStops = 0.15 }, LevelFlag.LightDrift, 1600),
        new("lamp -0.15", new SampleFaults { LampDriftIso = 400, LampDriftStops = -0.15 }, LevelFlag.LightDrift, 400),
        new("lamp +1", new SampleFaults { LampDriftIso = 800, LampDriftStops = 1 }, LevelFlag.LightDrift, 800),
        new("smoothing 0.06", new SampleFaults { SmoothingFromIso = 1600, SmoothingCorrelation = 0.06 }, LevelFlag.Smoothed, 1600, 3200),
        new("smoothing 0.3", new SampleFaults { SmoothingFromIso = 1600, SmoothingCorrelation = 0.3 }, LevelFlag.Smoothed, 1600, 3200),
        new("arithmetic third", new SampleFaults { ArithmeticIso = 640 }, LevelFlag.Arithmetic, 640),
        new("arithmetic stop", new SampleFaults { ArithmeticIso = 1600 }, LevelFlag.Arithmetic, 1600),
        new("moved 0.4", new SampleFaults { MovedIso = 500, MovedXPx = 0.4 }, LevelFlag.Moved, 500),
        new("moved 3", new SampleFaults { MovedIso = 500, MovedXPx = 2, MovedYPx = -2.24 }, LevelFlag.Moved, 500),
        new("hot 2e-4", new SampleFaults { HotPixelShare = 0.0002 }, LevelFlag.HotPixels, Isos),
        new("hot 5e-3", new SampleFaults { HotPixelShare = 0.005 }, LevelFlag.HotPixels, Isos),
        new("banding 0.3", new SampleFaults { RowBanding = 0.3 }, LevelFlag.Banded, Isos),
        new("banding 2", new SampleFaults { RowBanding = 2 }, LevelFlag.Banded, Isos),
        new("black clipped", new SampleFaults { ClippedBlackFromIso = 800 }, LevelFlag.BlackClipped, 800, 1600, 3200),
    ];

    public static int Run(string[] args)
    {
        int seeds = int.Parse(args[0], CultureInfo.InvariantCulture);
        string only = args.Length > 1 ? args[1] : "";
        int missed = 0;
        foreach (Fault fault in All.Where(f => f.Name.StartsWith(only, StringComparison.Ordinal)))
        {
            foreach (bool six in (bool[])[false, true])
            {
                int named = 0;
                var other = new SortedDictionary<string, int>(StringComparer.Ordinal);
                Parallel.For(0, seeds, new ParallelOptions { MaxDegreeOfParallelism = 2 }, seed =>
                {
                    var options = new SampleOptions
                    {
                        Width = 1200,
                        Height = 800,
                        Seed = (ulong)(20_000 + seed),
                        CapFramesPerLevel = seed % 2 * 2,
                        Faults = fault.Faults,
                        Isos = [.. Isos],
                        Mosaic = six ? BenchMosaic.SixBySix : BenchMosaic.TwoByTwo,
                    };
                    BenchAnswer answer = SyntheticMeasurement.Answer(options);
                    double[] found = [.. answer.Levels.Where(l => l.Flags.Contains(fault.Flag)).Select(l => l.Iso.Speed)];
                    string[] rest = [.. answer.Levels.SelectMany(l => l.Flags.Where(f => f != fault.Flag).Select(f => $"{f} at {l.Iso.Speed}")).Concat(
                        answer.Levels.Where(l => !l.Usable).Select(l => $"{l.Iso.Speed} unusable: {l.Reason}")).Concat(Errors(answer, options))];
                    lock (other)
                    {
                        if (found.SequenceEqual(fault.Isos)) named++;
                        else rest = [.. rest, $"named at {string.Join(' ', found)}"];
                        foreach (string r in rest) other[r] = other.GetValueOrDefault(r) + 1;
                    }
                });
                missed += seeds - named;
                Console.WriteLine($"{fault.Name,-18} {(six ? "6x6" : "2x2")} named {named} of {seeds}   {string.Join("; ", other.Select(o => $"{o.Value} x {o.Key}"))}");
            }
        }

        return missed == 0 ? 0 : 1;
    }

    private static IEnumerable<string> Errors(BenchAnswer answer, SampleOptions options)
    {
        var truth = new SyntheticBench(options).Levels.ToDictionary(l => l.Iso);
        foreach (Level level in answer.Levels.Where(l => l.Usable))
        {
            LevelTruth t = truth[level.Iso.Speed];
            double gain = level.GainElectronsPerDn!.Value.Value / t.GainElectronsPerDn - 1, read = level.ReadNoiseElectrons!.Value.Value - t.ReadNoiseElectrons;
            if (Math.Abs(gain) > 0.01) yield return string.Create(CultureInfo.InvariantCulture, $"gain at {t.Iso} {100 * gain:F1} %");
            if (Math.Abs(read) > Math.Max(0.05 * t.ReadNoiseElectrons, 0.1 * t.GainElectronsPerDn)) yield return string.Create(CultureInfo.InvariantCulture, $"read noise at {t.Iso} {100 * read / t.ReadNoiseElectrons:F1} %");
        }
    }
}
