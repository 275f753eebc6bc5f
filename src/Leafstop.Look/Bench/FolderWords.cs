namespace Leafstop.Look.Bench;

/// <summary>What is said of a folder that cannot be measured.</summary>
public static class FolderWords
{
    /// <summary>It was there and is gone.</summary>
    public static string Gone(string folder) => $"the folder '{folder}' is no longer there. Put it back, or name the folder where it is now.";

    /// <summary>It may not be listed.</summary>
    /// <param name="folder">The folder.</param>
    /// <param name="why">What the system says.</param>
    public static string Shut(string folder, string why) => $"the folder '{folder}' cannot be listed ({why.TrimEnd('.')}). Copy the raw files to a folder that you may read.";
}
