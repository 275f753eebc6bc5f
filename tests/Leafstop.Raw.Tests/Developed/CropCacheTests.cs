using Leafstop.Core.Developing;
using Leafstop.Core.Sensor;
using Leafstop.Raw.Crops;
using Leafstop.Raw.Developed;

namespace Leafstop.Raw.Tests.Developed;

/// <summary>Derived: what comes out of the cache is what was cut.</summary>
public sealed class CropCacheTests(DevelopedLadder ladder) : IClassFixture<DevelopedLadder>, IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("leafstop-crop-cache-");

    public void Dispose() => _folder.Delete(recursive: true);

    private static CancellationToken Test => TestContext.Current.CancellationToken;

    [Fact]
    public async Task The_second_time_nothing_is_decoded_and_the_pictures_are_the_same()
    {
        var cache = new CropCache(_folder.FullName);
        DevelopedCrops cut = await Make(cache), kept = await DevelopedCrops.MakeAsync(ladder.Answer("6x6"), new CropWish(), DevelopedLadder.NoWorker, cache, cancel: Test);
        Assert.Equal(cut.Crops.Select(Picture), kept.Crops.Select(Picture));
        Assert.InRange(cache.Bytes(), 1, cache.MostBytes);
        // Another place is not in it.
        await Assert.ThrowsAsync<InvalidOperationException>(() => DevelopedCrops.MakeAsync(
            ladder.Answer("6x6"), new CropWish { Moved = [new CropPosition(CropSubject.Dark, 30, 30)] }, DevelopedLadder.NoWorker, cache, cancel: Test));
        cache.Empty();
        Assert.Equal(0, cache.Bytes());
    }

    [Fact]
    public async Task Damaged_entries_are_made_again()
    {
        var cache = new CropCache(_folder.FullName);
        DevelopedCrops cut = await Make(cache);
        FileInfo[] entries = _folder.GetFiles("*.crop");
        byte[] bytes = await File.ReadAllBytesAsync(entries[0].FullName, Test);
        bytes[bytes.Length / 2] ^= 1;
        await File.WriteAllBytesAsync(entries[0].FullName, bytes, Test);
        await File.WriteAllBytesAsync(entries[1].FullName, [1, 2, 3], Test);
        await File.WriteAllBytesAsync(entries[2].FullName, [], Test);
        DevelopedCrops again = await Make(cache);
        Assert.Equal(cut.Crops.Select(Picture), again.Crops.Select(Picture));
        // Whole again: no worker is needed.
        DevelopedCrops kept = await DevelopedCrops.MakeAsync(ladder.Answer("6x6"), new CropWish(), DevelopedLadder.NoWorker, cache, cancel: Test);
        Assert.Equal(cut.Crops.Select(Picture), kept.Crops.Select(Picture));
    }

    [Fact]
    public async Task A_file_that_changed_is_cut_anew()
    {
        string other = Path.Combine(_folder.FullName, "copy.dng");
        Level level = ladder.Answer("6x6").Levels[0];
        File.Copy(level.Frames[0], other);
        BenchAnswer answer = ladder.Answer("6x6") with { Levels = [level with { Frames = [other] }] };
        var cache = new CropCache(Path.Combine(_folder.FullName, "cache"));
        DevelopedCrops before = await DevelopedCrops.MakeAsync(answer, new CropWish(), DevelopedLadder.Worker, cache, cancel: Test);
        File.Copy(level.Frames[1], other, overwrite: true);
        File.SetLastWriteTimeUtc(other, DateTime.UtcNow.AddMinutes(1));
        DevelopedCrops after = await DevelopedCrops.MakeAsync(answer, new CropWish { Moved = before.Places }, DevelopedLadder.Worker, cache, cancel: Test);
        Assert.NotEqual(before.Crops.Select(Picture), after.Crops.Select(Picture));
    }

    [Fact]
    public async Task It_stays_below_its_bound_and_the_oldest_goes_first()
    {
        var cache = new CropCache(_folder.FullName, mostBytes: 200_000);
        DevelopedCrops cut = await Make(cache);
        Assert.InRange(cache.Bytes(), 1, 200_000);
        Assert.Equal(9, cut.Crops.Length);
        var tiny = new CropCache(Path.Combine(_folder.FullName, "tiny"), mostBytes: 0);
        Assert.Equal(9, (await Make(tiny)).Crops.Length);
        Assert.Equal(0, tiny.Bytes());

        var order = new CropCache(Path.Combine(_folder.FullName, "order"), mostBytes: 3000);
        order.Write("one", new byte[900]);
        order.Write("two", new byte[900]);
        order.Write("three", new byte[900]);
        foreach (var (name, minutes) in (ReadOnlySpan<(string, int)>)[("one", -3), ("two", -2), ("three", -1)])
        {
            // Ages set by hand: a clock's step may be coarser than the test.
            Assert.NotNull(order.Read(name));
            FileInfo newest = new DirectoryInfo(order.Folder).GetFiles().MaxBy(f => f.LastWriteTimeUtc)!;
            newest.LastWriteTimeUtc = DateTime.UtcNow.AddMinutes(minutes);
        }

        order.Read("one");
        order.Write("four", new byte[900]);
        Assert.Equal([true, false, true, true], ((string[])["one", "two", "three", "four"]).Select(n => order.Read(n) is not null));
    }

    [Fact]
    public async Task A_folder_that_can_not_be_made_costs_nothing_but_time()
    {
        string file = Path.Combine(_folder.FullName, "a file");
        await File.WriteAllTextAsync(file, "in the way", Test);
        Assert.Equal(9, (await Make(new CropCache(file))).Crops.Length);
        Assert.Equal("in the way", await File.ReadAllTextAsync(file, Test));
    }

    [Fact]
    public void More_than_was_agreed_is_refused()
    {
        FrameCut frame = new()
        {
            File = "a",
            Mosaic = Leafstop.Testing.PlainFrames.TwoByTwo,
            Width = 4000,
            Height = 4000,
            BlackDn = [0, 0, 0, 0],
            Neutral = [],
            XyzToCamera = [],
            ColourLight = [0.31, 0.33],
            Areas = [new CutArea(CropSubject.Dark, 0, 0, 1200, new byte[2 * 1200 * 1200])],
        };
        CutAnswer answer = new() { Places = [], Frames = [frame] };
        Assert.Throws<InvalidOperationException>(() => answer.Bounded());
        CutArea fitting = new(CropSubject.Dark, 0, 0, 100, new byte[2 * 100 * 100]);
        Assert.Same(frame.Mosaic, (answer with { Frames = [frame with { Areas = [fitting] }] }).Bounded().Frames[0].Mosaic);
        Assert.Throws<InvalidOperationException>(() => (answer with { Frames = [frame with { Areas = [fitting with { Samples = [1] }] }] }).Bounded());
        Assert.Throws<InvalidOperationException>(() => (answer with { Frames = [frame with { Areas = [fitting with { Left = 3950 }] }] }).Bounded());
    }

    private Task<DevelopedCrops> Make(CropCache cache) => DevelopedCrops.MakeAsync(ladder.Answer("6x6"), new CropWish(), DevelopedLadder.Worker, cache, cancel: Test);

    private static string Picture(DevelopedCrop crop) => Convert.ToHexString(System.IO.Hashing.XxHash128.Hash(crop.Png(PairMix.FirstAlone, PrintScale.PixelForPixel)));
}
