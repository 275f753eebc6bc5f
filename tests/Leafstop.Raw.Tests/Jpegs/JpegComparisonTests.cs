using System.Diagnostics;
using Leafstop.Core.Sensor;
using Leafstop.Raw.Crops;
using Leafstop.Raw.Decoding;
using Leafstop.Raw.Jpegs;
using Leafstop.Raw.Measurement;
using Leafstop.Raw.Tests.Crops;
using Leafstop.Testing;
using SkiaSharp;

namespace Leafstop.Raw.Tests.Jpegs;

/// <summary>Derived: folders of JPEGs alone, through real child processes. They are shown to the eye, and nothing is measured from them.</summary>
public sealed class JpegComparisonTests : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("leafstop-jpegs-");

    public void Dispose() => _folder.Delete(recursive: true);

    private static CancellationToken Test => TestContext.Current.CancellationToken;

    private static WorkerCommand Worker => new(Path.Combine(AppContext.BaseDirectory, "Leafstop.Testing.Worker"), []);

    /// <summary>Scenario E10, its second folder: JPEGs in which ISO 6400 is smoother than ISO 1600.</summary>
    [Fact]
    public async Task A_smoother_high_iso_is_shown_and_gives_no_limit()
    {
        CameraJpegs.Write(_folder.FullName, 100, 400, 1600, 6400);
        BenchAnswer answer = await Answer();
        Assert.Contains(answer.Findings, f => f.Code == FindingCode.JpegOnly);
        Assert.Empty(answer.Levels);
        Assert.Empty(answer.PredictedLimits);

        var told = new List<DecodingProgress>();
        JpegComparison shown = await JpegComparison.MakeAsync(answer, Worker, new Told(told), Test);
        Assert.Null(shown.Why);
        Assert.Empty(shown.LeftOut);
        Assert.Equal(
            from subject in new[] { CropSubject.Dark, CropSubject.MidTone, CropSubject.Texture } from iso in new[] { 100.0, 400, 1600, 6400 } select (subject, iso),
            shown.Pictures.Select(p => (p.Subject, p.Iso.Speed)));
        Assert.All(shown.Pictures, p => Assert.Equal((144, 144), EnlargedPng.SizeOf(p.Png.Span)));
        // The lure is there to be seen: drawn were 8 codes of grain at ISO 1600, and 16 / 7 at 6400, a ratio of 0.29; JPEG and one crop may double it.
        Assert.True(Grain(shown, 6400) < 0.6 * Grain(shown, 1600), $"{Grain(shown, 6400)} and {Grain(shown, 1600)}");
        Assert.Equal(told.Count, told.Select(t => t.Done).Distinct().Count());
        Assert.All(told, t => Assert.Equal(8, t.Total));
    }

    [Fact]
    public async Task Every_iso_shows_the_same_places_pixel_for_pixel()
    {
        string[] files = CameraJpegs.Write(_folder.FullName, 100, 1600);
        JpegComparison shown = await JpegComparison.MakeAsync(await Answer(), Worker, cancel: Test);
        // Where they lie, the cutting itself tells, in this process.
        var request = new JpegRequest { Width = CameraJpegs.Width, Height = CameraJpegs.Height };
        JpegPlace[] places = JpegCrops.Of(files[0], request).Places;
        int third = CameraJpegs.Width / 3;
        Assert.Equal([0, 1, 2], places.Select(p => (p.Left + 24) / third));
        foreach (JpegPicture picture in shown.Pictures)
        {
            string file = files.First(f => f == picture.File);
            Assert.EndsWith("_1.JPG", file, StringComparison.Ordinal);
            JpegPlace place = places.Single(p => p.Subject == picture.Subject);
            using SKBitmap whole = SKBitmap.Decode(file);
            using var crop = new PngPixels(picture.Png.ToArray());
            for (int y = 0; y < crop.Height; y++)
            {
                for (int x = 0; x < crop.Width; x++)
                {
                    SKColor pixel = whole.GetPixel(place.Left + x / 3, place.Top + y / 3);
                    Assert.Equal((pixel.Red, pixel.Green, pixel.Blue), crop[x, y]);
                }
            }
        }
    }

    [Fact]
    public async Task What_cannot_be_shown_is_named_with_its_reason_and_the_next_frame_stands_in()
    {
        string[] files = CameraJpegs.Write(_folder.FullName, 100, 800);
        byte[] whole = File.ReadAllBytes(files[0]);
        File.WriteAllBytes(files[0], whole[..(whole.Length / 3)]);
        string Written(string name, byte[] bytes)
        {
            string file = Path.Combine(_folder.FullName, name);
            File.WriteAllBytes(file, bytes);
            return file;
        }

        string silent = Written("C.JPG", CameraJpegs.Picture(200, 5)), other = Written("D.JPG", CameraJpegs.WithIso(CameraJpegs.Picture(200, 6, width: 240), 200)), text = Written("E.JPG", "no picture"u8.ToArray());
        JpegComparison shown = await JpegComparison.MakeAsync(await Answer(), Worker, cancel: Test);
        Assert.Equal([files[1], files[2]], shown.Pictures.Select(p => p.File).Distinct());
        Assert.Equal([files[0], silent, other, text], shown.LeftOut.Select(f => f.File));
        Assert.Equal(
            ["The picture breaks off or is damaged. Copy it again from the card.", "It does not state its ISO.", "It has 240 × 240 pixels, most others 480 × 240.", "This is no JPEG that can be read: another kind of file, or a damaged one."],
            shown.LeftOut.Select(f => f.Why));
    }

    [Fact]
    public async Task Nothing_to_compare_says_why()
    {
        CameraJpegs.Write(_folder.FullName, 400);
        Assert.Contains("all state the same one", (await JpegComparison.MakeAsync(await Answer(), Worker, cancel: Test)).Why, StringComparison.Ordinal);
        foreach (FileInfo file in _folder.GetFiles()) File.WriteAllBytes(file.FullName, CameraJpegs.Picture(400, 1));
        JpegComparison none = await JpegComparison.MakeAsync(await Answer(), Worker, cancel: Test);
        Assert.Contains("None of the JPEGs states its ISO", none.Why, StringComparison.Ordinal);
        Assert.Empty(none.Pictures);
        Assert.Equal(2, none.LeftOut.Count);
    }

    [Fact]
    public async Task A_folder_with_raws_has_no_such_comparison()
    {
        BenchAnswer answer = SyntheticMeasurement.Answer(new Raw.Synthetic.SampleOptions { Width = 240, Height = 160, Isos = [100, 400], CapFramesPerLevel = 0 });
        JpegComparison none = await JpegComparison.MakeAsync(answer, Worker, cancel: Test);
        Assert.Empty(none.Pictures);
        Assert.Null(none.Why);
    }

    /// <summary>A file that never comes to its end, as on a disk that does not answer: its child is ended, the others are read.</summary>
    [Fact]
    public async Task A_jpeg_that_stands_still_is_lost_alone()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "Uses a pipe with a name in place of a file.");
        string[] files = CameraJpegs.Write(_folder.FullName, 100);
        string still = Path.Combine(_folder.FullName, "still.JPG");
        using (var pipe = Process.Start("mkfifo", [still]))
            await pipe.WaitForExitAsync(Test);
        await using var pool = new DecodingPool(Worker, new DecodingLimits { FileTime = TimeSpan.FromSeconds(2) });
        IReadOnlyDictionary<string, JpegReply> said = (await pool.LookAsync([new WorkerJob(JobKind.JpegFacts, [files[0], still, files[1]])], cancel: Test))[0];
        Assert.Contains("stood still", said[still].Why, StringComparison.Ordinal);
        Assert.Equal([100.0, 100], [said[files[0]].Iso, said[files[1]].Iso]);
    }

    private Task<BenchAnswer> Answer() => FolderMeasurement.MeasureAsync(_folder.FullName, Worker, SyntheticMeasurement.Print, cancel: Test);

    /// <summary>Standard deviation of the mid tone, codes.</summary>
    private static double Grain(JpegComparison shown, double iso)
    {
        using var crop = new PngPixels(shown.Pictures.Single(p => p.Subject == CropSubject.MidTone && p.Iso.Speed == iso).Png.ToArray());
        double[] codes = [.. from y in Enumerable.Range(0, 48) from x in Enumerable.Range(0, 48) select (double)crop[3 * x, 3 * y].G];
        return Math.Sqrt(codes.Average(c => c * c) - codes.Average() * codes.Average());
    }

    private sealed class Told(List<DecodingProgress> seen) : IProgress<DecodingProgress>
    {
        public void Report(DecodingProgress value) => seen.Add(value);
    }
}
