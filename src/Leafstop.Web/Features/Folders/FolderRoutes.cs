using System.ComponentModel;
using Leafstop.Browser.Contracts;
using Leafstop.Web.Safety;

namespace Leafstop.Web.Features.Folders;

/// <summary>What lies in the folders that were named when the host was started, so that one of them can be chosen on the page.</summary>
internal static class FolderRoutes
{
    // More than this nobody reads through, and a folder of many thousands must not fill the answer.
    private const int Most = 500;

    // A folder that is dropped on the page tells its name and not its place; deeper than this it is chosen by hand.
    private const int DeepestFound = 4;

    public static void Map(IEndpointRouteBuilder api)
    {
        api.MapGet("/folders", List)
            .WithTags("Folders").WithName("listFolders").WithSummary("What lies in a folder that may be opened, or which folders may be.").Produces<FoldersView>().Refuses(400);
        api.MapGet("/folders/find", Find)
            .WithTags("Folders").WithName("findFolders").WithSummary("Folders of a name among those that may be opened, at most 20, the nearest first.").Produces<FolderView[]>().Refuses(400);
    }

    private static IResult Find([Description("The name alone.")] string? name, NamedFolders named, CancellationToken gone)
    {
        if (string.IsNullOrWhiteSpace(name) || name.Contains('/', StringComparison.Ordinal))
            return PlainProblems.Of(400, "name: this is the name of a folder, without those above it.");
        EnumerationOptions open = new() { IgnoreInaccessible = true, AttributesToSkip = FileAttributes.ReparsePoint };
        List<FolderView> found = [];
        IEnumerable<string> level = named.All;
        for (int depth = 0; depth <= DeepestFound && found.Count < 20 && !gone.IsCancellationRequested; depth++)
        {
            string[] here = [.. level.Take(10_000)];
            found.AddRange(here.Where(f => Path.GetFileName(f).Equals(name, StringComparison.OrdinalIgnoreCase)).Select(f => new FolderView(Path.GetFileName(f), f)));
            level = here.SelectMany(f => Directory.EnumerateDirectories(f, "*", open)).Where(IsShown);
        }

        return Results.Ok(found.DistinctBy(f => f.Path).Take(20).ToArray());
    }

    private static IResult List([Description("Full path; left out for the folders that were named.")] string? path, NamedFolders named)
    {
        if (path is null)
            return Results.Ok(new FoldersView(null, null, [.. named.All.Select(f => new FolderView(f, f))], 0));
        if (named.Find(path) is not { } real)
            return PlainProblems.Of(400, named.Refusal(path));
        try
        {
            FolderView[] within = [.. Directory.EnumerateDirectories(real).Where(IsShown).Order(StringComparer.OrdinalIgnoreCase)
                // A link may lead out of the named folders: what cannot be opened is not offered.
                .Where(f => named.Find(f) is not null).Take(Most).Select(f => new FolderView(Path.GetFileName(f), f))];
            return Results.Ok(new FoldersView(real, named.Find(Path.GetDirectoryName(real)), within, Directory.EnumerateFiles(real).Count(IsShown)));
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            return PlainProblems.Of(400, $"folder: \"{real}\" cannot be read: {fault.Message}");
        }
    }

    private static bool IsShown(string path) => !Path.GetFileName(path).StartsWith('.');
}
