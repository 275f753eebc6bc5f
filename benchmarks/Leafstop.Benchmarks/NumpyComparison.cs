using System.Globalization;
using System.Text.Json;
using Leafstop.Core.Sensor;
using Leafstop.Raw.Measurement;
using Leafstop.Raw.Synthetic;

namespace Leafstop.Benchmarks;

/// <summary>Whether the numpy script, written from the definitions alone, gets the numbers that the program gets.</summary>
internal static class NumpyComparison
{
    private const double MostDifference = 1e-9;

    public static int Run()
    {
        double worst = 0;
        foreach (MosaicPattern mosaic in (MosaicPattern[])[BenchMosaic.TwoByTwo, BenchMosaic.SixBySix])
        {
            using BenchPair pair = BenchPair.Render(mosaic, 1200, 800);
            using JsonDocument theirs = NumpyScript.Run(pair, times: 1, withTiles: true);
            var differences = new SortedDictionary<string, double>(StringComparer.Ordinal);
            Compare(pair, theirs.RootElement, (what, ours, other) =>
            {
                double difference = ours == other ? 0 : Math.Abs(ours - other) / Math.Max(Math.Abs(ours), Math.Abs(other));
                differences[what] = Math.Max(differences.GetValueOrDefault(what), double.IsNaN(difference) ? double.PositiveInfinity : difference);
            });
            foreach (var (what, difference) in differences)
                Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{mosaic.Name} {what,-24} worst relative difference {difference:E1}"));
            worst = Math.Max(worst, differences.Values.Max());
        }

        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"worst of all {worst:E1}, allowed {MostDifference:E0}: {(worst <= MostDifference ? "agrees" : "DIFFERS")}"));
        return worst <= MostDifference ? 0 : 1;
    }

    private static void Compare(BenchPair pair, JsonElement theirs, Action<string, double, double> differ)
    {
        PairSums[] sites = PairSums.OfSites(pair.First, pair.Second);
        for (int i = 0; i < sites.Length; i++)
        {
            long[] other = [.. theirs.GetProperty("plainSums")[i].EnumerateArray().Select(e => e.GetInt64())];
            differ("plain sums", sites[i].Samples, other[0]);
            differ("plain sums", sites[i].SumFirst, other[1]);
            differ("plain sums", sites[i].SumSecond, other[2]);
            differ("plain sums", sites[i].SquaredDifference, other[3]);
        }

        var (sums, noise, hot) = RobustStatistics.Of(pair);
        differ("hot pixels", hot.Found, theirs.GetProperty("hotPixels").GetInt64());
        for (int p = 0; p < noise.Length; p++)
        {
            JsonElement plane = theirs.GetProperty("planes")[p], tiles = plane.GetProperty("tiles");
            double scale = sums.Layout.RowScale[p];
            Each("tile sums", "sum", t => sums.Sum[p][t]);
            Each("tile differences", "difference", t => sums.Difference[p][t]);
            Each("tile moments dd", "dd", t => sums.DD[p][t] / scale);
            Each("tile moments ss", "ss", t => sums.SS[p][t] / scale);
            // Near zero by nature: compared on the scale of what it is made from.
            Each("tile moments sd", "sd", t => sums.SD[p][t] / scale, t => Math.Sqrt((double)sums.DD[p][t] * sums.SS[p][t]) / scale);
            differ("imbalance", noise[p].Imbalance, plane.GetProperty("imbalance").GetDouble());
            differ("clipped tiles", noise[p].ClippedTiles, plane.GetProperty("clippedTiles").GetInt64());
            differ("restless tiles", noise[p].RestlessTiles, plane.GetProperty("restlessTiles").GetInt64());
            JsonElement bins = plane.GetProperty("bins");
            differ("number of bins", noise[p].Bins.Length, bins.GetArrayLength());
            for (int i = 0; i < Math.Min(noise[p].Bins.Length, bins.GetArrayLength()); i++)
            {
                SignalBin bin = noise[p].Bins[i];
                differ("bin samples", bin.Samples, bins[i].GetProperty("samples").GetInt64());
                differ("bin mean", bin.MeanRawDn, bins[i].GetProperty("meanRawDn").GetDouble());
                differ("bin variance", bin.VarianceDn2, bins[i].GetProperty("varianceDn2").GetDouble());
                differ("bin degrees of freedom", bin.DegreesOfFreedom, bins[i].GetProperty("degreesOfFreedom").GetInt64());
            }

            void Each(string what, string name, Func<int, double> ours, Func<int, double>? base_ = null)
            {
                int t = 0;
                foreach (JsonElement element in tiles.GetProperty(name).EnumerateArray())
                {
                    double other = element.GetDouble(), shift = base_?.Invoke(t) ?? 0;
                    differ(what, ours(t) + shift, other + shift);
                    t++;
                }
            }
        }
    }
}
