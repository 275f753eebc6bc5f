using System.Runtime.InteropServices.JavaScript;
using System.Runtime.Versioning;

namespace Leafstop.Browser;

/// <summary>The part of wwwroot/page.js that is needed before anything is shown: called directly, because the first call that goes by way of JSON takes a tenth of a second.</summary>
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
}
