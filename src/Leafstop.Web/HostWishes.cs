using System.Buffers.Text;
using System.Globalization;
using System.Security.Cryptography;
using Leafstop.Raw.Decoding;

namespace Leafstop.Web;

/// <summary>What the host is started with.</summary>
/// <param name="DataFolder">Folder of the data file.</param>
/// <param name="Port">Port; 0 takes a free one.</param>
internal sealed record HostWishes(string DataFolder, int Port)
{
    /// <summary>The first argument that makes a copy of this program a decoding worker.</summary>
    public const string WorkerWord = "decode-worker";

    private const string Usage = "Start this with the data folder and, if you like, a port from 0 to 65535, --folder DIR for each folder that the page may open, --lan and --until-input-ends.";

    /// <summary>Where crops are kept for the next time; may be emptied at will.</summary>
    public string CropFolder { get; init; } = Path.Combine(DataFolder, "crops");

    /// <summary>How to start a decoding process.</summary>
    public WorkerCommand Worker { get; init; } = WorkerCommand.ThisProgram(WorkerWord);

    /// <summary>The folders that the page may open, with all below them. Without any it opens none.</summary>
    public IReadOnlyList<string> Folders { get; init; } = [];

    /// <summary>True to answer other machines of the network too.</summary>
    public bool IsForNetwork { get; init; }

    /// <summary>True to end when standard input does: whoever started the host is gone then.</summary>
    public bool EndsWithInput { get; init; }

    /// <summary>Where the files of the page are; a host without them answers only programs.</summary>
    public string PageFolder { get; init; } = Path.Combine(AppContext.BaseDirectory, "page");

    /// <summary>Opens the host to whoever knows it; drawn anew for each host.</summary>
    public string Key { get; init; } = Base64Url.EncodeToString(RandomNumberGenerator.GetBytes(18));

    /// <summary>Reads "DATA-FOLDER [PORT] [--folder DIR]… [--lan] [--until-input-ends]".</summary>
    /// <exception cref="ArgumentException">They are not that; the message is for the person.</exception>
    public static HostWishes From(string[] args)
    {
        if (args is not [{ Length: > 0 } data, .. var rest] || data.StartsWith("--", StringComparison.Ordinal))
            throw new ArgumentException(Usage, nameof(args));
        ushort port = 0;
        if (rest is [var first, ..] && !first.StartsWith("--", StringComparison.Ordinal))
        {
            if (!ushort.TryParse(first, NumberStyles.None, CultureInfo.InvariantCulture, out port))
                throw new ArgumentException(Usage, nameof(args));
            rest = rest[1..];
        }
        List<string> folders = [];
        bool isForNetwork = false, endsWithInput = false;
        while (rest.Length > 0)
        {
            (isForNetwork, endsWithInput, rest) = rest switch
            {
                ["--lan", .. var left] => (true, endsWithInput, left),
                ["--until-input-ends", .. var left] => (isForNetwork, true, left),
                ["--folder", { Length: > 0 } folder, .. var left] when Added(folder) => (isForNetwork, endsWithInput, left),
                _ => throw new ArgumentException(Usage, nameof(args)),
            };
        }
        return new(Path.GetFullPath(data), port) { Folders = folders, IsForNetwork = isForNetwork, EndsWithInput = endsWithInput };

        bool Added(string folder)
        {
            folders.Add(Path.GetFullPath(folder));
            return true;
        }
    }
}
