using System.Globalization;
using Leafstop.Core.Planning;
using Leafstop.Core.Quantities;
using Leafstop.Core.Viewing;

namespace Leafstop.Look.Plan;

/// <summary>The sentences around a plan that command line and page share; the answer itself is put into words by <see cref="PlanSentences"/>.</summary>
public static class PlanWords
{
    /// <summary>Heading of the give-up table.</summary>
    public const string GiveUpHeading = "What to give up, cheapest first";

    /// <summary>Heading of the two-frame recipe.</summary>
    public const string TwoFramesHeading = "One frame for the water, one for the leaves";

    /// <summary>"ISO 178 (dial 200)"; base ISO where there is light over.</summary>
    public static string Exactly(GiveUpRow row)
    {
        ArgumentNullException.ThrowIfNull(row);
        if (row.Answer.Gap.Value < -Stops.Hair)
            return $"base ISO with {PlanSentences.StopsWords(-row.Answer.Gap)} of light over";
        Iso exact = row.Answer.Iso;
        string shown = Math.Round(exact.Speed).ToString("0", CultureInfo.InvariantCulture);
        return row.Iso.Dial.ToDisplay() == shown ? $"ISO {shown}" : $"ISO {shown} (dial {row.Iso.Dial.ToDisplay()})";
    }

    /// <summary>"+1 stop", "no stops".</summary>
    public static string Gained(GiveUpRow row) => row.Gained.Value > Stops.Hair ? $"+{PlanSentences.StopsWords(row.Gained)}" : "no stops";

    /// <summary>"This alone reaches clean."; empty where it does not.</summary>
    public static string Alone(GiveUpRow row) => row.Reaches is { } reached ? $"This alone reaches {(reached == PlanVerdict.Clean ? "clean" : "stretch")}." : "";

    /// <summary>When the picture is inside clean, the one thing worth knowing of the table: what the polariser costs. Null where there is none, or where it is not inside.</summary>
    public static Statement? Polariser(ExposurePlan plan) => plan.Answer.Verdict == PlanVerdict.Clean && plan.Row(GiveUpKind.Polariser) is { } row
        ? new Statement($"Without the polariser: {Exactly(row)}. It costs {PlanSentences.StopsWords(row.Gained)} and you are still inside clean: keep it.", row.How)
        : null;

    /// <summary>What the criterion says of the shadows; null where it is not known.</summary>
    public static Statement? Shadows(NoiseLimits? shadows) => shadows?.Clean is { } dark
        ? new Statement($"Shadows show it first: three stops below mid-grey clean ends at ISO {dark.DialAtOrBelow().ToDisplay()}.", HowKnown.WorkedOut)
        : null;

    /// <summary>True where the recipe is worth its room: where a lull lets one frame do both, the caution has said so.</summary>
    public static bool HasRecipe(ExposurePlan plan) => plan.TwoFrames is { } two && (two.NeedsTwo || two.IsFeasible == false);

    /// <summary>What stays the same in both frames, and how far their noise lies apart.</summary>
    public static Statement TwoFrames(TwoFrameRecipe two) =>
        new($"Same aperture, focus, white balance and polariser; tripod untouched. Across the mask the leaves have {PlanSentences.StopsWords(two.NoiseMismatch)} less light.", HowKnown.WorkedOut);

    /// <summary>Before the other ways.</summary>
    public static string InsteadOf(TwoFrameRecipe two) => two.IsFeasible == false ? "One of them is past stretch. Instead:" : "Or:";

    /// <summary>"Leaves in a lull: 1/15 s f/11 ISO 2000, 1 over clean. In the wind as it is …".</summary>
    public static string Frame(RecipeFrame frame, ExposurePlan plan) =>
        $"{char.ToUpperInvariant(frame.For[0])}{frame.For[1..]}: {frame.ToDisplay()}, {PlanSentences.Place(frame.Answer, plan.Limits)}.";

    /// <summary>A lull is no promise: how far the leaves go at that shutter in the wind that was named; empty for a frame without leaves.</summary>
    public static string Smear(RecipeFrame frame, Scene scene) => frame.For.StartsWith("leaves", StringComparison.Ordinal)
        && scene is { Leaves: { } leaves, PrintAsked: { } print }
        ? string.Create(CultureInfo.InvariantCulture, $" In the wind as it is leaves smear {leaves.Smear(frame.Shutter, print, scene.WidthKept).OnPrint.Millimetres:0.00} mm there: it wants a lull deep enough.")
        : "";
}
