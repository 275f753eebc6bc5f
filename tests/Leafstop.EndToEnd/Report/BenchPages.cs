using Leafstop.Testing;

namespace Leafstop.EndToEnd.Report;

/// <summary>Reports that the real program wrote of real files, each made once.</summary>
public sealed class BenchPages : IDisposable
{
    private static readonly Dictionary<string, string[][]> Samples = new()
    {
        ["sound"] = [[]],
        ["faulty"] = [["--fault", "lamp-drift 1600 0.4", "--fault", "smoothing 3200 0.2", "--fault", "moved 800 2", "--fault", "arithmetic 640"]],
        ["two ladders"] = [["--isos", "100 200 400 500 640 800 1600 3200 6400 12800 25600"], ["--ladder", "same-light", "--isos", "100 400 1600"]],
        ["one level"] = [["--isos", "12800", "--frames", "1", "--caps", "0"]],
    };

    private readonly RunningProgram _program = new();
    private readonly Dictionary<string, string> _pages = [];

    /// <summary>Names of the benches.</summary>
    public static IEnumerable<string> Names => Samples.Keys.Append("nothing");

    /// <summary>The path of a report.</summary>
    public string Of(string name)
    {
        lock (_pages)
        {
            if (!_pages.TryGetValue(name, out string? page))
                _pages[name] = page = Write(name);
            return page;
        }
    }

    private string Write(string name)
    {
        string bench = Path.Combine(_program.Folder, name), page = bench + ".html";
        Directory.CreateDirectory(bench);
        if (!Samples.TryGetValue(name, out string[][]? parts))
        {
            File.WriteAllBytes(Path.Combine(bench, "A.JPG"), [0xFF, 0xD8, 0xFF, 0xD9]);
            File.WriteAllBytes(Path.Combine(bench, "B.DNG"), []);
            Assert.Equal(3, _program.Run("measure", bench, "--report", page, "--quiet").Code);
            return page;
        }

        foreach ((string[] options, int part) in parts.Select((p, i) => (p, i)))
        {
            string folder = Path.Combine(_program.Folder, $"{name} {part}");
            Ended written = _program.Run(["sample", folder, "--size", "720x480", "--seed", $"{part + 1}", "--quiet", .. options]);
            Assert.True(written.Code == 0, written.Error);
            foreach (string file in Directory.GetFiles(folder))
                File.Move(file, Path.Combine(bench, $"{(char)('A' + part)}{Path.GetFileName(file)}"));
        }

        Ended measured = _program.Run("measure", bench, "--report", page, "--quiet");
        Assert.True(measured.Code == 0, measured.Error);
        return page;
    }

    public void Dispose() => _program.Dispose();
}
