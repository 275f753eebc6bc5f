using Leafstop.Core.Sensor;
using Leafstop.Raw.Frames;

namespace Leafstop.Raw.Crops;

/// <summary>The difference of two frames as a picture of equal contrast: grain that the sensor made is as fine as the pixels, grain that was smoothed runs together.</summary>
internal static class PairDifference
{
    /// <summary>Encoded grey of no difference.</summary>
    public const int Middle = 128;

    /// <summary>Grey steps for one standard deviation, whatever the ISO.</summary>
    public const int StepsPerDeviation = 40;

    /// <summary>Differences beyond so many deviations (a hot pixel, a speck) do not count towards the deviation.</summary>
    private const double Trim = 4;

    /// <summary>Makes the picture around the middle of a place.</summary>
    /// <remarks>Up to 2×2, one picture pixel is one sample of the first green (or only) plane. On larger cells, where samples of a colour stand unevenly,
    /// one picture pixel is one sensor pixel, each plane at its own contrast.</remarks>
    /// <returns>A PNG file; null when the frames do not differ at all.</returns>
    public static byte[]? Of(MosaicFrame first, MosaicFrame second, CropGrid grid, int left, int top)
    {
        MosaicPattern mosaic = first.Header.Mosaic;
        IReadOnlyList<int> planeOfSite = mosaic.PlaneOfSite();
        bool onePlane = mosaic.Rows <= 2 && mosaic.Columns <= 2;
        int step = onePlane ? grid.BlockSide : 1, side = grid.Blocks, margin = onePlane ? 0 : (grid.SensorSide - side) / 2;
        int green = GreenSite(mosaic, planeOfSite), rightBy = onePlane ? green % mosaic.Columns : 0, downBy = onePlane ? green / mosaic.Columns : 0;
        var differences = new double[side * side];
        var planes = new int[differences.Length];
        for (int i = 0; i < differences.Length; i++)
        {
            int x = left + margin + i % side * step + rightBy, y = top + margin + i / side * step + downBy;
            differences[i] = first.Row(y)[x] - second.Row(y)[x];
            planes[i] = planeOfSite[y % mosaic.Rows * mosaic.Columns + x % mosaic.Columns];
        }

        byte[] pixels = new byte[differences.Length];
        foreach (int plane in planes.Distinct())
        {
            int[] own = [.. Enumerable.Range(0, planes.Length).Where(i => planes[i] == plane)];
            var (mean, deviation) = Spread([.. own.Select(i => differences[i])]);
            if (deviation <= 0) return null;
            foreach (int i in own) pixels[i] = (byte)Math.Clamp(Math.Round(Middle + StepsPerDeviation * (differences[i] - mean) / deviation), 0, 255);
        }

        return EnlargedPng.Of(pixels, side, channels: 1);
    }

    private static int GreenSite(MosaicPattern mosaic, IReadOnlyList<int> planeOfSite)
    {
        IReadOnlyList<string> names = mosaic.PlaneNames();
        int plane = Math.Max(0, Enumerable.Range(0, names.Count).FirstOrDefault(p => names[p].StartsWith('G'), 0));
        return Enumerable.Range(0, planeOfSite.Count).First(s => planeOfSite[s] == plane);
    }

    private static (double Mean, double Deviation) Spread(double[] values)
    {
        double mean = values.Average(), deviation = Math.Sqrt(values.Average(v => (v - mean) * (v - mean)));
        double[] kept = [.. values.Where(v => Math.Abs(v - mean) <= Trim * deviation)];
        if (kept.Length == 0) return (mean, 0);
        double centre = kept.Average();
        return (centre, Math.Sqrt(kept.Average(v => (v - centre) * (v - centre))));
    }
}
