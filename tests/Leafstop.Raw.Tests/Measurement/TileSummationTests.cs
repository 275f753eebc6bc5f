using Leafstop.Core.Sensor;
using Leafstop.Raw.Frames;
using Leafstop.Raw.Measurement;
using Leafstop.Testing;

namespace Leafstop.Raw.Tests.Measurement;

public sealed class TileSummationTests
{
    public static TheoryData<string, int, int, int> Shapes => new()
    {
        // Widths around the two-tile stride of 48 and the tile of 24; heights around the tile of 12.
        { "2x2", 24, 12, 16383 }, { "2x2", 47, 25, 16383 }, { "2x2", 48, 12, 16383 }, { "2x2", 72, 36, 16383 }, { "2x2", 100, 40, 1023 },
        { "6x6", 48, 24, 16383 }, { "6x6", 71, 30, 16383 }, { "6x6", 120, 12, 4095 }, { "1x1", 96, 24, 16383 }, { "1x1", 77, 13, 255 },
    };

    [Theory]
    [MemberData(nameof(Shapes))]
    public void Vector_and_scalar_code_give_the_same_bits(string mosaic, int width, int height, int top)
    {
        // Derived: two methods for one definition, on random samples that include both ends of the range.
        var (a, b) = RandomPair(mosaic, width, height, top);
        var vector = new TileSums(new TileLayout(a.Header.Mosaic, width, height));
        var scalar = new TileSums(vector.Layout);
        Assert.SkipUnless(TileSummation.VectorFits(vector.Layout, top), "This processor has no AVX2: the scalar method is the only one.");
        TileSummation.Vectorised(a, b, vector);
        TileSummation.Scalar(a, b, scalar);
        Assert.Equal(scalar.Sum, vector.Sum);
        Assert.Equal(scalar.Difference, vector.Difference);
        Assert.Equal(scalar.DD, vector.DD);
        Assert.Equal(scalar.SD, vector.SD);
        Assert.Equal(scalar.SS, vector.SS);
        Assert.Equal(scalar.Largest, vector.Largest);
        Assert.Equal(scalar.Smallest, vector.Smallest);
    }

    [Theory]
    [InlineData("2x2")]
    [InlineData("6x6")]
    [InlineData("1x1")]
    public void The_extremes_of_the_range_do_not_overflow(string mosaic)
    {
        // Derived: frames of only 0 and only 16 383, where every partial sum is as large as it can be.
        MosaicPattern pattern = Pattern(mosaic);
        MosaicFrame low = PlainFrames.Of(new ushort[48 * 12], 48, pattern);
        MosaicFrame high = PlainFrames.Of([.. Enumerable.Repeat((ushort)16383, 48 * 12)], 48, pattern);
        TileSums vector = TileSummation.Of(high, low, 16383), scalar = new(vector.Layout);
        TileSummation.Scalar(high, low, scalar);
        Assert.Equal(scalar.Sum, vector.Sum);
        Assert.Equal(scalar.DD, vector.DD);
        Assert.Equal(scalar.SS, vector.SS);
        Assert.All(vector.DD, plane => Assert.All(plane, dd => Assert.Equal(0, dd)));
    }

    [Theory]
    [InlineData("2x2", 65535)]
    [InlineData("6x6", 16383)]
    public void Sums_agree_with_an_oracle_in_floating_point(string mosaic, int top)
    {
        // Derived: variances about row means worked out in double precision by code that shares nothing with the sums.
        var (a, b) = RandomPair(mosaic, 48, 24, top);
        TileSums sums = TileSummation.Of(a, b, top);
        TileLayout layout = sums.Layout;
        IReadOnlyList<int> planeOfSite = a.Header.Mosaic.PlaneOfSite();
        for (int plane = 0; plane < layout.Planes; plane++)
        {
            for (int tile = 0; tile < layout.Count; tile++)
            {
                double squares = 0, total = 0;
                int freedom = 0, n = 0;
                for (int y = 0; y < 12; y++)
                {
                    var row = new List<double>();
                    for (int x = 0; x < 24; x++)
                    {
                        int fx = tile % layout.Columns * 24 + x, fy = tile / layout.Columns * 12 + y;
                        if (planeOfSite[fy % a.Header.Mosaic.Rows * a.Header.Mosaic.Columns + fx % a.Header.Mosaic.Columns] != plane) continue;
                        row.Add(a.Row(fy)[fx] - b.Row(fy)[fx]);
                        total += a.Row(fy)[fx] + b.Row(fy)[fx];
                        n++;
                    }

                    if (row.Count == 0) continue;
                    double mean = row.Average();
                    squares += row.Sum(d => (d - mean) * (d - mean));
                    freedom += row.Count - 1;
                }

                Assert.Equal(total / (2 * n), sums.MeanDn(plane, tile), 1e-9 * top);
                Assert.Equal(squares / (2 * freedom), new TileVariance(sums, plane, 0).Dn2(tile), 1e-9 * top * (double)top);
            }
        }
    }

    private static MosaicPattern Pattern(string mosaic) => mosaic switch { "2x2" => PlainFrames.TwoByTwo, "6x6" => PlainFrames.SixBySix, _ => PlainFrames.Mono };

    private static (MosaicFrame A, MosaicFrame B) RandomPair(string mosaic, int width, int height, int top)
    {
        var random = new Random(7 * width + height);
        return (PlainFrames.Of(Samples(), width, Pattern(mosaic)), PlainFrames.Of(Samples(), width, Pattern(mosaic)));

        ushort[] Samples() => [.. Enumerable.Range(0, width * height).Select(_ => (ushort)(random.Next(10) switch { 0 => 0, 1 => top, _ => random.Next(top + 1) }))];
    }
}
