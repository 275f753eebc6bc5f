using Leafstop.Core.Developing;
using Leafstop.Raw.Crops;
using Leafstop.Raw.Frames;
using Leafstop.Raw.Synthetic;
using Leafstop.Testing;

namespace Leafstop.Raw.Tests.Crops;

/// <summary>Derived: brightness, places and grain on frames whose truth is known.</summary>
public sealed class LevelCropsTests
{
    private static readonly double[] Even = [1, 1, 1];

    [Theory]
    [InlineData(400, 0, false, 0)]
    [InlineData(400, 1, true, 1)]
    [InlineData(600, 0, true, 0.415)]
    [InlineData(1131, 0, true, -0.4995)]
    [InlineData(1132, 0, false, 0)]
    [InlineData(560, 0, false, 0)]
    [InlineData(200, 1, false, 1)]
    public void Brightness_is_matched_up_to_half_a_stop_beyond_the_settings(int signalDn, double explained, bool isMatched, double correction)
    {
        CropPicture shown = Shown(signalDn, explained);
        Assert.Equal(isMatched, shown.IsMatched);
        // log2 of whole numbers: half a thousandth of a stop is the rounding of the table above.
        Assert.Equal(correction, shown.CorrectionStops, 5e-4);
        Assert.Equal(Math.Log2(800.0 / signalDn) - explained, shown.UnexplainedStops!.Value, 1e-9);
    }

    [Fact]
    public void A_matched_crop_is_as_bright_as_the_reference_and_another_keeps_its_difference()
    {
        // Mean of a mid tone: linear 0.18 (PER-25: 118 of 255); one stop unexplained is shown as half the light, 0.09.
        Assert.Equal(118, Grey(Shown(800, 0)));
        Assert.Equal(118, Grey(Shown(600, 0)));
        Assert.Equal(118, Grey(Shown(200, 2)));
        Assert.Equal(DisplayCurve.Byte(0.09), Grey(Shown(400, 0)));
    }

    [Fact]
    public void Clipped_and_lightless_crops_are_not_matched()
    {
        CropPicture clipped = Shown(4000, -2.3);
        Assert.False(clipped.IsMatched);
        Assert.Equal(1, clipped.ClippedShare);
        CropPicture lightless = Shown(0, 0);
        Assert.False(lightless.IsMatched);
        Assert.Null(lightless.UnexplainedStops);
    }

    [Theory]
    [InlineData("2x2", 900, 600)]
    [InlineData("6x6", 1200, 800)]
    public void The_three_places_of_the_bench_are_what_they_are_called(string mosaic, int width, int height)
    {
        var bench = new SyntheticBench(new SampleOptions { Mosaic = BenchMosaic.Named(mosaic)!, Width = width, Height = height, Isos = [100], CapFramesPerLevel = 0 });
        using MosaicFrame first = bench.Render(0, threads: 1), second = bench.Render(1, threads: 1);
        CropAnswer answer = LevelCrops.Of(first, second, new CropRequest())!;
        Assert.Equal([CropSubject.Dark, CropSubject.MidTone, CropSubject.Texture], answer.Places.Select(p => p.Subject));
        float[] truth = SceneMap.For(width, height, bench.Options.Mosaic, bench.Options.SceneSeed, 0, 0).Electrons;
        CropGrid grid = CropGrid.Of(bench.Options.Mosaic, width, height)!.Value;
        string letters = bench.Options.Mosaic.Letters;
        int cell = bench.Options.Mosaic.Columns;
        double mid = BodyA.MidGreyShare * BodyA.FullWellElectrons;
        var (dark, tone, texture) = (Of(answer.Places[0]), Of(answer.Places[1]), Of(answer.Places[2]));

        // The lining of the box lies 7 to 9 stops below mid-grey, and nothing else in the scene is as dark; folds move it by a third of a stop at most.
        Assert.InRange(Math.Log2(dark.Mean / mid), -9.5, -7);
        Assert.True(dark.Structure < 0.25, $"structure {dark.Structure:G3} in the dark");
        Assert.True(dark.Mean <= 1.5 * Darkest(), $"dark {dark.Mean:G3}, darkest window {Darkest():G3} electrons");
        // A third of a stop: the nearest click.
        Assert.Equal(0, Math.Log2(tone.Mean / mid), 1.0 / 3);
        Assert.True(tone.Structure < 0.03, $"structure {tone.Structure:G3} at the mid tone");
        Assert.Equal(0, Math.Log2(texture.Mean / mid), 1.6);
        Assert.True(texture.LeastStructure > 0.08, $"structure {texture.LeastStructure:G3} in the calmest quarter of the texture");

        (double Mean, double Structure, double LeastStructure) Of(CropPlace p) => Window(p.Left, p.Top);

        (double Mean, double Structure, double LeastStructure) Window(int left, int top)
        {
            double[] quarters = [.. Enumerable.Range(0, 4).Select(q => Spread(left + q % 2 * grid.SensorSide / 2, top + q / 2 * grid.SensorSide / 2, grid.SensorSide / 2).Structure)];
            var (mean, structure) = Spread(left, top, grid.SensorSide);
            return (mean, structure, quarters.Min());
        }

        (double Mean, double Structure) Spread(int left, int top, int side)
        {
            double[] green =
            [
                .. Enumerable.Range(0, side * side).Select(i => (X: left + i % side, Y: top + i / side))
                    .Where(p => letters[p.Y % cell * cell + p.X % cell] == 'G').Select(p => (double)truth[p.Y * width + p.X]),
            ];
            double mean = green.Average();
            return (mean, Math.Sqrt(green.Average(v => (v - mean) * (v - mean))) / mean);
        }

        double Darkest()
        {
            int across = width / grid.SensorSide, down = height / grid.SensorSide;
            return Enumerable.Range(0, across * down).Min(i => Spread(i % across * grid.SensorSide, i / across * grid.SensorSide, grid.SensorSide).Mean);
        }
    }

    /// <summary>Edges of cards run through a few points of a crop; texture moves most of them.</summary>
    [Theory]
    [InlineData("2x2", 900, 600)]
    [InlineData("2x2", 1200, 800)]
    [InlineData("2x2", 2400, 1600)]
    [InlineData("6x6", 1200, 800)]
    public void The_finest_texture_is_no_edge_of_a_card(string mosaic, int width, int height)
    {
        var bench = new SyntheticBench(new SampleOptions { Mosaic = BenchMosaic.Named(mosaic)!, Width = width, Height = height, Isos = [100], CapFramesPerLevel = 0 });
        using MosaicFrame first = bench.Render(0, threads: 1), second = bench.Render(1, threads: 1);
        CropPlace place = LevelCrops.Of(first, second, new CropRequest())!.Places.Single(p => p.Subject == CropSubject.Texture);
        float[] truth = SceneMap.For(width, height, bench.Options.Mosaic, bench.Options.SceneSeed, 0, 0).Electrons;
        int cell = bench.Options.Mosaic.Columns, side = CropGrid.Of(bench.Options.Mosaic, width, height)!.Value.SensorSide / cell;
        // One sample a cell of the first green site: the same colour throughout.
        int green = bench.Options.Mosaic.Letters.IndexOf('G', StringComparison.Ordinal);
        double At(int x, int y) => truth[(place.Top + y * cell + green / cell) * width + place.Left + x * cell + green % cell];
        double mean = (from y in Enumerable.Range(0, side) from x in Enumerable.Range(0, side) select At(x, y)).Average();
        double[] steps = [.. from y in Enumerable.Range(1, side - 2) from x in Enumerable.Range(1, side - 2) select Math.Abs(4 * At(x, y) - At(x - 1, y) - At(x + 1, y) - At(x, y - 1) - At(x, y + 1)) / mean];
        // A flat card has none; 3 % is far below what moss and bark of this scene show, and far above its ramps.
        Assert.True(steps.Order().ElementAt(steps.Length / 2) > 0.03, $"median {steps.Order().ElementAt(steps.Length / 2):G3} at {place.Left}, {place.Top}");
    }

    [Fact]
    public void A_neutral_that_the_file_states_goes_before_the_grey_of_the_mid_tone()
    {
        var bench = new SyntheticBench(new SampleOptions { Width = 600, Height = 400, Isos = [100], CapFramesPerLevel = 0 });
        using MosaicFrame frame = bench.Render(0, threads: 1);
        CropAnswer own = LevelCrops.Of(frame, null, new CropRequest())!;
        CropPlace mid = own.Places.Single(p => p.Subject == CropSubject.MidTone);
        float[] truth = SceneMap.For(600, 400, BenchMosaic.TwoByTwo, bench.Options.SceneSeed, 0, 0).Electrons;
        double Mean(int right, int down) => Enumerable.Range(0, 48 * 48).Average(i => (double)truth[(mid.Top + i / 48 * 2 + down) * 600 + mid.Left + i % 48 * 2 + right]);
        double green = (Mean(1, 0) + Mean(0, 1)) / 2;
        // 0.5 %: ten times the noise of the mean of 2304 samples with some thousands of electrons each.
        Assert.Equal(green / Mean(0, 0), own.Balance[0], 0.005 * own.Balance[0]);
        Assert.Equal(green / Mean(1, 1), own.Balance[2], 0.005 * own.Balance[2]);
        using var stated = new MosaicFrame
        {
            Header = frame.Header,
            Samples = frame.Samples,
            Stride = frame.Stride,
            Left = frame.Left,
            Top = frame.Top,
            MaskedAreas = frame.MaskedAreas,
            LibraryBlackDn = frame.LibraryBlackDn,
            AsShotNeutral = [0.5, 1, 0.8],
        };
        Assert.Equal([2, 1, 1.25], LevelCrops.Of(stated, null, new CropRequest())!.Balance);
    }

    [Theory]
    [InlineData("2x2")]
    [InlineData("6x6")]
    public void The_difference_has_equal_contrast_at_every_iso_and_smoothed_grain_runs_together(string mosaic)
    {
        var bench = new SyntheticBench(new SampleOptions
        {
            Mosaic = BenchMosaic.Named(mosaic)!,
            Width = 600,
            Height = 402,
            Isos = [100, 3200, 6400],
            CapFramesPerLevel = 0,
            Faults = new SampleFaults { SmoothingFromIso = 6400, SmoothingCorrelation = 0.24 },
        });
        var seen = new List<double>();
        CropRequest request = new();
        for (int level = 0; level < 3; level++)
        {
            using MosaicFrame first = bench.Render(2 * level, threads: 1), second = bench.Render(2 * level + 1, threads: 1);
            CropAnswer answer = LevelCrops.Of(first, second, request)!;
            request = request with { Places = answer.Places, Balance = answer.Balance };
            using var png = new PngPixels(answer.Pictures.Single(p => p.Subject == CropSubject.Difference).Png);
            double[] grey = [.. from y in Enumerable.Range(0, 48) from x in Enumerable.Range(0, 48) select (double)png[3 * x, 3 * y].G];
            double mean = grey.Average(), deviation = Math.Sqrt(grey.Average(v => (v - mean) * (v - mean)));
            // Five standard errors of 2304 values: 40/√2304 · 5 = 4.2 grey steps in the mean, 40/√4608 · 5 = 2.9 in the deviation.
            Assert.Equal(PairDifference.Middle, mean, 4.2);
            Assert.Equal(PairDifference.StepsPerDeviation, deviation, 2.9);
            double[] products = [.. from y in Enumerable.Range(0, 48) from x in Enumerable.Range(0, 47) select (grey[48 * y + x] - mean) * (grey[48 * y + x + 1] - mean)];
            seen.Add(products.Average() / (deviation * deviation));
        }

        // Five standard errors of a correlation of 2256 pairs: 0.105. On 6×6 only some neighbours in a row have the same colour, so less of it is seen.
        Assert.Equal(0, seen[0], 0.105);
        Assert.Equal(0, seen[1], 0.105);
        Assert.InRange(seen[2], mosaic == "2x2" ? 0.24 - 0.105 : 0.05, 0.24 + 0.105);
    }

    [Fact]
    public void One_frame_alone_gives_no_difference()
    {
        using MosaicFrame frame = LinearCropTests.Painted("2x2", (x, y, _) => 500 + (x * 7 + y * 13) % 11);
        Assert.DoesNotContain(LevelCrops.Of(frame, null, new CropRequest())!.Pictures, p => p.Subject == CropSubject.Difference);
    }

    private static CropPicture Shown(int signalDn, double explained)
    {
        using MosaicFrame frame = LinearCropTests.Painted("2x2", (_, _, _) => signalDn);
        LinearCrop crop = LinearCrop.Of(frame, CropGrid.Of(PlainFrames.TwoByTwo, frame.Width, frame.Height)!.Value, 0, 0, LinearCropTests.Levels(frame, 0, 4000));
        return LevelCrops.Shown(crop, new CropPlace(CropSubject.MidTone, 0, 0, 800, 0), Even, explained);
    }

    private static int Grey(CropPicture picture)
    {
        using var png = new PngPixels(picture.Png);
        return png[70, 70].G;
    }
}
