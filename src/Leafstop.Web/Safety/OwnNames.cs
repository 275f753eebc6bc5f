using System.Net;
using System.Net.NetworkInformation;
using System.Net.Sockets;

namespace Leafstop.Web.Safety;

/// <summary>Under which names the host answers: this machine's loopback names, and its addresses in the network when it is opened to that.</summary>
internal sealed class OwnNames(bool isForNetwork)
{
    private readonly HashSet<string> _names = new(["127.0.0.1", "localhost", .. isForNetwork ? InNetwork() : []], StringComparer.OrdinalIgnoreCase);

    /// <summary>True for a name of this host, without port.</summary>
    public bool Has(string name) => _names.Contains(name);

    /// <summary>The address that a person opens, with a slash at its end: in the network the first address of this machine there.</summary>
    public static string Address(WebApplication host)
    {
        Uri listens = new(host.Urls.Single().Replace("[::]", "0.0.0.0", StringComparison.Ordinal));
        string name = listens.Host == "0.0.0.0" ? InNetwork().FirstOrDefault() ?? "127.0.0.1" : listens.Host;
        return $"http://{name}:{listens.Port}/";
    }

    private static IEnumerable<string> InNetwork() => NetworkInterface.GetAllNetworkInterfaces()
        .Where(i => i.OperationalStatus == OperationalStatus.Up && i.NetworkInterfaceType != NetworkInterfaceType.Loopback)
        .SelectMany(i => i.GetIPProperties().UnicastAddresses)
        .Select(a => a.Address)
        .Where(a => a.AddressFamily == AddressFamily.InterNetwork && !IPAddress.IsLoopback(a))
        .Select(a => a.ToString());
}
