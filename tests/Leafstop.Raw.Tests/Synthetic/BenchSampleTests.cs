using System.Text.Json;
using Leafstop.Raw.Decoding;
using Leafstop.Raw.Synthetic;
using Leafstop.Raw.Tests.Decoding;

namespace Leafstop.Raw.Tests.Synthetic;

public sealed class BenchSampleTests
{
    private static SampleOptions Tiny => new() { Width = 120, Height = 80, Isos = [100, 500], CapFramesPerLevel = 1 };

    [Fact]
    public void A_ladder_is_written_with_its_truth_beside_the_folder_and_nothing_else()
    {
        using var folder = new ScratchFolder();
        string target = Path.Combine(folder.Root, "ladder with spaces é");
        var files = BenchSample.Write(Tiny, target, null, TestContext.Current.CancellationToken);
        Assert.Equal(["LS_0001.DNG", "LS_0002.DNG", "LS_0003.DNG", "LS_0004.DNG", "LS_0005.DNG", "LS_0006.DNG"], Directory.GetFiles(target).Select(Path.GetFileName).Order());
        Assert.Equal(2, Directory.GetFileSystemEntries(folder.Root).Length);
        Assert.Equal([100.0, 100, 500, 500, 100, 500], files.Select(f => RawFile.ReadHeader(f).Iso!.Value));
        using var truth = JsonDocument.Parse(File.ReadAllText(BenchSample.TruthPath(target)));
        var level = truth.RootElement.GetProperty("levels")[1];
        // Published: the table of Body A; ISO 500 is 100 * 2^(7/3).
        Assert.Equal(1.6, level.GetProperty("readNoiseElectrons").GetDouble(), 9);
        Assert.Equal(50_000 / Math.Pow(2, 7.0 / 3), level.GetProperty("saturationElectrons").GetDouble(), 6);
        Assert.Equal(15_872, level.GetProperty("clipDn").GetInt32());
        Assert.Equal("metered", truth.RootElement.GetProperty("ladder").GetString());
        Assert.Equal("cap", truth.RootElement.GetProperty("frames")[5].GetProperty("role").GetString());
    }

    [Fact]
    public void A_folder_that_holds_something_is_refused_and_left_as_it_is()
    {
        using var folder = new ScratchFolder();
        folder.Write("kept.txt", [1]);
        var refusal = Assert.Throws<IOException>(() => BenchSample.Write(Tiny, folder.Root, null, TestContext.Current.CancellationToken));
        Assert.Contains(folder.Root, refusal.Message, StringComparison.Ordinal);
        Assert.Equal(["kept.txt"], Directory.GetFileSystemEntries(folder.Root).Select(Path.GetFileName));
        Assert.False(File.Exists(BenchSample.TruthPath(folder.Root)));
    }

    [Fact]
    public void An_empty_folder_is_filled()
    {
        using var folder = new ScratchFolder();
        string target = Directory.CreateDirectory(Path.Combine(folder.Root, "empty")).FullName;
        BenchSample.Write(Tiny with { CapFramesPerLevel = 0 }, target, null, TestContext.Current.CancellationToken);
        Assert.Equal(4, Directory.GetFiles(target).Length);
    }

    [Fact]
    public void Stopping_half_way_leaves_nothing_behind()
    {
        using var folder = new ScratchFolder();
        using var stop = new CancellationTokenSource();
        var progress = new StopAfterFirst(stop);
        Assert.ThrowsAny<OperationCanceledException>(() => BenchSample.Write(Tiny with { Isos = SampleOptions.UsualIsos }, Path.Combine(folder.Root, "ladder"), progress, stop.Token));
        Assert.Empty(Directory.GetFileSystemEntries(folder.Root));
    }

    private sealed class StopAfterFirst(CancellationTokenSource stop) : IProgress<SampleProgress>
    {
        public void Report(SampleProgress value) => stop.Cancel();
    }
}
