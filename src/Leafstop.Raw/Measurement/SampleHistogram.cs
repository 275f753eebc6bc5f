using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using Leafstop.Core.Sensor;
using Leafstop.Raw.Frames;

namespace Leafstop.Raw.Measurement;

/// <summary>How often each code occurs in one plane of one frame, and what that tells: clip, floor, missing codes.</summary>
internal sealed class SampleHistogram
{
    private readonly int[] _counts;

    /// <summary>Takes over the counts, one entry a code; at least one sample.</summary>
    public SampleHistogram(int[] counts)
    {
        _counts = counts;
        Smallest = Array.FindIndex(counts, n => n > 0);
        Largest = Array.FindLastIndex(counts, n => n > 0);
        for (int code = Smallest; code <= Largest; code++)
        {
            Samples += counts[code];
            Sum += (long)counts[code] * code;
        }
    }

    public long Samples { get; }

    /// <summary>Σ of all samples, exact.</summary>
    public long Sum { get; }

    public int Smallest { get; }

    public int Largest { get; }

    public double MeanDn => (double)Sum / Samples;

    /// <summary>One histogram a plane over the active area.</summary>
    public static SampleHistogram[] OfPlanes(MosaicFrame frame)
    {
        MosaicPattern mosaic = frame.Header.Mosaic;
        IReadOnlyList<int> planeOfSite = mosaic.PlaneOfSite();
        int[][] counts = [.. mosaic.PlaneNames().Select(_ => new int[65536])];
        for (int y = 0; y < frame.Height; y++)
        {
            ReadOnlySpan<ushort> row = frame.Row(y);
            int site = y % mosaic.Rows * mosaic.Columns;
            if (mosaic.Columns == 2)
            {
                CountAlternating(row, counts[planeOfSite[site]], counts[planeOfSite[site + 1]]);
                continue;
            }

            for (int first = 0; first < mosaic.Columns; first++)
            {
                int[] plane = counts[planeOfSite[site + first]];
                for (int x = first; x < row.Length; x += mosaic.Columns) plane[row[x]]++;
            }
        }

        return [.. counts.Select(c => new SampleHistogram(c))];
    }

    /// <summary>Two planes in turn, four samples a step: one load of 64 bits, and a 16-bit sample never lies outside 65 536 counts.</summary>
    private static void CountAlternating(ReadOnlySpan<ushort> row, int[] even, int[] odd)
    {
        ref int countEven = ref MemoryMarshal.GetArrayDataReference(even), countOdd = ref MemoryMarshal.GetArrayDataReference(odd);
        ReadOnlySpan<ulong> fours = MemoryMarshal.Cast<ushort, ulong>(row);
        if (!BitConverter.IsLittleEndian) fours = [];
        foreach (ulong four in fours)
        {
            Unsafe.Add(ref countEven, (nint)(four & 0xFFFF))++;
            Unsafe.Add(ref countOdd, (nint)(four >> 16 & 0xFFFF))++;
            Unsafe.Add(ref countEven, (nint)(four >> 32 & 0xFFFF))++;
            Unsafe.Add(ref countOdd, (nint)(four >> 48))++;
        }

        for (int x = 4 * fours.Length; x < row.Length; x++) (x % 2 == 0 ? even : odd)[row[x]]++;
    }

    /// <summary>The lowest code of the pile of samples at the top end; null when samples thin out without a pile.</summary>
    /// <remarks>
    /// Light beyond saturation lands on one code, or on a few next to each other where pixels clip a little apart. So the topmost
    /// thousandth of the codes in use holds at least 20 samples and ten times as many as the same width just below.
    /// </remarks>
    public int? ClipCode()
    {
        int width = Math.Max(2, (Largest - Smallest) / 1000);
        long pile = Count(Largest - width, Largest), below = Count(Largest - 2 * width - 1, Largest - width - 1);
        if (Largest - Smallest < 16) return null;
        if (EndsAtTheConverter()) return Largest;
        if (pile < 20 || pile < 10 * below) return null;
        int peak = 0;
        for (int code = Math.Max(0, Largest - width); code <= Largest; code++) peak = Math.Max(peak, _counts[code]);
        for (int code = Math.Max(0, Largest - width); code <= Largest; code++)
            if (_counts[code] * 20L >= peak) return code;
        return null;
    }

    /// <summary>Mean, spread and number of the samples that belong to the one hump of a plane without light; strays such as hot pixels are left out.</summary>
    /// <remarks>Samples further from the median than five times half the distance between the 16 % and 84 % points, and at least 3 DN, are strays; a Gaussian loses 6 in 10 million.</remarks>
    public (double MeanDn, double SdDn, long Samples) Hump()
    {
        int median = Quantile(0.5);
        double reach = Math.Max(3, 5 * (Quantile(0.8413) - Quantile(0.1587)) / 2.0);
        long n = 0, sum = 0, squares = 0;
        for (int code = Math.Max(Smallest, (int)(median - reach)); code <= Math.Min(Largest, median + reach); code++)
        {
            long d = code - median, count = _counts[code];
            n += count;
            sum += count * d;
            squares += count * d * d;
        }

        double mean = (double)sum / n;
        return (median + mean, Math.Sqrt(Math.Max(0, (double)squares / n - mean * mean)), n);
    }

    /// <summary>The code below or at which this share of the samples lies.</summary>
    public int Quantile(double share)
    {
        long wanted = (long)Math.Ceiling(share * Samples), seen = 0;
        for (int code = Smallest; code < Largest; code++)
        {
            seen += _counts[code];
            if (seen >= wanted) return code;
        }

        return Largest;
    }

    /// <summary>The last code of a converter (1023, 4095, 16 383 …) that holds at least 20 samples and three times as many as the codes before it: highlights
    /// that fade out just below clip leave a smaller pile.</summary>
    private bool EndsAtTheConverter() =>
        Largest >= 255 && (Largest & (Largest + 1)) == 0 && _counts[Largest] >= 20 && _counts[Largest] * 8L >= 3 * Count(Largest - 8, Largest - 1);

    /// <summary>Samples with this code or a higher one.</summary>
    public long CountFrom(int code) => Count(code, Largest);

    /// <summary>Samples piled up on the smallest code; 0 when the codes just thin out.</summary>
    /// <remarks>Noise that is cut off leaves at least twenty samples there and more than three times as many as on the code above.</remarks>
    public long FloorCount()
    {
        long bottom = _counts[Smallest], above = Smallest < 65535 ? _counts[Smallest + 1] : 0;
        return bottom >= 20 && bottom > 3 * above && Smallest < Largest ? bottom : 0;
    }

    /// <summary>The largest of 16, 8, 4, 2 such that all but one sample in a thousand are a fixed offset from its multiples; else 1.</summary>
    public int CodeStep()
    {
        foreach (int step in (int[])[16, 8, 4, 2])
        {
            var classes = new long[step];
            for (int code = Smallest; code <= Largest; code++) classes[code % step] += _counts[code];
            if (classes.Max() * 1000 >= Samples * 999 && Largest - Smallest >= 8 * step) return step;
        }

        return 1;
    }

    /// <summary>Empty codes between two well filled ones, and how many codes had such neighbours.</summary>
    /// <remarks>
    /// A code counts as asked when both neighbours hold at least 16 samples, as a gap when it holds less than a quarter of the
    /// smaller neighbour: where a smooth histogram expects 16, fewer than 4 happen once in ten thousand (Poisson).
    /// </remarks>
    public (long Asked, long Gaps) MissingCodes(int? clip)
    {
        long asked = 0, gaps = 0;
        for (int code = Smallest + 2; code < Math.Min(Largest, clip ?? Largest) - 1; code++)
        {
            int neighbour = Math.Min(_counts[code - 1], _counts[code + 1]);
            if (neighbour < 16) continue;
            asked++;
            if (_counts[code] * 4L < neighbour) gaps++;
        }

        return (asked, gaps);
    }

    private long Count(int from, int to)
    {
        long count = 0;
        for (int code = Math.Max(0, from); code <= Math.Min(65535, to); code++) count += _counts[code];
        return count;
    }
}
