using System.Diagnostics;
using System.Globalization;
using Leafstop.Raw.Decoding;
using Leafstop.Raw.Synthetic;
using Leafstop.Testing;

namespace Leafstop.Benchmarks;

/// <summary>Whole ladders: the published program beside the raw library alone, with the memory of every process.</summary>
internal static class Ladder
{
    private static readonly double[] Isos = [100, 200, 400, 500, 640, 800, 1000, 1250, 1600, 2000, 2500, 3200, 4000, 5000, 6400, 8000, 10000, 12800];

    private sealed record Ran(double Seconds, double PeakMegabytes);

    public static int Run(string[] args)
    {
        int times = args.Length > 0 ? int.Parse(args[0], CultureInfo.InvariantCulture) : 5;
        bool holds = true;
        var byFiles = new List<(double Size, double Seconds)>();
        var byPixels = new List<(double Size, double Seconds)>();
        foreach (var (frames, width, height) in ((int, int, int)[])[(18, 6000, 4000), (6, 6000, 4000), (36, 6000, 4000), (18, 3000, 2000), (18, 8484, 5656)])
        {
            string folder = Written(frames, width, height);
            string[] files = [.. Directory.EnumerateFiles(folder, "*.DNG").Order(StringComparer.Ordinal)];
            Ran? alone = null, whole = null;
            // The two take turns, so that whatever else the machine does falls on both.
            for (int i = 0; i <= times; i++)
            {
                Ran a = RunAll(Unpackers(files)), w = RunAll([Measure(folder)]);
                if (i == 0) continue; // fills the file cache
                alone = a.Seconds < (alone?.Seconds ?? double.PositiveInfinity) ? a : alone;
                whole = new Ran(Math.Min(w.Seconds, whole?.Seconds ?? double.PositiveInfinity), Math.Max(w.PeakMegabytes, whole?.PeakMegabytes ?? 0));
            }

            double bound = 1.2 * alone!.Seconds + 0.5;
            bool small = whole!.PeakMegabytes <= 400 || width > 6000;
            if ((frames, width) == (18, 6000)) holds &= whole.Seconds <= bound;
            holds &= small;
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
                $"{frames,2} frames of {width} x {height}: library alone {alone.Seconds:F2} s, measure {whole.Seconds:F2} s (bound {bound:F2} s, {whole.Seconds / bound:F2} of it), largest process {whole.PeakMegabytes:F0} MB"));
            if (width == 6000) byFiles.Add((frames, whole.Seconds));
            if (frames == 18) byPixels.Add((width * (double)height, whole.Seconds));
        }

        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"time grows as files^{Exponent(byFiles):F2} and pixels^{Exponent(byPixels):F2}"));
        return holds ? 0 : 1;
    }

    /// <summary>The child of this benchmark: opens, unpacks and closes files, and nothing else.</summary>
    public static int Unpack(string[] files)
    {
        foreach (string file in files)
        {
            using var frame = RawFile.Open(file);
        }

        return 0;
    }

    private static string Written(int frames, int width, int height)
    {
        string folder = Path.Combine(Path.GetTempPath(), "leafstop-benchmarks", $"{frames}-frames-{width}x{height}");
        if (Directory.Exists(folder)) return folder;
        Console.Error.WriteLine($"writing {frames} frames to {folder}");
        int levels = frames / 2;
        // Levels spread over the whole ladder, whatever their number.
        double[] isos = [.. Enumerable.Range(0, levels).Select(i => Isos[i * (Isos.Length - 1) / Math.Max(1, levels - 1)])];
        Directory.CreateDirectory(Path.GetDirectoryName(folder)!);
        BenchSample.Write(new SampleOptions { Width = width, Height = height, Isos = [.. isos], CapFramesPerLevel = 0 }, folder);
        return folder;
    }

    private static ProcessStartInfo[] Unpackers(string[] files) =>
    [
        .. Enumerable.Range(0, Environment.ProcessorCount)
            .Select(worker => new ProcessStartInfo(Environment.ProcessPath!, ["unpack", .. files.Where((_, i) => i % Environment.ProcessorCount == worker)])),
    ];

    private static ProcessStartInfo Measure(string folder) =>
        new(Path.Combine(Repository.Root, "leafstop"), ["measure", folder, "--quiet", "--json"]) { RedirectStandardOutput = true, RedirectStandardError = true };

    /// <summary>Runs processes at the same time until all have ended; the memory is the largest that the system noted for any of them or their children.</summary>
    private static Ran RunAll(ProcessStartInfo[] starts)
    {
        long begun = Stopwatch.GetTimestamp();
        Process[] processes = [.. starts.Select(s => Process.Start(s)!)];
        Task[] drained = [.. processes.Where(p => p.StartInfo.RedirectStandardOutput).SelectMany(p => (Task[])[p.StandardOutput.ReadToEndAsync(), p.StandardError.ReadToEndAsync()])];
        using var over = new CancellationTokenSource();
        Task<double> peak = Task.Run(() => WatchMemory(processes, over.Token));
        foreach (Process process in processes) process.WaitForExit();
        double seconds = Stopwatch.GetElapsedTime(begun).TotalSeconds;
        over.Cancel();
        double megabytes = peak.GetAwaiter().GetResult(); // looks at the processes until it is told to end
        Task.WaitAll(drained);
        foreach (Process process in processes)
        {
            if (process.ExitCode != 0) throw new InvalidOperationException($"{process.StartInfo.FileName} ended with {process.ExitCode}.");
            process.Dispose();
        }

        return new Ran(seconds, megabytes);
    }

    private static double WatchMemory(Process[] roots, CancellationToken over)
    {
        double peak = 0;
        while (!over.IsCancellationRequested)
        {
            foreach (Process root in roots) peak = Math.Max(peak, LargestOfTree(root.Id));
            over.WaitHandle.WaitOne(20);
        }

        return peak;
    }

    /// <summary>The high-water mark of resident memory of a process and all below it, MB.</summary>
    private static double LargestOfTree(int process)
    {
        double largest = 0;
        try
        {
            string? mark = File.ReadLines($"/proc/{process}/status").FirstOrDefault(l => l.StartsWith("VmHWM:", StringComparison.Ordinal));
            if (mark is not null) largest = double.Parse(mark.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)[1], CultureInfo.InvariantCulture) * 1024 / 1e6;
            foreach (string thread in Directory.EnumerateDirectories($"/proc/{process}/task"))
                foreach (string child in File.ReadAllText(Path.Combine(thread, "children")).Split(' ', StringSplitOptions.RemoveEmptyEntries))
                    largest = Math.Max(largest, LargestOfTree(int.Parse(child, CultureInfo.InvariantCulture)));
        }
        catch (IOException)
        {
            // It ended while we looked.
        }

        return largest;
    }

    /// <summary>Slope of log time on log size, least squares.</summary>
    private static double Exponent(List<(double Size, double Seconds)> points)
    {
        double x = points.Average(p => Math.Log(p.Size)), y = points.Average(p => Math.Log(p.Seconds));
        return points.Sum(p => (Math.Log(p.Size) - x) * (Math.Log(p.Seconds) - y)) / points.Sum(p => Math.Pow(Math.Log(p.Size) - x, 2));
    }
}
