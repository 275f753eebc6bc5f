using System.Text;
using Leafstop.Core.Planning;
using Leafstop.Core.Quantities;

namespace Leafstop.Pocket.Screens;

/// <summary>Two frames: the water's shutter is the one on the first screen, the leaves' is set here. Aperture, focus, white balance and polariser stay.</summary>
internal static class PairScreen
{
    public static string Of(PocketPage page)
    {
        string set = $"<div class=\"steps roomy\">{Parts.Steps(page, Dials.Shutter with { Label = "water" }, Dials.SecondShutter)}</div>";
        (string, string)[] doors = [("go:gap", "Back"), ("go:water", "Water"), ("go:leaves", "Leaves"), ("go:light", "Light")];
        ShutterTime leaves = ShutterTime.FromSeconds(page.State.SecondShutter);
        if (leaves.Seconds >= page.State.Shutter * (1 - Stops.Hair))
            return Parts.Inner("Two frames", "One frame does both.", "<p class=\"line\">The leaves' shutter is not shorter than the water's.</p>", set, doors);
        if (page.Plan is null)
            return Parts.Inner("Two frames", Html.Text(page.Refusal), "", set, doors);
        var two = TwoFrameRecipe.Of(page.Scene(), page.Shutter, leaves);
        StringBuilder told = new(Parts.Table(["frame", "shutter", "ISO", "limits"], [Row("Water", two.Water), Row("Leaves", two.Leaves)]));
        if (two.Instead.Length > 0)
            told.Append(Parts.Table(["instead", "shutter", "ISO", "limits"], two.Instead.Select(f => Row(Short(f, page), f))));
        told.Append($"<p class=\"sure\">Noise jumps by {Html.Size(two.NoiseMismatch)} across the mask. Aperture, focus, white balance and polariser stay; both within a minute. Not where leaves hang over the water.</p>");
        string verdict = !two.NeedsTwo ? $"{Html.Size(two.Apart)} apart: one frame in a lull may do."
            : two.IsFeasible switch { true => $"Two frames, {Html.Size(two.Apart)} apart.", false => $"{Html.Size(two.Apart)} apart, and one is past stretch.", null => $"Two frames, {Html.Size(two.Apart)} apart." };
        return Parts.Inner($"Two frames at {page.Aperture.ToDisplay()}", verdict, told.ToString(), set, doors);
    }

    /// <summary>What a frame is instead, in a few words.</summary>
    private static string Short(RecipeFrame frame, PocketPage page) =>
        frame.Answer.Gap.Value < Stops.Hair ? "Land, dead calm"
        : frame.Aperture.Ratio < page.Aperture.Ratio * (1 - Stops.Hair) ? $"Lull, both {frame.Aperture.ToDisplay()}"
        : "Leaves in a lull";

    private static string[] Row(string what, RecipeFrame frame) =>
        [Html.Text(what), frame.Shutter.ToDisplay(), Html.Iso(frame.Iso.Dial), frame.Answer.Verdict switch { PlanVerdict.Clean => "clean", PlanVerdict.Stretch => "stretch", PlanVerdict.Beyond => "past stretch", _ => "cannot say" }];
}
