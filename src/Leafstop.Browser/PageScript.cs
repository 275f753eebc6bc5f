using System.Runtime.InteropServices.JavaScript;
using System.Runtime.Versioning;

namespace Leafstop.Browser;

/// <summary>The part of wwwroot/page.js that is called directly: what is needed before anything is shown, which should not wait for the first use of a JSON serializer, and what the host is asked.</summary>
[SupportedOSPlatform("browser")]
internal static partial class PageScript
{
    /// <summary>paper, sun or night, as it was chosen before this program ran.</summary>
    [JSImport("globalThis.leafstop.light")]
    internal static partial string Light();

    /// <summary>JSON of what the host sent along for the page that is open; null when it sent nothing.</summary>
    [JSImport("globalThis.leafstop.sentAlong")]
    internal static partial string? SentAlong();

    /// <summary>Tells that this program has drawn the page and takes what is done on it from now on.</summary>
    /// <returns>The address that is open now: a link may have been followed in the meantime.</returns>
    [JSImport("globalThis.leafstop.opened")]
    internal static partial string Opened();

    /// <summary>Asks the host.</summary>
    /// <param name="method">As in HTTP.</param>
    /// <param name="address">From the root of the page.</param>
    /// <param name="json">What is sent; null for nothing.</param>
    /// <returns>Status and media type in one line, then the answer; status 0 when the host is not there.</returns>
    [JSImport("globalThis.leafstop.ask")]
    internal static partial Task<string> Ask(string method, string address, string? json);

    /// <summary>Minutes by which the clock of this machine is ahead of UTC at a moment.</summary>
    /// <param name="unixMilliseconds">The moment.</param>
    [JSImport("globalThis.leafstop.offsetAt")]
    internal static partial double OffsetAt(double unixMilliseconds);
}
