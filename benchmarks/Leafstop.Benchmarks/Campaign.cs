using System.Collections.Concurrent;
using System.Globalization;
using Leafstop.Core.Sensor;
using Leafstop.Raw.Synthetic;
using Leafstop.Testing;

namespace Leafstop.Benchmarks;

/// <summary>Measures many seeded ladders whose truth is known and tells how often the stated intervals hold it.</summary>
internal static class Campaign
{
    public static int Run(string[] args)
    {
        int seeds = args.Length > 0 ? int.Parse(args[0], CultureInfo.InvariantCulture) : 200;
        bool caps = !args.Contains("nocaps");
        var (width, height) = args.Contains("45mp") ? (8256, 5504) : (1200, 800);
        var mosaic = args.Contains("6x6") ? BenchMosaic.SixBySix : BenchMosaic.TwoByTwo;
        var cells = new ConcurrentDictionary<(double Iso, string Plane, string What), ConcurrentBag<(bool Covered, double Error, double Half)>>();
        var named = new ConcurrentBag<string>();
        Parallel.For(0, seeds, new ParallelOptions { MaxDegreeOfParallelism = 2 }, seed =>
        {
            var options = new SampleOptions { Width = width, Height = height, Seed = (ulong)(1000 + seed), Mosaic = mosaic, CapFramesPerLevel = caps ? 2 : 0 };
            var truth = new SyntheticBench(options).Levels.ToDictionary(l => l.Iso);
            BenchAnswer answer = SyntheticMeasurement.Answer(options);
            foreach (Finding finding in answer.Findings) named.Add($"{finding.Code}: {finding.Text}");
            foreach (Level level in answer.Levels)
            {
                LevelTruth t = truth[level.Iso.Speed];
                if (!level.Usable) named.Add($"unusable {t.Iso}: {level.Reason}");
                Add("joint", "gain", level.GainElectronsPerDn, t.GainElectronsPerDn);
                Add("joint", "read", level.ReadNoiseElectrons, t.ReadNoiseElectrons);
                if (level.SaturationElectrons is { } s) Add("joint", "sat", new Estimate(s, s * 0.99, s * 1.01), t.SaturationElectrons);
                foreach (PlaneModel plane in level.Planes)
                {
                    Add(plane.Plane, "gain", plane.GainElectronsPerDn, t.GainElectronsPerDn);
                    Add(plane.Plane, "read", plane.ReadNoiseElectrons, t.ReadNoiseElectrons);
                }

                void Add(string plane, string what, Estimate? estimate, double value)
                {
                    if (estimate is not { } e) return;
                    cells.GetOrAdd((t.Iso, plane, what), _ => []).Add((e.Low <= value && value <= e.High, e.Value / value - 1, e.RelativeHalfWidth));
                }
            }
        });

        Console.WriteLine("  iso  plane what   n  cover%   bias%   worst%  medhalf%");
        foreach (var ((iso, plane, what), bag) in cells.OrderBy(c => c.Key.Plane).ThenBy(c => c.Key.What).ThenBy(c => c.Key.Iso))
        {
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
                $"{iso,6} {plane,-5} {what,-4} {bag.Count,4} {100.0 * bag.Count(b => b.Covered) / bag.Count,6:F1} {100 * bag.Average(b => b.Error),8:F3} {100 * bag.Max(b => Math.Abs(b.Error)),7:F2} {100 * bag.Select(b => b.Half).Order().ElementAt(bag.Count / 2),7:F2}"));
        }

        foreach (var group in cells.GroupBy(c => (c.Key.Plane == "joint", c.Key.What)))
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"pooled {(group.Key.Item1 ? "joint" : "planes")} {group.Key.What}: {100.0 * group.Sum(g => g.Value.Count(b => b.Covered)) / group.Sum(g => g.Value.Count):F2} %"));
        // In units of the stated standard error: 1 when the intervals are as wide as the scatter. Pairs of planes should not agree.
        foreach (string what in (string[])["gain", "read"])
        {
            double Z((bool Covered, double Error, double Half) c) => c.Error / (c.Half / 1.96);
            var joint = cells.Where(c => c.Key.Plane == "joint" && c.Key.What == what).SelectMany(c => c.Value.Select(Z)).ToArray();
            var plane = cells.Where(c => c.Key.Plane != "joint" && c.Key.What == what).SelectMany(c => c.Value.Select(Z)).ToArray();
            double mean = cells.Where(c => c.Key.Plane == "joint" && c.Key.What == what).Average(c => Math.Pow(c.Value.Average(Z), 2) * c.Value.Count);
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{what}: scatter over stated error, joint {Math.Sqrt(joint.Average(z => z * z)):F3}, planes {Math.Sqrt(plane.Average(z => z * z)):F3}; squared mean of a cell x n {mean:F2} (1 without bias)"));
        }

        foreach (var group in named.GroupBy(n => n).OrderByDescending(g => g.Count()).Take(30)) Console.WriteLine($"{group.Count()} x {group.Key}");
        return 0;
    }
}
