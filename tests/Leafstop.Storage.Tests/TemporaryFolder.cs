namespace Leafstop.Storage.Tests;

/// <summary>A folder of its own, removed afterwards.</summary>
internal sealed class TemporaryFolder : IDisposable
{
    public string Path { get; } = Directory.CreateTempSubdirectory("leafstop-").FullName;

    public DataFile File => new(System.IO.Path.Combine(Path, "data"));

    public void Dispose() => Directory.Delete(Path, recursive: true);
}
