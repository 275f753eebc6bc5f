using System.Collections.Immutable;
using Leafstop.Raw.Dng;
using Leafstop.Raw.Frames;

namespace Leafstop.Raw.Synthetic;

/// <summary>How far the writing of a ladder has come.</summary>
/// <param name="Done">Files written.</param>
/// <param name="Total">Files to write.</param>
/// <param name="File">The file just written, name without folder.</param>
public readonly record struct SampleProgress(int Done, int Total, string File);

/// <summary>Writes a ladder of Body A as DNG files, with its truth in a JSON file beside the folder.</summary>
public static class BenchSample
{
    private static readonly ImmutableArray<double> Neutral = [SceneMap.RedShare, 1, SceneMap.BlueShare];

    // XYZ to the raw colours of Body A: invented, and the inverse of how its preview is developed (neutral is the neutral of daylight here).
    private static readonly ImmutableArray<double> ColourMatrix = [1.1122, -0.3533, -0.1413, -0.5139, 1.3894, 0.0910, -0.0074, 0.0804, 0.3459];

    /// <summary>Where the truth of a folder is written: DIR.truth.json beside it.</summary>
    public static string TruthPath(string directory) => Path.TrimEndingDirectorySeparator(Path.GetFullPath(directory)) + ".truth.json";

    /// <summary>Writes all frames. Nothing appears under the folder's name before all of it is there.</summary>
    /// <param name="options">What to write.</param>
    /// <param name="directory">Folder to make; it may exist when it is empty.</param>
    /// <param name="progress">Told after each file, from any thread; may be null.</param>
    /// <param name="cancellation">Stops within a frame; what was written is removed.</param>
    /// <returns>The paths of the files in the order of exposure.</returns>
    /// <exception cref="IOException">The folder holds something already, or cannot be written.</exception>
    /// <exception cref="ArgumentException">An option makes no sense; the message says which.</exception>
    public static ImmutableArray<string> Write(
        SampleOptions options,
        string directory,
        IProgress<SampleProgress>? progress = null,
        CancellationToken cancellation = default)
    {
        var bench = new SyntheticBench(options);
        string target = Path.TrimEndingDirectorySeparator(Path.GetFullPath(directory));
        RefuseIfTaken(target);
        string partial = $"{target}.partial-{Environment.ProcessId}";
        // A process that is ended in the middle of a frame does not reach the end of this method.
        void removePartial(object? sender, EventArgs e)
        {
            try
            {
                Remove(partial);
            }
            catch (IOException)
            {
                // The process ends either way, and another thread may be removing the same folder.
            }
        }
        AppDomain.CurrentDomain.ProcessExit += removePartial;
        try
        {
            Directory.CreateDirectory(partial);
            int done = 0;
            Parallel.ForEach(
                bench.Frames,
                new ParallelOptions { MaxDegreeOfParallelism = Environment.ProcessorCount, CancellationToken = cancellation },
                plan =>
                {
                    WriteFrame(bench, plan, Path.Combine(partial, plan.FileName), cancellation);
                    progress?.Report(new(Interlocked.Increment(ref done), bench.Frames.Length, plan.FileName));
                });
            cancellation.ThrowIfCancellationRequested();
            // Another run may have filled it meanwhile; the truth beside it is then that run's.
            RefuseIfTaken(target);
            WriteTruth(bench, TruthPath(target));
            MoveInto(partial, target);
        }
        catch (AggregateException all) when (all.InnerExceptions.OfType<IOException>().FirstOrDefault() is { } first)
        {
            throw new IOException(first.Message, first);
        }
        catch (UnauthorizedAccessException denied)
        {
            throw new IOException($"{target} cannot be written: {denied.Message} Name a folder that you may write to.", denied);
        }
        finally
        {
            AppDomain.CurrentDomain.ProcessExit -= removePartial;
            Remove(partial);
        }
        return [.. bench.Frames.Select(f => Path.Combine(target, f.FileName))];
    }

    /// <summary>Writes one frame of a ladder.</summary>
    /// <param name="bench">The ladder.</param>
    /// <param name="index">Index of the frame.</param>
    /// <param name="target">A stream at its start that can be written.</param>
    public static void WriteFrame(SyntheticBench bench, int index, Stream target)
    {
        using var frame = bench.Render(index, threads: 1);
        WriteFrame(bench, index, frame, target);
    }

    private static void WriteFrame(SyntheticBench bench, int index, MosaicFrame frame, Stream target)
    {
        var truth = bench.Frames[index].Truth;
        DngWriter.Write(target, frame, Describe(bench.Options, truth, frame));
    }

    private static void WriteFrame(SyntheticBench bench, PlannedFrame plan, string path, CancellationToken cancellation)
    {
        using var file = new FileStream(path, FileMode.CreateNew, FileAccess.Write, FileShare.None, 1 << 16);
        using var frame = bench.RenderUntilStopped(plan.Index, threads: 1, cancellation);
        WriteFrame(bench, plan.Index, frame, file);
    }

    private static DngDescription Describe(SampleOptions options, LevelTruth truth, MosaicFrame frame) => new()
    {
        Serial = BodyA.Serial,
        Lens = "Leafstop bench lens 50 mm",
        Neutral = Neutral,
        ColourMatrix = ColourMatrix,
        NoiseProfile = Profile(options.NoiseProfile, truth),
        Preview = PreviewPicture.Develop(frame, truth.ClipDn, Neutral),
        Lossless = options.Lossless,
        Bits = BodyA.Bits,
    };

    /// <summary>S = K / (W − B), O = σ² / (W − B)², the same for all three colours. Source: SEN-21.</summary>
    private static ImmutableArray<double> Profile(NoiseProfileTag tag, LevelTruth truth)
    {
        if (tag == NoiseProfileTag.None)
            return [];
        double range = BodyA.WhiteTagDn - truth.BlackDn;
        double s = 1 / truth.GainElectronsPerDn / range, o = truth.ReadNoiseDn * truth.ReadNoiseDn / (range * range);
        if (tag == NoiseProfileTag.Falsified)
            (s, o) = (s / 3, o * 9);
        return [s, o, s, o, s, o];
    }

    private static void Remove(string partial)
    {
        if (Directory.Exists(partial))
            Directory.Delete(partial, recursive: true);
    }

    private static void RefuseIfTaken(string target)
    {
        if (File.Exists(target))
            throw new IOException($"{target} is a file. Name a folder that does not exist yet, or an empty one.");
        if (Directory.Exists(target) && Directory.EnumerateFileSystemEntries(target).Any())
            throw new IOException($"{target} holds something already, and nothing is ever written over it. Name a folder that does not exist yet, or an empty one.");
    }

    private static void WriteTruth(SyntheticBench bench, string path)
    {
        string partial = $"{path}.partial-{Environment.ProcessId}";
        File.WriteAllText(partial, TruthFile.Of(bench).ToJson() + "\n");
        File.Move(partial, path, overwrite: true);
    }

    private static void MoveInto(string partial, string target)
    {
        if (!Directory.Exists(target))
        {
            Directory.Move(partial, target);
            return;
        }
        foreach (string file in Directory.EnumerateFiles(partial))
            File.Move(file, Path.Combine(target, Path.GetFileName(file)));
    }
}
