namespace Leafstop.Storage;

/// <summary>The file that everything kept lives in cannot be used. Nothing was changed in it.</summary>
/// <param name="file">The data file.</param>
/// <param name="why">What is wrong and what to do, in plain sentences.</param>
/// <param name="inner">The error of the database, if one told.</param>
public sealed class UnusableDataFileException(string file, string why, Exception? inner = null)
    : IOException($"{file}: {why}", inner)
{
    /// <summary>The data file.</summary>
    public string DataFile => file;
}
