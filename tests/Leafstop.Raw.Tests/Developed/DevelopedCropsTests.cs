using Leafstop.Core.Colour;
using Leafstop.Core.Developing;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;
using Leafstop.Raw.Crops;
using Leafstop.Raw.Developed;
using Leafstop.Raw.Synthetic;
using Leafstop.Raw.Tests.Crops;
using Leafstop.Testing;

namespace Leafstop.Raw.Tests.Developed;

/// <summary>Derived: ladders of known truth through real child processes.</summary>
public sealed class DevelopedCropsTests(DevelopedLadder ladder) : IClassFixture<DevelopedLadder>
{
    private static readonly ViewingCondition SixtyByArm = ViewingCondition.Of(Length.FromCentimetres(60), Length.FromCentimetres(60), Angle.FromArcminutes(1));

    private static CancellationToken Test => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData("2x2")]
    [InlineData("6x6")]
    public async Task Every_level_shows_the_same_three_places_equally_bright(string mosaic)
    {
        DevelopedCrops crops = await Make(mosaic);
        Assert.Empty(crops.Notes);
        Assert.Equal(
            from subject in (CropSubject[])[CropSubject.Dark, CropSubject.MidTone, CropSubject.Texture] from iso in new[] { 100.0, 200, 1600 } select (subject, iso),
            crops.Crops.Select(c => (c.Subject, c.Level.Iso.Speed)));
        Assert.All(crops.Crops, c => Assert.True(c.IsMatched, c.Refusal));
        foreach (var subject in crops.Crops.GroupBy(c => c.Subject))
        {
            Assert.Single(subject.Select(c => c.Place).Distinct());
            double[] reference = Means(subject.First().SensorLight(0));
            foreach (DevelopedCrop crop in subject)
            {
                Assert.Equal(100, crop.SidePixels);
                for (int frame = 0; frame < 2; frame++)
                {
                    double[] means = Means(crop.SensorLight(frame));
                    // Recorded samples are matched exactly; interpolated ones have other weights at the crop's edge: 1 % where light is plenty, 5 % in the dark at ISO 1600.
                    double share = subject.Key == CropSubject.Dark ? 0.05 : 0.01;
                    for (int c = 0; c < 3; c++) Assert.Equal(reference[c], means[c], share * reference[c]);
                }
            }
        }
    }

    [Theory]
    [InlineData("2x2")]
    [InlineData("6x6")]
    public async Task A_grey_card_comes_out_grey_at_mid_grey(string mosaic)
    {
        DevelopedCrops crops = await Make(mosaic);
        CropPosition place = crops.Places.Single(p => p.Subject == CropSubject.MidTone);
        double[] truth = Truth(mosaic, place);
        // The card of the scene is grey: its light in red, green and blue differs by less than half a per cent.
        Assert.Equal(truth[1], truth[0], 0.005 * truth[1]);
        Assert.Equal(truth[1], truth[2], 0.005 * truth[1]);
        foreach (DevelopedCrop crop in crops.Crops.Where(c => c.Subject == CropSubject.MidTone))
        {
            double[] means = Means(crop.Linear(PairMix.FirstAlone, PrintScale.PixelForPixel));
            Lab lab = Lab.FromXyz(RgbSpace.Srgb.ToXyz(new LinearRgb(means[0], means[1], means[2])), Chromaticity.D65);
            // 0.5 CIELAB: the half per cent above is 0.4 in the worst direction.
            Assert.Equal(0, lab.A, 0.5);
            Assert.Equal(0, lab.B, 0.5);
            // Metered mid-grey is shown as 0.18; the card lies within a third of a stop of it, and the criterion's mid-grey is 0.7 % below that of Body A.
            Assert.Equal(0.18 * truth[1] / (MeteredTone.MidGreyShare * BodyA.FullWellElectrons), means[1], 0.01 * means[1]);
        }
    }

    /// <summary>The matrix of the sample files is the inverse of the one that their previews are developed with, rows 1.50 −0.40 −0.10, −0.15 1.30 −0.15, −0.05 −0.35 1.40.</summary>
    [Fact]
    public async Task The_colours_are_those_that_the_file_states()
    {
        ColourMatrix colour = (await Make("2x2")).Crops[0].Colour.ToSrgb;
        double[] expected = [1.50, -0.40, -0.10, -0.15, 1.30, -0.15, -0.05, -0.35, 1.40];
        // The tag has four decimals, and the matrix was rounded to them before it was inverted.
        for (int i = 0; i < 9; i++) Assert.Equal(expected[i], colour[i / 3, i % 3], 0.002);
    }

    [Theory]
    [InlineData("2x2", 200)]
    [InlineData("2x2", 1600)]
    [InlineData("6x6", 1600)]
    public async Task Noise_is_what_the_sensor_and_the_weights_make_of_it(string mosaic, double iso)
    {
        DevelopedCrop crop = (await Make(mosaic)).Find(CropSubject.MidTone, Iso.FromSpeed(iso))!;
        LinearPicture first = crop.SensorLight(0), second = crop.SensorLight(1);
        double gain = BodyA.GainElectronsPerDn(iso), read = BodyA.ReadNoiseElectrons(iso);
        // Signal of each plane in electrons at this level: its light over the light of one electron.
        double[] light = Means(first);
        IReadOnlyList<string> planes = crop.Interpolation.Mosaic.PlaneNames();
        double[] variances = [.. planes.Select(p =>
        {
            int channel = p[0] switch { 'R' => 0, 'B' => 2, _ => 1 };
            double ofElectron = crop.LightOfDn(0, channel) / gain;
            return (light[channel] / ofElectron + read * read) * ofElectron * ofElectron;
        })];
        int n = first.Width * first.Height;
        for (int a = 0; a < 3; a++)
        {
            for (int b = a; b < 3; b++)
            {
                double[] da = Differences(first.Channels[a], second.Channels[a]), db = Differences(first.Channels[b], second.Channels[b]);
                double expected = crop.Interpolation.NoiseCovariance(a, b, 0, 0, variances), scale = Math.Sqrt(crop.Interpolation.NoiseCovariance(a, a, 0, 0, variances) * crop.Interpolation.NoiseCovariance(b, b, 0, 0, variances));
                // Four standard errors of 10 000 values of which some four share their noise.
                Assert.Equal(expected, da.Zip(db, (x, y) => x * y).Average() / 2, 4 * scale * Math.Sqrt(2.0 * 4 / n));
            }
        }

        static double[] Differences(float[] one, float[] other)
        {
            double mean = one.Zip(other, (a, b) => (double)a - b).Average();
            return [.. one.Zip(other, (a, b) => a - b - mean)];
        }
    }

    [Fact]
    public async Task A_mix_has_the_same_brightness_and_less_noise()
    {
        DevelopedCrop crop = (await Make("2x2")).Find(CropSubject.MidTone, Iso.FromSpeed(1600))!;
        LinearPicture first = crop.Linear(PairMix.FirstAlone, PrintScale.PixelForPixel), second = crop.Linear(PairMix.SecondAlone, PrintScale.PixelForPixel);
        double common = Covariance(first.Channels[1], second.Channels[1]), noise = (Covariance(first.Channels[1], first.Channels[1]) + Covariance(second.Channels[1], second.Channels[1])) / 2 - common;
        foreach (double weight in (double[])[0.5, 0.7, 0.9])
        {
            var mix = PairMix.OfFirst(weight);
            LinearPicture mixed = crop.Linear(mix, PrintScale.PixelForPixel);
            Assert.Equal(Means(first)[1], Means(mixed)[1], 1e-3 * Means(first)[1]);
            // Two per cent: the noise of the two frames differs by as much.
            Assert.Equal(common + mix.VarianceShare * noise, Covariance(mixed.Channels[1], mixed.Channels[1]), 0.02 * noise);
        }

        static double Covariance(float[] a, float[] b)
        {
            double ma = a.Average(v => (double)v), mb = b.Average(v => (double)v);
            return a.Zip(b, (x, y) => (x - ma) * (y - mb)).Average();
        }
    }

    [Fact]
    public async Task Levels_between_the_isos_are_made_where_a_mix_reaches()
    {
        DevelopedCrops crops = await Make("2x2");
        var (crop, mix) = crops.Between(CropSubject.MidTone, Iso.FromSpeed(100 * Math.Sqrt(2)), PrintScale.PixelForPixel)!.Value;
        Assert.Equal(200, crop.Level.Iso.Speed);
        // Half a stop below: 1/√2 of the noise variance where photons rule; 5 %: the variances are measured on 10 000 pixels.
        Assert.Equal(Math.Sqrt(0.5), mix.VarianceShare, 0.05);
        Assert.Null(crops.Between(CropSubject.MidTone, Iso.FromSpeed(400), PrintScale.PixelForPixel));
        Assert.NotNull(crops.Between(CropSubject.MidTone, Iso.FromSpeed(1250), PrintScale.PixelForPixel));
        Assert.Null(crops.Between(CropSubject.MidTone, Iso.FromSpeed(50), PrintScale.PixelForPixel));
        Assert.Equal(1, crops.Between(CropSubject.MidTone, Iso.FromSpeed(200), PrintScale.PixelForPixel)!.Value.Mix.First);
    }

    [Fact]
    public async Task A_level_that_its_settings_do_not_explain_is_not_matched()
    {
        BenchAnswer answer = ladder.Answer("2x2");
        // The same file, said to have been exposed half as long: it is a stop brighter than it should be.
        answer = answer with { Levels = [.. answer.Levels.Select(l => l.Iso.Speed == 1600 ? l with { ShutterSeconds = l.ShutterSeconds / 2 } : l)] };
        DevelopedCrops crops = await DevelopedCrops.MakeAsync(answer, new CropWish(), DevelopedLadder.Worker, cancel: Test);
        DevelopedCrop crop = crops.Find(CropSubject.MidTone, Iso.FromSpeed(1600))!;
        Assert.False(crop.IsMatched);
        Assert.StartsWith("This crop at ISO\u00a01600 is 1.0 stop brighter than ISO, shutter and aperture explain", crop.Refusal, StringComparison.Ordinal);
        // Only what the settings explain is evened.
        Assert.Equal(2 * Means(crops.Find(CropSubject.MidTone, Iso.FromSpeed(100))!.SensorLight(0))[1], Means(crop.SensorLight(0))[1], 0.02);
        Assert.Null(crops.Between(CropSubject.MidTone, Iso.FromSpeed(1250), PrintScale.PixelForPixel));
    }

    [Theory]
    [InlineData("2x2")]
    [InlineData("6x6")]
    public async Task Places_are_where_the_scene_is_what_they_are_called(string mosaic)
    {
        DevelopedCrops crops = await Make(mosaic);
        float[] truth = SceneMap.For(DevelopedLadder.Width, DevelopedLadder.Height, BenchMosaic.Named(mosaic)!, DevelopedLadder.Options(mosaic).SceneSeed, 0, 0).Electrons;
        double mid = BodyA.MidGreyShare * BodyA.FullWellElectrons;
        var (dark, tone, texture) = (Green(0), Green(1), Green(2));
        // The lining of the box lies 7 to 9 stops below mid-grey, and nothing else in the scene is as dark.
        Assert.InRange(Math.Log2(dark.Mean / mid), -9.5, -6.5);
        Assert.Equal(0, Math.Log2(tone.Mean / mid), 1.0 / 3);
        Assert.True(tone.Structure < 0.05, $"structure {tone.Structure:G3} at the mid tone");
        Assert.Equal(0, Math.Log2(texture.Mean / mid), 1.6);
        Assert.True(texture.Structure > 0.08, $"structure {texture.Structure:G3} of the texture");

        (double Mean, double Structure) Green(int index)
        {
            CropPosition place = crops.Places[index];
            double[] values = Samples(truth, mosaic, place, 'G');
            double mean = values.Average();
            return (mean, Math.Sqrt(values.Average(v => (v - mean) * (v - mean))) / mean);
        }
    }

    [Fact]
    public async Task A_moved_place_is_shown_where_it_was_put_and_one_outside_is_refused()
    {
        var wish = new CropWish { SidePixels = 90, Moved = [new CropPosition(CropSubject.Texture, 301, 203)] };
        DevelopedCrops crops = await Make("6x6", wish);
        CropPosition place = crops.Places.Single(p => p.Subject == CropSubject.Texture);
        Assert.Equal((301, 203), (place.Left, place.Top));
        double[] truth = Truth("6x6", place, 90), means = Means(crops.Find(CropSubject.Texture, Iso.FromSpeed(100))!.SensorLight(0));
        double scale = 0.18 / (MeteredTone.MidGreyShare * BodyA.FullWellElectrons);
        for (int c = 0; c < 3; c++) Assert.Equal(scale * truth[c], means[c], 0.02 * means[c]);
        ArgumentException outside = await Assert.ThrowsAsync<ArgumentException>(() => Make("6x6", wish with { Moved = [new CropPosition(CropSubject.Texture, 1120, 203)] }));
        Assert.Equal("A crop of 90 pixels at 1120, 203 does not lie inside the frame: the left edge goes from 3 to 1107, the top edge from 3 to 707.", outside.Message);
        await Assert.ThrowsAsync<ArgumentException>(() => Make("6x6", new CropWish { SidePixels = 20 }));
        await Assert.ThrowsAsync<ArgumentException>(() => Make("6x6", new CropWish { Moved = [new CropPosition(CropSubject.Difference, 10, 10)] }));
    }

    [Fact]
    public async Task At_print_scale_all_levels_have_the_same_pixels_and_the_same_light()
    {
        DevelopedCrops crops = await Make("2x2");
        // 1200 pixels on 60 cm are 20 a centimetre; 8 a centimetre leave 0.4 of them.
        PrintScale scale = PrintScale.Of(SixtyByArm, DevelopedLadder.Width, 8);
        foreach (DevelopedCrop crop in crops.Crops)
        {
            LinearPicture large = crop.Linear(PairMix.FirstAlone, PrintScale.PixelForPixel), small = crop.Linear(PairMix.FirstAlone, scale);
            Assert.Equal((40, 40), (small.Width, small.Height));
            for (int c = 0; c < 3; c++) Assert.Equal(Means(large)[c], Means(small)[c], 1e-5);
            Assert.Equal((40, 40), EnlargedPng.SizeOf(crop.Png(PairMix.FirstAlone, scale)));
        }

        DevelopedCrop shown = crops.Find(CropSubject.MidTone, Iso.FromSpeed(100))!;
        byte[] bytes = shown.Linear(PairMix.FirstAlone, scale).CutAtBlack().Bytes();
        using var png = new PngPixels(shown.Png(PairMix.FirstAlone, scale));
        // One step of 255: the frame is shown as bright as the two of the reference level are on average.
        Assert.Equal(bytes[1], png[0, 0].G, 1.0);
        Assert.Equal(bytes[2], png[0, 0].B, 1.0);
        Assert.Equal(bytes[3 * (40 * 31 + 17)], png[17, 31].R, 1.0);
    }

    [Fact]
    public async Task Small_frames_and_empty_answers_say_why_there_is_nothing()
    {
        string folder = Path.Combine(ladder.Folder, "small");
        BenchSample.Write(new SampleOptions { Width = 240, Height = 160, Isos = [100, 200], CapFramesPerLevel = 0 }, folder, cancellation: Test);
        BenchAnswer answer = await Raw.Measurement.FolderMeasurement.MeasureAsync(folder, DevelopedLadder.Worker, SyntheticMeasurement.Print, cancel: Test);
        DevelopedCrops crops = await DevelopedCrops.MakeAsync(answer, new CropWish(), DevelopedLadder.NoWorker, cancel: Test);
        Assert.Empty(crops.Crops);
        Assert.Equal("The frames have 240 × 160 pixels; developed crops need at least 384 on the shorter side.", Assert.Single(crops.Notes));
        Assert.Single((await DevelopedCrops.MakeAsync(answer with { Levels = [] }, new CropWish(), DevelopedLadder.NoWorker, cancel: Test)).Notes);
    }

    [Fact]
    public async Task A_level_without_a_partner_is_shown_alone_and_one_without_files_is_told()
    {
        BenchAnswer answer = ladder.Answer("2x2");
        answer = answer with
        {
            Levels = [.. answer.Levels.Select(l => l.Iso.Speed switch
            {
                200 => l with { Frames = [l.Frames[0], Path.Combine(ladder.Folder, "gone.dng")] },
                1600 => l with { Frames = [Path.Combine(ladder.Folder, "gone too.dng")] },
                _ => l,
            })],
        };
        DevelopedCrops crops = await DevelopedCrops.MakeAsync(answer, new CropWish(), DevelopedLadder.Worker, cancel: Test);
        DevelopedCrop alone = crops.Find(CropSubject.MidTone, Iso.FromSpeed(200))!;
        Assert.False(alone.HasPair);
        Assert.Null(alone.NoiseVariance(PrintScale.PixelForPixel));
        Assert.Throws<InvalidOperationException>(() => alone.Linear(PairMix.OfFirst(0.5), PrintScale.PixelForPixel));
        Assert.Throws<ArgumentOutOfRangeException>(() => alone.SensorLight(1));
        Assert.Equal("No frame of ISO\u00a01600 can be shown: its files can not be read any more, or are of another size than the others.", Assert.Single(crops.Notes));
    }

    private Task<DevelopedCrops> Make(string mosaic, CropWish? wish = null) => DevelopedCrops.MakeAsync(ladder.Answer(mosaic), wish ?? new CropWish(), DevelopedLadder.Worker, cancel: Test);

    private static double[] Means(LinearPicture picture) => [.. picture.Channels.Select(c => c.Average(v => (double)v))];

    /// <summary>Mean light of a place in red, green and blue, in electrons of green at ISO 100.</summary>
    private static double[] Truth(string mosaic, CropPosition place, int side = 100)
    {
        float[] truth = SceneMap.For(DevelopedLadder.Width, DevelopedLadder.Height, BenchMosaic.Named(mosaic)!, DevelopedLadder.Options(mosaic).SceneSeed, 0, 0).Electrons;
        return [Samples(truth, mosaic, place, 'R', side).Average() / SceneMap.RedShare, Samples(truth, mosaic, place, 'G', side).Average(), Samples(truth, mosaic, place, 'B', side).Average() / SceneMap.BlueShare];
    }

    private static double[] Samples(float[] truth, string mosaic, CropPosition place, char colour, int side = 100)
    {
        MosaicPattern pattern = BenchMosaic.Named(mosaic)!;
        return
        [
            .. Enumerable.Range(0, side * side).Select(i => (X: place.Left + i % side, Y: place.Top + i / side))
                .Where(p => pattern.Letters[p.Y % pattern.Rows * pattern.Columns + p.X % pattern.Columns] == colour)
                .Select(p => (double)truth[p.Y * DevelopedLadder.Width + p.X]),
        ];
    }
}
