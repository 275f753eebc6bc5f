using Leafstop.Core.Sensor;
using Leafstop.Raw.Crops;
using Leafstop.Raw.Decoding;
using Leafstop.Raw.Measurement;
using Leafstop.Raw.Synthetic;
using Leafstop.Testing;

namespace Leafstop.Raw.Tests.Crops;

/// <summary>Derived: whole ladders through real child processes.</summary>
public sealed class BenchPicturesTests : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("leafstop-crops-");

    public void Dispose() => _folder.Delete(recursive: true);

    private static CancellationToken Test => TestContext.Current.CancellationToken;

    private static WorkerCommand Worker(bool faulty = false) => new(Path.Combine(AppContext.BaseDirectory, "Leafstop.Testing.Worker"), [])
    {
        Environment = faulty ? new Dictionary<string, string> { ["LEAFSTOP_TEST_RAW_LIBRARY"] = Path.Combine(AppContext.BaseDirectory, "libfaulty_raw.so") } : [],
    };

    [Fact]
    public async Task Every_level_is_shown_in_four_ways_left_off_ones_too()
    {
        BenchAnswer answer = await Answer(new SampleOptions
        {
            Width = 600,
            Height = 400,
            Isos = [100, 800, 6400],
            CapFramesPerLevel = 1,
            Faults = new SampleFaults { SmoothingFromIso = 6400, SmoothingCorrelation = 0.24 },
        });
        Assert.False(answer.Levels[2].Usable);
        var told = new List<DecodingProgress>();
        IReadOnlyList<BenchPicture> pictures = await BenchPictures.MakeAsync(answer, Worker(), new Told(told), Test);
        Assert.Equal(
            from subject in Enum.GetValues<CropSubject>() from iso in new[] { 100.0, 800, 6400 } select (subject, iso),
            pictures.Select(p => (p.Subject, p.Level.Iso.Speed)));
        Assert.All(pictures, p =>
        {
            Assert.Equal((144, 144), EnlargedPng.SizeOf(p.Png.Span));
            // 48 × 48 points of three bytes that hardly compress, and a header: beyond that something is wrong.
            Assert.InRange(p.Png.Length, 200, 12_000);
        });
        Assert.All(pictures.Where(p => p.Subject != CropSubject.Difference), p => Assert.True(p.IsMatched, $"{p.Subject} at ISO {p.Level.Iso}"));
        Assert.Equal(Enumerable.Range(1, 6), told.Select(p => p.Done));
        Assert.All(told, p => Assert.Equal(6, p.Total));
    }

    [Fact]
    public async Task In_the_same_light_iso_and_shutter_explain_the_correction()
    {
        BenchAnswer answer = await Answer(new SampleOptions { Width = 600, Height = 400, Isos = [200, 800], Ladder = LadderKind.SameLight, CapFramesPerLevel = 0 });
        IReadOnlyList<BenchPicture> pictures = await BenchPictures.MakeAsync(answer, Worker(), cancel: Test);
        BenchPicture high = pictures.Single(p => p.Subject == CropSubject.Texture && p.Level.Iso.Speed == 800);
        Assert.True(high.IsMatched);
        // Two stops of gain in the same light; 0.05: the grain of one crop and what clips of it.
        Assert.Equal(-2, high.CorrectionStops, 0.05);
        Assert.Equal(0, high.UnexplainedStops!.Value, 0.05);
    }

    [Fact]
    public async Task A_file_that_breaks_its_decoder_costs_its_own_pictures_only()
    {
        BenchAnswer answer = await Answer(new SampleOptions { Width = 600, Height = 400, Isos = [100, 800], CapFramesPerLevel = 0 });
        string breaks = Path.Combine(_folder.FullName, "this ends its decoder.dng");
        File.Copy(answer.Levels[1].Frames[0], breaks);
        answer = answer with { Levels = [answer.Levels[0], answer.Levels[1] with { Frames = [breaks, answer.Levels[1].Frames[1]] }] };
        IReadOnlyList<BenchPicture> pictures = await BenchPictures.MakeAsync(answer, Worker(faulty: true), cancel: Test);
        // The partner is shown; the difference of the two is missing.
        Assert.Equal(4, pictures.Count(p => p.Level.Iso.Speed == 100));
        Assert.Equal([CropSubject.Dark, CropSubject.MidTone, CropSubject.Texture], pictures.Where(p => p.Level.Iso.Speed == 800).Select(p => p.Subject));
    }

    [Fact]
    public async Task No_level_is_no_picture_and_vanished_files_leave_gaps()
    {
        BenchAnswer answer = await Answer(new SampleOptions { Width = 600, Height = 400, Isos = [100, 800], CapFramesPerLevel = 0 });
        Assert.Empty(await BenchPictures.MakeAsync(answer with { Levels = [] }, Worker(), cancel: Test));
        foreach (string file in answer.Levels[1].Frames) File.Delete(file);
        Assert.All(await BenchPictures.MakeAsync(answer, Worker(), cancel: Test), p => Assert.Equal(100, p.Level.Iso.Speed));
        foreach (string file in answer.Levels[0].Frames) File.Delete(file);
        Assert.Empty(await BenchPictures.MakeAsync(answer, Worker(), cancel: Test));
    }

    private async Task<BenchAnswer> Answer(SampleOptions options)
    {
        string ladder = Path.Combine(_folder.FullName, "ladder");
        BenchSample.Write(options, ladder, cancellation: Test);
        return await FolderMeasurement.MeasureAsync(ladder, Worker(), SyntheticMeasurement.Print, cancel: Test);
    }

    private sealed class Told(List<DecodingProgress> seen) : IProgress<DecodingProgress>
    {
        public void Report(DecodingProgress value) => seen.Add(value);
    }
}
