using System.Globalization;
using System.IO.Hashing;
using System.Runtime.InteropServices;
using Leafstop.Raw.Measurement;
using Leafstop.Raw.Synthetic;
using HotPixels = Leafstop.Raw.Measurement.HotPixels;

namespace Leafstop.Benchmarks;

/// <summary>Where the time of a measured pair goes, step by step.</summary>
internal static class Profile
{
    public static int Run(string[] args)
    {
        int times = args.Length > 0 ? int.Parse(args[0], CultureInfo.InvariantCulture) : 5;
        using BenchPair pair = BenchPair.Render(args.Contains("6x6") ? BenchMosaic.SixBySix : BenchMosaic.TwoByTwo, 6000, 4000);
        var (a, b) = (pair.First, pair.Second);
        TileSums sums = TileSummation.Of(a, b, pair.Largest);
        double[] black = pair.BlackDn;
        int[] clip = pair.ClipDn, floor = pair.FloorDn;
        TileLayout layout = sums.Layout;
        PairNoise[] noise = Noise();

        Say("frame: histograms", () => SampleHistogram.OfPlanes(a));
        Say("frame: tile sums with itself", () => TileSummation.Of(a, a, pair.Largest));
        Say("frame: black level", () => BlackLevel.OfPlanes(a));
        Say("frame: digest", () => XxHash3.HashToUInt64(MemoryMarshal.AsBytes(a.Samples.Span)));
        Say("frame: all of it", () => _ = new FrameInHand(a));
        Say("frame: survey", () => pair.FirstInHand.Survey(default, null, sums, 1));
        Say("pair: plain sums", () => PairSums.OfSites(a, b));
        Say("pair: alignment", () => Alignment.Of(a, b));
        Say("pair: tile sums", () => TileSummation.Of(a, b, pair.Largest));
        Say("pair: noise", () => Noise());
        Say("pair: hot pixels", () => HotPixels.In(a, b, sums, noise, black, clip.Max(), false));
        Say("pair: shared detail", () => SharedDetail.Of(a, b, layout, black[layout.BrightPlane], clip[layout.BrightPlane]));
        Say("pair: whiteness of all planes", () =>
        {
            for (int p = 0; p < layout.Planes; p++) Whiteness.Of(a, b, sums, p, noise[p], black[p]);
        });
        Say("pair: binned robust statistics", () => RobustStatistics.Of(pair));
        Say("pair: all of it", () => PairMeasurement.Survey(pair.FirstInHand, pair.SecondInHand));
        return 0;

        PairNoise[] Noise() => [.. Enumerable.Range(0, layout.Planes).Select(p => new PairNoise(sums, p, black[p], clip[p], floor[p], pair.FirstInHand.Offsets, pair.SecondInHand.Offsets))];

        void Say(string what, Action work)
        {
            if (args.Length > 1 && !what.Contains(args[^1], StringComparison.Ordinal)) return;
            double best = Clock.Best(times, work);
            TimeSpan before = Environment.CpuUsage.TotalTime;
            for (int i = 0; i < times; i++) work();
            double processor = (Environment.CpuUsage.TotalTime - before).TotalMilliseconds / times;
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{what,-32}{1000 * best,9:F1} ms   processor {processor,7:F1} ms"));
        }
    }
}
