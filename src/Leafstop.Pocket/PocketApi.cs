using System.Runtime.InteropServices.JavaScript;
using System.Runtime.Versioning;

namespace Leafstop.Pocket;

/// <summary>What the script of the page calls. Each answer is one JSON object: the HTML to show, the sentence to speak, the look, and the state to keep.</summary>
[SupportedOSPlatform("browser")]
internal static partial class PocketApi
{
    private static PocketPage? _page;

    /// <summary>Opens the page.</summary>
    /// <param name="data">The data part as it lies in the file (docs/json/pocket.md).</param>
    /// <param name="state">What was kept; may be empty, old or damaged.</param>
    /// <param name="nowMs">Time, milliseconds of 1970 UTC.</param>
    /// <param name="zoneMinutes">Minutes of the local clock ahead of UTC.</param>
    /// <param name="height">Height of the window, px: what fits is shown.</param>
    /// <param name="keeps">False when the browser keeps nothing for this page beyond its tab.</param>
    [JSExport]
    public static string Open(string data, string state, double nowMs, int zoneMinutes, int height, bool keeps)
    {
        _page = new PocketPage(Data.PocketData.Read(data), PocketStateText.Read(state));
        _page.Height = height;
        return _page.Show(new Moment(nowMs, zoneMinutes), keeps);
    }

    /// <summary>Does what a button says; an empty act only shows the page again.</summary>
    [JSExport]
    public static string Press(string act, string value, double nowMs, int zoneMinutes, int height, bool keeps)
    {
        if (_page is null)
            throw new InvalidOperationException("The page is not open.");
        Moment now = new(nowMs, zoneMinutes);
        _page.Height = height;
        _page.Press(act, value, now);
        return _page.Show(now, keeps);
    }
}
