namespace Leafstop.Raw.Tests.Decoding;

/// <summary>The real raw files that lie beside the repository in shared/samples/raw, described in the README there.</summary>
/// <remarks>LEAFSTOP_SAMPLES names another samples folder. Tests that need a file skip where it is absent.</remarks>
internal static class SampleFiles
{
    public static string Raw(string name)
    {
        string? folder = Environment.GetEnvironmentVariable("LEAFSTOP_SAMPLES") is { Length: > 0 } named ? named : Beside();
        string path = Path.Combine(folder ?? "", "raw", name);
        Assert.SkipUnless(File.Exists(path), $"The sample file {name} is not beside this repository (shared/samples/raw).");
        return path;
    }

    private static string? Beside()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "Leafstop.slnx")))
                return Path.Combine(folder.FullName, "..", "shared", "samples");
        }
        return null;
    }
}
