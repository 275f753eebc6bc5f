namespace Leafstop.Testing;

/// <summary>The working copy that the tests run in.</summary>
public static class Repository
{
    /// <summary>The folder of Leafstop.slnx, found upwards from the test program.</summary>
    /// <exception cref="DirectoryNotFoundException">The tests run outside a working copy.</exception>
    public static string Root
    {
        get
        {
            for (DirectoryInfo? folder = new(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
            {
                if (File.Exists(Path.Combine(folder.FullName, "Leafstop.slnx")))
                    return folder.FullName;
            }
            throw new DirectoryNotFoundException("The tests run outside a working copy: no Leafstop.slnx above " + AppContext.BaseDirectory);
        }
    }
}
