using System.CommandLine;
using Leafstop.Cli.CommandLine;
using Leafstop.Storage;

namespace Leafstop.Cli.Verbs;

/// <summary>Data folders of verbs that keep something at their end.</summary>
internal static class DataFolders
{
    /// <summary>The data folder, tried now: a place that cannot be written, or a file that cannot be used, is known before the measuring, not after it. Until something is kept, none is left behind.</summary>
    public static string Writable(ParseResult call, Surroundings say)
    {
        string folder = say.DataFolder(call);
        try
        {
            bool isThere = Directory.Exists(folder);
            new DataFile(folder).MakeFolder();
            if (!isThere)
                Directory.Delete(folder);
        }
        catch (UnusableDataFileException unusable)
        {
            throw Refusal.WrongCall(unusable.Message);
        }
        new DataFile(folder).Check();
        return folder;
    }
}
