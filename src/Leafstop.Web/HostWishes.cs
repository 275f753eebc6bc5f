using System.Globalization;
using Leafstop.Raw.Decoding;

namespace Leafstop.Web;

/// <summary>What the host is started with.</summary>
/// <param name="DataFolder">Folder of the data file.</param>
/// <param name="Port">Port on the loopback address; 0 takes a free one.</param>
internal sealed record HostWishes(string DataFolder, int Port)
{
    /// <summary>The first argument that makes a copy of this program a decoding worker.</summary>
    public const string WorkerWord = "decode-worker";

    /// <summary>Where crops are kept for the next time; may be emptied at will.</summary>
    public string CropFolder { get; init; } = Path.Combine(DataFolder, "crops");

    /// <summary>How to start a decoding process.</summary>
    public WorkerCommand Worker { get; init; } = WorkerCommand.ThisProgram(WorkerWord);

    /// <summary>Reads "DATA-FOLDER [PORT]".</summary>
    /// <exception cref="ArgumentException">They are not that; the message is for the person.</exception>
    public static HostWishes From(string[] args) => args switch
    {
        [{ Length: > 0 } folder] => new(Path.GetFullPath(folder), 0),
        [{ Length: > 0 } folder, var port] when ushort.TryParse(port, NumberStyles.None, CultureInfo.InvariantCulture, out ushort number) => new(Path.GetFullPath(folder), number),
        _ => throw new ArgumentException("Start this with the data folder and, if you like, a port from 0 to 65535.", nameof(args)),
    };
}
