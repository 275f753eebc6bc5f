using Leafstop.Core.Colour;
using Leafstop.Core.Developing;
using Leafstop.Core.Judging;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;
using Leafstop.Raw.Crops;
using Leafstop.Raw.Developed;
using Leafstop.Raw.Measurement;
using Leafstop.Raw.Synthetic;
using Leafstop.Raw.Tests.Crops;
using Leafstop.Testing;

namespace Leafstop.Raw.Tests.Developed;

/// <summary>Derived: what is judged blind must not tell its ISO by its brightness. The pictures that go out, read back as PNG files, are as bright as one another in linear light.</summary>
public sealed class ShownBrightnessTests : IDisposable
{
    /// <summary>Stops: 3.5 % of light. The mean of a crop is matched exactly at the recorded samples; eight bits, the interpolated ones at the edge and what is cut at white are left.</summary>
    private const double MostStops = 0.05;

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("leafstop-shown-");

    public void Dispose() => _folder.Delete(recursive: true);

    [Theory]
    [InlineData("2x2", 1200, 800)]
    [InlineData("6x6", 1200, 800)]
    [InlineData("2x2", 2400, 1600)]
    [InlineData("6x6", 2400, 1600)]
    public async Task Pictures_of_every_ISO_are_equally_bright_in_every_channel(string mosaic, int width, int height)
    {
        string ladder = Path.Combine(_folder.FullName, "ladder");
        BenchSample.Write(new SampleOptions { Mosaic = BenchMosaic.Named(mosaic)!, Width = width, Height = height, Isos = [100, 800, 3200, 6400, 12800], CapFramesPerLevel = 1, Lossless = false }, ladder, cancellation: TestContext.Current.CancellationToken);
        BenchAnswer answer = await FolderMeasurement.MeasureAsync(ladder, DevelopedLadder.Worker, SyntheticMeasurement.Print, cancel: TestContext.Current.CancellationToken);
        DevelopedCrops crops = await DevelopedCrops.MakeAsync(answer, new CropWish(), DevelopedLadder.Worker, cancel: TestContext.Current.CancellationToken);
        CropSubject[] subjects = [CropSubject.Dark, CropSubject.MidTone, CropSubject.Texture];
        LadderIso[] shown = [.. JudgedLevels.Of(crops, ToneKind.Smooth, subjects).Isos];
        // From base to the top at least these are to be judged; one that cannot be is named, and is no part of the ladder.
        Assert.True(shown.Length >= 4, string.Join(" ", crops.Crops.Select(c => c.Refusal).OfType<string>()));
        PrintScale half = PrintScale.Of(ViewingCondition.Of(Length.FromCentimetres(60), Length.FromCentimetres(60), Angle.FromArcminutes(1)), width, width / 60.0 / 2);
        foreach (CropSubject subject in subjects)
        {
            foreach (PrintScale scale in (PrintScale[])[PrintScale.PixelForPixel, half])
            {
                double[] reference = Light(crops, subject, ShownLevel.OneFrame(shown[0].Iso), false, scale);
                foreach (LadderIso level in shown)
                {
                    foreach (bool second in (bool[])[false, true])
                    {
                        Near(reference, Light(crops, subject, ShownLevel.OneFrame(level.Iso), second, scale), $"{subject} {level.Iso.Speed} {second} {scale.Ratio}");
                        Near(reference, Light(crops, subject, ShownLevel.Lowered(level.Iso, 0.5), second, scale), $"{subject} {level.Iso.Speed} mixed {second} {scale.Ratio}");
                    }
                }
            }
        }

        // No row of a smooth place belongs to a brighter neighbour: nothing in it lies beside the window that was searched.
        foreach (CropSubject smooth in (CropSubject[])[CropSubject.Dark, CropSubject.MidTone])
        {
            DevelopedCrop crop = crops.Find(smooth, shown[0].Iso)!;
            LinearPicture picture = crop.SensorLight(0);
            double mean = picture.Channels[1].Average(v => (double)v);
            for (int y = 0; y < picture.Height; y++)
            {
                Assert.InRange(picture.Channels[1].AsSpan(y * picture.Width, picture.Width).ToArray().Average(v => (double)v), 0.7 * mean, 1.4 * mean);
                Assert.InRange(Enumerable.Range(0, picture.Height).Average(row => (double)picture.Channels[1][row * picture.Width + y]), 0.7 * mean, 1.4 * mean);
            }
        }

        // The lift is told in thirds, and is one and the same at all levels.
        double lift = Assert.Single(crops.Crops.Where(c => c.Subject == CropSubject.Dark).Select(c => c.LiftStops).Distinct());
        Assert.Equal(Math.Round(3 * lift), 3 * lift, 1e-9);
        Assert.InRange(lift, 1, 4);
    }

    private static void Near(double[] reference, double[] own, string what)
    {
        for (int c = 0; c < 3; c++) Assert.True(Math.Abs(Math.Log2(own[c] / reference[c])) <= MostStops, $"{what}: channel {c} is {Math.Log2(own[c] / reference[c]):F3} stops brighter than at the lowest ISO");
    }

    /// <summary>Mean linear light of each channel, from the bytes of the file.</summary>
    private static double[] Light(DevelopedCrops crops, CropSubject subject, ShownLevel shown, bool second, PrintScale scale)
    {
        using PngPixels pixels = new(crops.Png(subject, shown, second, scale)!);
        double[] sums = new double[3];
        for (int y = 0; y < pixels.Height; y++)
        {
            for (int x = 0; x < pixels.Width; x++)
            {
                var (r, g, b) = pixels[x, y];
                sums[0] += SrgbCurve.Decode(r / 255.0);
                sums[1] += SrgbCurve.Decode(g / 255.0);
                sums[2] += SrgbCurve.Decode(b / 255.0);
            }
        }
        return [.. sums.Select(s => s / (pixels.Width * pixels.Height))];
    }
}
