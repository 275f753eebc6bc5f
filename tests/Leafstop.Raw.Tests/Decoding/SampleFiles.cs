using Leafstop.Testing;

namespace Leafstop.Raw.Tests.Decoding;

/// <summary>The real raw files described in samples/raw/README.md; tests that need one skip where it is absent.</summary>
internal static class SampleFiles
{
    /// <summary>Path of a sample; LEAFSTOP_SAMPLES names another samples folder than the one beside the repository.</summary>
    public static string Raw(string name) =>
        Environment.GetEnvironmentVariable("LEAFSTOP_SAMPLES") is { Length: > 0 } folder && File.Exists(Path.Combine(folder, "raw", name))
            ? Path.Combine(folder, "raw", name)
            : Samples.Path($"raw/{name}");
}
