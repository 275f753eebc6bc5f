using Leafstop.Core.Sensor;
using Leafstop.Raw.Decoding;
using Leafstop.Raw.Measurement;
using Leafstop.Raw.Synthetic;
using Leafstop.Testing;

namespace Leafstop.Raw.Tests.Developed;

/// <summary>Two measured ladders of known truth, 2×2 and 6×6, made once.</summary>
public sealed class DevelopedLadder : IAsyncLifetime
{
    public const int Width = 1200, Height = 800;

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("leafstop-developed-");
    private readonly Dictionary<string, BenchAnswer> _answers = [];

    public static WorkerCommand Worker => new(Path.Combine(AppContext.BaseDirectory, "Leafstop.Testing.Worker"), []);

    /// <summary>A worker that can not be started: whoever needs none does not notice.</summary>
    public static WorkerCommand NoWorker => new(Path.Combine(AppContext.BaseDirectory, "there is no such program"), []);

    public string Folder => _folder.FullName;

    public BenchAnswer Answer(string mosaic) => _answers[mosaic];

    public static SampleOptions Options(string mosaic) => new()
    {
        Mosaic = BenchMosaic.Named(mosaic)!,
        Width = Width,
        Height = Height,
        Isos = [100, 200, 1600],
        CapFramesPerLevel = 1,
        Lossless = false,
    };

    public async ValueTask InitializeAsync()
    {
        foreach (string mosaic in (string[])["2x2", "6x6"])
        {
            string ladder = Path.Combine(Folder, mosaic);
            BenchSample.Write(Options(mosaic), ladder);
            _answers[mosaic] = await FolderMeasurement.MeasureAsync(ladder, Worker, SyntheticMeasurement.Print);
        }
    }

    public ValueTask DisposeAsync()
    {
        _folder.Delete(recursive: true);
        return ValueTask.CompletedTask;
    }
}
