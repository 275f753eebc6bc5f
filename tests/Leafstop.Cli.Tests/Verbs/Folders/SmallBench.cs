using System.Security.Cryptography;
using System.Text.Json;
using Leafstop.Raw.Synthetic;
using Leafstop.Testing;

namespace Leafstop.Cli.Tests.Verbs.Folders;

/// <summary>A small ladder of Body A that is written once: ISO 100, 400 and 800, two frames and two cap frames each. Tests copy it and spoil their copy.</summary>
public sealed class SmallBench : IDisposable
{
    private readonly Lazy<string[]> _clean;

    public SmallBench()
    {
        Files = [.. BenchSample.Write(Options, Path.Combine(Root, "clean"))];
        _clean = new(MeasureClean);
    }

    /// <summary>480 × 320, lossless JPEG.</summary>
    public static SampleOptions Options { get; } = new() { Width = 480, Height = 320, Isos = [100, 400, 800] };

    public string Root { get; } = Directory.CreateTempSubdirectory("leafstop-small-").FullName;

    /// <summary>The twelve files in the order of exposure: two frames a level, then two cap frames a level.</summary>
    public IReadOnlyList<string> Files { get; }

    /// <summary>A copy of the ladder in a new folder.</summary>
    public static string CopyTo(IEnumerable<string> files, string folder)
    {
        Directory.CreateDirectory(folder);
        foreach (string file in files)
            File.Copy(file, Path.Combine(folder, Path.GetFileName(file)));
        return folder;
    }

    /// <summary>SHA-256 of every file, by path.</summary>
    public static SortedDictionary<string, string> Digests(string folder) =>
        new(Directory.EnumerateFiles(folder).ToDictionary(f => f, f => Convert.ToHexString(SHA256.HashData(File.ReadAllBytes(f)))), StringComparer.Ordinal);

    /// <summary>What the clean ladder gives, by level; measured once.</summary>
    public string[] CleanLevels => _clean.Value;

    /// <summary>ISO, whether it is usable, gain and read noise of each level.</summary>
    public static string[] Levels(JsonElement root) =>
        [.. root.GetProperty("levels").EnumerateArray().Select(l => $"{l.GetProperty("iso")} {l.GetProperty("usable")} {l.GetProperty("gainElectronsPerDn")} {l.GetProperty("readNoiseElectrons")}")];

    private string[] MeasureClean()
    {
        using RunningProgram program = new();
        using JsonDocument json = JsonDocument.Parse(program.Run("measure", Path.Combine(Root, "clean"), "--json", "--quiet").Out);
        return Levels(json.RootElement);
    }

    public void Dispose() => Directory.Delete(Root, recursive: true);
}
