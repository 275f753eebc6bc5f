using System.Text;

namespace Leafstop.Pocket.Screens;

/// <summary>All other doors.</summary>
internal static class MoreScreen
{
    public static string Of(PocketPage page)
    {
        PocketState s = page.State;
        string print = page.Print is { } p ? $"{Dials.Distance(p.WidthMm)} at {Dials.Distance(p.ViewingDistanceMm)}" : "not named";
        string foam = s.Foam switch { null => "not said", 2.7 => "in shade", _ => "in sun" };
        string camera = page.Camera is { } c ? c.Name.Length > 0 ? c.Name : "limits you gave" : "none";
        (string Act, string Words, string Note)[] doors =
        [
            ("polariser", "Polariser", s.Polariser ? "on when metered" : "off"),
            ("foam", "Foam", foam),
            ("go:depth", "Depth", s.DepthOn ? $"{Dials.Distance(s.Near)} to {Dials.Distance(s.Far)}" : "not counted"),
            ("go:keep", "Keep or no", s.Trial.Length == 0 ? "no trial yet" : $"{page.Trial.Kept} of {page.Trial.Frames}"),
            ("go:pair", "Two frames", "water and leaves"),
            ("go:zoom", "Screen zoom", "that is the print"),
            ("go:leaving", "Before leaving", s.Ticks.Count == 0 ? "five ticks" : $"{s.Ticks.Count} of 5 held"),
            ("go:place", "Place", s.Place.Length > 0 ? s.Place : "not named"),
            ("go:print", "Print", print),
            ("go:camera", "Camera", camera),
            ("go:look", "Hand and eye", $"{(s.LeftHand ? "left" : "right")} hand, {(s.Sun ? "day" : "night")}"),
            ("go:card", "From a card", "camera and limits"),
        ];
        StringBuilder set = new("<div class=\"grid two\">");
        foreach ((string act, string words, string note) in doors)
            set.Append(Html.Button(act, "door", $"<b>{words}</b>{Html.Text(note)}", pressed: act == "polariser" ? s.Polariser : null));
        set.Append("</div>");
        string frames = s.Frames > 1 ? $"<p class=\"line\">The mean of {s.Frames} frames is counted.</p>" : "";
        return Parts.Inner("", "More", frames, set.ToString(), ("go:gap", "Back"), ("theme", s.Sun ? "Night" : "Day"));
    }
}
