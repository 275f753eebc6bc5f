namespace Leafstop.Raw.Tests.Decoding;

/// <summary>A folder for the files of one test, removed afterwards.</summary>
internal sealed class ScratchFolder : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("leafstop-decoding-");

    public string Root => _folder.FullName;

    public string Write(string name, byte[] bytes)
    {
        string path = Path.Combine(Root, name);
        File.WriteAllBytes(path, bytes);
        return path;
    }

    public void Dispose() => _folder.Delete(recursive: true);
}
