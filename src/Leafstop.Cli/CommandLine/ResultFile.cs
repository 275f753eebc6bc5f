using System.Text;

namespace Leafstop.Cli.CommandLine;

/// <summary>Writes a file in one step: whole or not at all.</summary>
internal static class ResultFile
{
    /// <summary>Says what is wrong with a target before work is put into what shall go there.</summary>
    /// <exception cref="Refusal">It is there already, or its folder is not.</exception>
    public static void CheckPlace(string path, bool mayReplace)
    {
        string full = Path.GetFullPath(path);
        if (Directory.Exists(full) || (File.Exists(full) && !mayReplace))
            throw Refusal.WrongCall($"{path} is there already: choose another name.");
        if (!Directory.Exists(Path.GetDirectoryName(full)))
            throw Refusal.WrongCall($"{path} cannot be written: there is no folder '{Path.GetDirectoryName(path)}'.");
    }

    /// <summary>Writes what the person named the place for; a file that was there is replaced, and that is said.</summary>
    /// <exception cref="Refusal">It cannot be written.</exception>
    public static void Put(string path, byte[] content, bool isQuiet, Surroundings say)
    {
        bool isThere = File.Exists(path);
        Write(path, content, mayReplace: true);
        if (isThere && !isQuiet)
            say.Error.WriteLine($"There was a file {path} already; it is replaced.");
    }

    /// <summary>Writes text as the other form writes bytes.</summary>
    /// <exception cref="Refusal">It cannot be written.</exception>
    public static void Put(string path, string text, bool isQuiet, Surroundings say) => Put(path, Encoding.UTF8.GetBytes(text), isQuiet, say);

    /// <summary>Writes text beside the target and moves it into place.</summary>
    /// <param name="path">Target.</param>
    /// <param name="text">All of it.</param>
    /// <param name="mayReplace">True when a file of that name may be replaced.</param>
    /// <exception cref="Refusal">It cannot be written, or is there already.</exception>
    public static void Write(string path, string text, bool mayReplace) => Write(path, Encoding.UTF8.GetBytes(text), mayReplace);

    /// <summary>Writes beside the target and moves it into place.</summary>
    /// <param name="path">Target.</param>
    /// <param name="content">All of it.</param>
    /// <param name="mayReplace">True when a file of that name may be replaced.</param>
    /// <exception cref="Refusal">It cannot be written, or is there already.</exception>
    public static void Write(string path, byte[] content, bool mayReplace)
    {
        string full = Path.GetFullPath(path);
        CheckPlace(path, mayReplace);
        // A short name of its own: the target's may be as long as names can be.
        string partial = Path.Combine(Path.GetDirectoryName(full)!, $".leafstop-{Guid.NewGuid():N}.partial");
        try
        {
            File.WriteAllBytes(partial, content);
            File.Move(partial, full, mayReplace);
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            // The person named the target, not what lies beside it for a moment.
            throw Refusal.WrongCall($"{path} cannot be written ({error.Message.Replace(partial, full, StringComparison.Ordinal).TrimEnd('.')}): choose another place.");
        }
        finally
        {
            Drop(partial);
        }
    }

    /// <summary>Takes away what a write that failed or was stopped left beside its target; what cannot be taken away changes nothing of the outcome.</summary>
    private static void Drop(string partial)
    {
        try
        {
            File.Delete(partial);
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            // Its folder took no file, or is gone.
        }
    }
}
