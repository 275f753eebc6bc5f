using System.Runtime.CompilerServices;
using Xunit;

namespace Leafstop.Testing;

/// <summary>Real files that lie beside the repository on some machines; a test that needs them skips with a reason where they are absent.</summary>
public static class Samples
{
    /// <summary>Path of a sample, or a skipped test.</summary>
    public static string Path(string relative, [CallerFilePath] string here = "")
    {
        string root = here;
        while (root is not null && !File.Exists(System.IO.Path.Combine(root, "Leafstop.slnx"))) root = System.IO.Path.GetDirectoryName(root)!;
        string path = System.IO.Path.Combine(root ?? ".", "..", "shared", "samples", relative);
        Assert.SkipUnless(File.Exists(path) || Directory.Exists(path), $"The sample {relative} is not beside this repository.");
        return System.IO.Path.GetFullPath(path);
    }
}
