using System.Globalization;
using Leafstop.Core.Quantities;
using Leafstop.Core.Viewing;

namespace Leafstop.Pocket.Screens;

/// <summary>The zoom of the camera's screen that looks like the print, and how to tell one blur from another.</summary>
internal static class ZoomScreen
{
    private const string Blur = "All one way everywhere: shake. Leaves only: wind. Near or far only: focus. Even softness: diffraction, or a wet glass. Look near, far, both top corners, the middle last. Blinking foam is the JPEG's, not the raw's.";

    public static string Of(PocketPage page)
    {
        string set = $"<div class=\"steps\">{Parts.Steps(page, Dials.Of("inches"), Dials.Of("eye"), Dials.Of("clicks"))}</div>";
        (string, string)[] doors = [("go:more", "Back"), ("go:print", "Print"), ("go:gap", "Gap")];
        if (page.Print is not { } print)
            return Parts.Inner("Screen zoom", "For which print?", "<p class=\"line\">Name the print under More.</p>", set, doors);
        double zoom = ScreenZoom.EqualTo(
            Length.FromMillimetres(print.WidthMm), Length.FromMillimetres(print.ViewingDistanceMm), page.Format, Length.FromInches(page.State.ScreenInches), Length.FromMillimetres(page.State.ScreenDistance));
        string clicks = page.State.Clicks == 0 ? "Count once at home how many clicks that is on your camera, and set it below."
            : $"On your camera that is {page.State.Clicks} {(page.State.Clicks == 1 ? "click" : "clicks")}, counted by you.";
        return Parts.Inner("Screen zoom", $"{zoom.ToString("0.0", CultureInfo.InvariantCulture)} times is your print.",
            $"<p class=\"line\">{Dials.Distance(print.WidthMm)} seen from {Dials.Distance(print.ViewingDistanceMm)}. {clicks} {GapWords.How("w", "worked out")}</p><p class=\"line\">{Blur}</p>", set, doors);
    }
}
