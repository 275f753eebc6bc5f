using System.Globalization;

namespace Leafstop.Web;

/// <summary>What the host is started with.</summary>
/// <param name="DataFolder">Folder of the data file.</param>
/// <param name="Port">Port on the loopback address; 0 takes a free one.</param>
internal sealed record HostWishes(string DataFolder, int Port)
{
    /// <summary>Reads "DATA-FOLDER [PORT]".</summary>
    /// <exception cref="ArgumentException">They are not that; the message is for the person.</exception>
    public static HostWishes From(string[] args) => args switch
    {
        [{ Length: > 0 } folder] => new(Path.GetFullPath(folder), 0),
        [{ Length: > 0 } folder, var port] when ushort.TryParse(port, NumberStyles.None, CultureInfo.InvariantCulture, out ushort number) => new(Path.GetFullPath(folder), number),
        _ => throw new ArgumentException("Start this with the data folder and, if you like, a port from 0 to 65535.", nameof(args)),
    };
}
