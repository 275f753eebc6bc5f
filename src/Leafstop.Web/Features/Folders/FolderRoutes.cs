using System.ComponentModel;
using Leafstop.Browser.Contracts;
using Leafstop.Web.Safety;

namespace Leafstop.Web.Features.Folders;

/// <summary>What lies in the folders that were named when the host was started, so that one of them can be chosen on the page.</summary>
internal static class FolderRoutes
{
    // More than this nobody reads through, and a folder of many thousands must not fill the answer.
    private const int Most = 500;

    public static void Map(IEndpointRouteBuilder api) => api.MapGet("/folders", List)
        .WithTags("Folders").WithName("listFolders").WithSummary("What lies in a folder that may be opened, or which folders may be.").Produces<FoldersView>().Refuses(400);

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
