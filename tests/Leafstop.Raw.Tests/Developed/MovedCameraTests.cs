using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;
using Leafstop.Raw.Crops;
using Leafstop.Raw.Developed;
using Leafstop.Raw.Measurement;
using Leafstop.Raw.Synthetic;
using Leafstop.Testing;

namespace Leafstop.Raw.Tests.Developed;

/// <summary>Derived: a ladder in which the tripod moved by a known way, through real child processes.</summary>
public sealed class MovedCameraTests : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("leafstop-moved-");

    private static CancellationToken Test => TestContext.Current.CancellationToken;

    public void Dispose() => _folder.Delete(recursive: true);

    // The tripod moves inside the pair of ISO 200 and stays there: the crops of ISO 400 and 800 are moved along, within the pixel that rounding leaves, and show what those of ISO 100 show. Texture
    // is the judge: cut from the same place of the sensor it is another piece of texture.
    [Theory]
    [InlineData("2x2", 9, -6)]
    [InlineData("6x6", -7, 5)]
    public async Task Crops_follow_a_camera_that_moved(string mosaic, double right, double down)
    {
        BenchSample.Write(
            new SampleOptions
            {
                Mosaic = BenchMosaic.Named(mosaic)!,
                Width = 1200,
                Height = 800,
                Isos = [100, 200, 400, 800],
                CapFramesPerLevel = 0,
                Lossless = false,
                Faults = new SampleFaults { MovedIso = 200, MovedXPx = right, MovedYPx = down },
            },
            _folder.FullName,
            cancellation: Test);
        BenchAnswer answer = await FolderMeasurement.MeasureAsync(_folder.FullName, DevelopedLadder.Worker, SyntheticMeasurement.Print, cancel: Test);
        DevelopedCrops crops = await DevelopedCrops.MakeAsync(answer, new CropWish(), DevelopedLadder.Worker, cancel: Test);

        DevelopedCrop reference = crops.Crops.Single(c => c.Subject == CropSubject.Texture && c.Level.Iso.Speed == 100);
        foreach (DevelopedCrop crop in crops.Crops.Where(c => c.Subject == CropSubject.Texture && c.Level.Iso.Speed >= 400))
        {
            Assert.Equal(right, crop.Place.Left - reference.Place.Left, 1.0);
            Assert.Equal(down, crop.Place.Top - reference.Place.Top, 1.0);
            Assert.True(Likeness(reference.SensorLight(0).Channels[1], crop.SensorLight(0).Channels[1]) > 0.8);
            Assert.Contains(crops.Notes, n => n.Contains($"ISO\u00a0{crop.Level.Iso.ToDisplay()}", StringComparison.Ordinal) && n.Contains("the same piece of the scene", StringComparison.Ordinal));
        }
        Assert.Equal(reference.Place, crops.Places.Single(p => p.Subject == CropSubject.Texture));

        // The level whose pair moved is not judged, the others are.
        var levels = JudgedLevels.Of(crops, ToneKind.Smooth, [CropSubject.Texture]);
        Assert.Equal([100, 400, 800], levels.Isos.Select(i => Math.Round(i.Iso.Speed)));
        Assert.All(levels.Isos, i => Assert.True(i.HasPair));
        Assert.Equal((200, null), (Math.Round(levels.LeftOut.Single().Level.Iso.Speed), levels.LeftOut.Single().Why));
        Assert.Equal(3, levels.ToLadder().Isos.Length);
    }

    private static double Likeness(float[] a, float[] b)
    {
        double ma = a.Average(v => (double)v), mb = b.Average(v => (double)v), ab = 0, aa = 0, bb = 0;
        for (int i = 0; i < a.Length; i++)
        {
            ab += (a[i] - ma) * (b[i] - mb);
            aa += (a[i] - ma) * (a[i] - ma);
            bb += (b[i] - mb) * (b[i] - mb);
        }
        return ab / Math.Sqrt(aa * bb);
    }
}
