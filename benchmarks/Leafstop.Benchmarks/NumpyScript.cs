using System.Diagnostics;
using System.Globalization;
using System.Runtime.InteropServices;
using System.Text.Json;
using Leafstop.Raw.Frames;
using Leafstop.Testing;

namespace Leafstop.Benchmarks;

/// <summary>Hands a pair to benchmarks/numpy/pair_statistics.py and takes its answer.</summary>
internal static class NumpyScript
{
    /// <summary>Runs the script on a pair.</summary>
    /// <exception cref="InvalidOperationException">Python, numpy or scipy is missing, or the script failed; the message holds what it said.</exception>
    public static JsonDocument Run(BenchPair pair, int times, bool withTiles)
    {
        string folder = Directory.CreateTempSubdirectory("leafstop-numpy-").FullName;
        try
        {
            Write(pair.First, Path.Combine(folder, "first.u16"));
            Write(pair.Second, Path.Combine(folder, "second.u16"));
            MosaicFrame frame = pair.First;
            string description = Path.Combine(folder, "pair.json");
            File.WriteAllText(description, JsonSerializer.Serialize(new
            {
                first = "first.u16",
                second = "second.u16",
                stride = frame.Stride,
                left = frame.Left,
                top = frame.Top,
                width = frame.Width,
                height = frame.Height,
                cellRows = frame.Header.Mosaic.Rows,
                cellColumns = frame.Header.Mosaic.Columns,
                planeOfSite = frame.Header.Mosaic.PlaneOfSite(),
                blackDn = pair.BlackDn,
                clipDn = pair.ClipDn,
                floorDn = pair.FloorDn,
            }));
            return Answer([description, "--times", times.ToString(CultureInfo.InvariantCulture), .. withTiles ? (string[])[] : ["--no-tiles"]]);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static JsonDocument Answer(string[] arguments)
    {
        // Debian's own Python has Debian's numpy; another one earlier on the path may not.
        string python = File.Exists("/usr/bin/python3") ? "/usr/bin/python3" : "python3";
        var start = new ProcessStartInfo(python, [Path.Combine(Repository.Root, "benchmarks", "numpy", "pair_statistics.py"), .. arguments])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        using Process process = Process.Start(start)!;
        Task<string> complaints = process.StandardError.ReadToEndAsync();
        string answer = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return process.ExitCode == 0
            ? JsonDocument.Parse(answer)
            : throw new InvalidOperationException($"The numpy script failed; it needs python3-numpy and python3-scipy. It said: {complaints.Result}");
    }

    private static void Write(MosaicFrame frame, string path)
    {
        using FileStream file = File.Create(path);
        file.Write(MemoryMarshal.AsBytes(frame.Samples.Span));
    }
}
