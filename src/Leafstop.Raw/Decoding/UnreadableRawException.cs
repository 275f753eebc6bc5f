namespace Leafstop.Raw.Decoding;

/// <summary>A file that gives no frame, and why.</summary>
/// <remarks><see cref="Exception.Message"/> is the reason alone, a sentence or two without the path, so that it can stand beside the file name.</remarks>
public sealed class UnreadableRawException : IOException
{
    /// <summary>Says which file and why.</summary>
    /// <param name="file">Path as it was given.</param>
    /// <param name="why">A sentence that a photographer understands: what is wrong and, where it helps, what to do.</param>
    /// <param name="cause">What lies behind it, when there is more to know.</param>
    public UnreadableRawException(string file, string why, Exception? cause = null)
        : base(why, cause) => File = file;

    /// <summary>Path as it was given.</summary>
    public string File { get; }
}
