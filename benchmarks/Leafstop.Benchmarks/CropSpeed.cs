using System.Diagnostics;
using System.Globalization;
using Leafstop.Core.Developing;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;
using Leafstop.Raw.Crops;
using Leafstop.Raw.Decoding;
using Leafstop.Raw.Developed;
using Leafstop.Raw.Measurement;
using Leafstop.Raw.Synthetic;
using Leafstop.Testing;

namespace Leafstop.Benchmarks;

/// <summary>Developed crops of 24 MP ladders: a judging round against the raw library alone on the same files, and the next pair from the cache.</summary>
internal static class CropSpeed
{
    private const double MostRatio = 1.5, MostNextMs = 100;

    public static int Run(string[] args)
    {
        int times = args.Length > 0 ? int.Parse(args[0], CultureInfo.InvariantCulture) : 5;
        // The published program decodes, as it does for whoever waits for a picture.
        WorkerCommand worker = WorkerCommand.Of(Path.Combine(Repository.Root, "build", "leafstop", "leafstop"), "decode-worker");
        bool holds = true;
        foreach (string mosaic in (string[])["2x2", "6x6"])
        {
            BenchAnswer all = Answer(mosaic, worker);
            // One round: one pair that the eye compares, two files; and all levels at once, as the test strip needs them.
            holds &= Round(mosaic, "one pair", all with { Levels = [all.Levels[0]] }, worker, times);
            holds &= Round(mosaic, $"{all.Levels.Length} levels", all, worker, times);
            holds &= Next(mosaic, all, worker, times);
        }

        return holds ? 0 : 1;
    }

    private static bool Round(string mosaic, string name, BenchAnswer answer, WorkerCommand worker, int times)
    {
        string[] files = [.. answer.Levels.SelectMany(l => l.Frames.Take(2))];
        double alone = double.PositiveInfinity, crops = double.PositiveInfinity;
        // The two take turns, so that whatever else the machine does falls on both. Each starts its own processes.
        for (int i = 0; i <= times; i++)
        {
            double a = Timed(() => Unpack(files)), c = Timed(() => Shown(DevelopedCrops.MakeAsync(answer, new CropWish(), worker).GetAwaiter().GetResult()));
            if (i == 0) continue; // fills the file cache
            (alone, crops) = (Math.Min(alone, a), Math.Min(crops, c));
        }

        Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{mosaic}, {name}, {files.Length} files of 24 MP: raw library alone {alone:F2} s, crops shown {crops:F2} s, ratio {crops / alone:F2} (bound {MostRatio})"));
        return crops <= MostRatio * alone;
    }

    /// <summary>The library alone: as many processes at once as crops are cut with, each with its share of the files.</summary>
    private static void Unpack(string[] files)
    {
        // One level is one job and goes to one process.
        int processes = files.Length <= 2 ? 1 : Environment.ProcessorCount;
        Process[] running = [.. Enumerable.Range(0, processes).Select(p => Process.Start(new ProcessStartInfo(Environment.ProcessPath!, ["unpack", .. files.Where((_, i) => i / 2 % processes == p)]))!)];
        foreach (Process process in running)
        {
            process.WaitForExit();
            if (process.ExitCode != 0) throw new InvalidOperationException($"Unpacking ended with {process.ExitCode}.");
            process.Dispose();
        }
    }

    private static bool Next(string mosaic, BenchAnswer answer, WorkerCommand worker, int times)
    {
        string folder = Path.Combine(Path.GetTempPath(), "leafstop-benchmarks", "crop-cache");
        var cache = new CropCache(folder);
        DevelopedCrops.MakeAsync(answer, new CropWish(), worker, cache).GetAwaiter().GetResult();
        DevelopedCrops? loaded = null;
        double load = Clock.Best(times, () => loaded = DevelopedCrops.MakeAsync(answer, new CropWish(), worker, cache).GetAwaiter().GetResult());
        // Two levels side by side, at the scale of a 60 cm print on a screen of 100 pixels an inch, and pixel for pixel.
        double small = Clock.Best(times, () => Pair(loaded!, OnScreen)), large = Clock.Best(times, () => Pair(loaded!, PrintScale.PixelForPixel));
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{mosaic}, from the cache ({cache.Bytes() / 1e6:F1} MB): ladder of {answer.Levels.Length} levels {1000 * load:F0} ms, then a pair as PNG {1000 * small:F0} ms at print scale, {1000 * large:F0} ms pixel for pixel (bound {MostNextMs} ms)"));
        cache.Empty();
        return 1000 * large <= MostNextMs && 1000 * small <= MostNextMs;
    }

    private static readonly PrintScale OnScreen = PrintScale.Of(ViewingCondition.Of(Length.FromCentimetres(60), Length.FromCentimetres(60), Angle.FromArcminutes(1)), 6000, 100 / 2.54);

    private static void Shown(DevelopedCrops crops)
    {
        Parallel.ForEach(crops.Crops, crop => crop.Png(PairMix.FirstAlone, OnScreen));
    }

    private static void Pair(DevelopedCrops crops, PrintScale scale)
    {
        DevelopedCrop[] texture = [.. crops.Crops.Where(c => c.Subject == CropSubject.Texture)];
        texture[0].Png(PairMix.OfFirst(0.7), scale);
        texture[^1].Png(PairMix.FirstAlone, scale);
    }

    private static double Timed(Action work)
    {
        long begun = Stopwatch.GetTimestamp();
        work();
        return Stopwatch.GetElapsedTime(begun).TotalSeconds;
    }

    private static BenchAnswer Answer(string mosaic, WorkerCommand worker)
    {
        string folder = Path.Combine(Path.GetTempPath(), "leafstop-benchmarks", $"crops-{mosaic}");
        if (!Directory.Exists(folder))
        {
            Console.Error.WriteLine($"writing 8 frames to {folder}");
            Directory.CreateDirectory(Path.GetDirectoryName(folder)!);
            BenchSample.Write(new SampleOptions { Mosaic = BenchMosaic.Named(mosaic)!, Width = 6000, Height = 4000, Isos = [100, 400, 1600, 6400], CapFramesPerLevel = 0 }, folder);
        }

        return FolderMeasurement.MeasureAsync(folder, worker, new PrintCondition(600, 600)).GetAwaiter().GetResult();
    }
}
