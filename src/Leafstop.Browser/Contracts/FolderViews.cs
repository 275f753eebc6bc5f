using System.ComponentModel;

namespace Leafstop.Browser.Contracts;

/// <summary>A folder that the page may open, and what lies in it; of the named ones together when no path is given.</summary>
public sealed record FoldersView(
    [property: Description("Full path; null for the list of the folders that were named at the start.")] string? Path,
    [property: Description("The folder above, null when it was not named.")] string? Above,
    [property: Description("Folders in it, in the order of their names, at most 500.")] IReadOnlyList<FolderView> Folders,
    [property: Description("Files in it that are not hidden.")] int Files);

/// <summary>One folder.</summary>
public sealed record FolderView(string Name, string Path);
