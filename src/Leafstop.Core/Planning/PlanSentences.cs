using System.Globalization;
using Leafstop.Core.Exposure;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Text;
using Leafstop.Core.Viewing;

namespace Leafstop.Core.Planning;

/// <summary>A plan in sentences, the same on every surface: verdict first, number second, how sure third.</summary>
/// <param name="Verdict">The ISO, where it lies and for which print.</param>
/// <param name="Second">The gap and where it comes from.</param>
/// <param name="HowSure">Whose limits they are and what was assumed.</param>
public sealed record PlanSentences(string Verdict, string Second, string HowSure)
{
    /// <summary>Puts a plan into words.</summary>
    public static PlanSentences Of(ExposurePlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        return new PlanSentences(VerdictOf(plan), SecondOf(plan), HowSureOf(plan));
    }

    /// <summary>Where an answer lies, "inside clean, 2/3 stop to spare", without ISO and print.</summary>
    /// <param name="answer">The numbers.</param>
    /// <param name="limits">The limits they are set against; null when none are known.</param>
    public static string Place(GapAnswer answer, NoiseLimits? limits)
    {
        string whose = limits?.Origin is LimitOrigin.Judged or LimitOrigin.Given ? "your" : "the";
        return answer.Verdict switch
        {
            PlanVerdict.Clean when IsNone(answer.SpareToClean!.Value) => $"at {whose} clean limit, 0 to spare",
            PlanVerdict.Clean => $"inside clean, {StopsWords(answer.SpareToClean!.Value)} to spare",
            PlanVerdict.Stretch => $"{Over(answer.SpareToClean!.Value)} over clean, {Under(answer.SpareToStretch!.Value)} stretch",
            PlanVerdict.Beyond => $"{Over(answer.SpareToStretch!.Value)} over stretch",
            _ when answer.SpareToClean is { } over => $"{Over(over)} over clean; where stretch lies I cannot say",
            _ => "whether it is clean I cannot say",
        };
    }

    /// <summary>"2/3 stop", "2 1/3 stops"; thirds, and halves where it is one, as a polariser is counted.</summary>
    public static string StopsWords(Stops stops) => $"{StopsNumber(stops)} {(Math.Abs(stops.NearestThird().Value) > 1 + Stops.Hair ? "stops" : "stop")}";

    /// <summary>The same without the word: "2/3", "2 1/3".</summary>
    public static string StopsNumber(Stops stops)
    {
        double size = Math.Abs(stops.Value), half = Math.Floor(size) + 0.5;
        return Math.Abs(size - half) < NearHalf
            ? $"{(stops.Value < 0 ? "\u2212" : "")}{(size > 1 ? $"{Math.Floor(size):0} " : "")}1/2"
            : stops.ToDisplay();
    }

    /// <summary>Closer to a half than this, a half is what is meant: a sixth of a stop lies between a half and the nearest third.</summary>
    private const double NearHalf = 0.02;

    /// <summary>"60 cm wide seen from 60 cm".</summary>
    public static string PrintWords(PrintCondition print) =>
        $"{Length.FromMillimetres(print.WidthMm).ToDisplay()} wide seen from {Length.FromMillimetres(print.ViewingDistanceMm).ToDisplay()}";

    /// <summary>The limits with their tags and how they are known.</summary>
    public static string LimitWords(NoiseLimits limits)
    {
        string pair = $"Clean {Number(limits.Clean, limits.CleanDial)}, stretch {Number(limits.Stretch, limits.StretchDial)}";
        string origin = limits.Origin switch
        {
            LimitOrigin.Judged when !limits.Shifts.IsEmpty => $"worked out from your own judging of another {Moved(limits)}",
            LimitOrigin.Judged => "by your own judging",
            LimitOrigin.Given when !limits.Shifts.IsEmpty => $"worked out from those you gave for another {Moved(limits)}",
            LimitOrigin.Given => "as you gave them",
            LimitOrigin.Invented => "invented demo data",
            _ => "worked out from the measured sensor by the published criterion, not judged by you",
        };
        string tags = string.Join(", ", new[]
        {
            limits.Tags.Body,
            $"print {PrintWords(limits.Tags.Print)}",
            limits.Tags.Tone switch
            {
                ToneKind.MidGrey => "at mid-grey",
                ToneKind.Shadows => "in the shadows",
                ToneKind.Smooth => "smooth tones",
                ToneKind.Textured => "textured tones",
                _ => "tone not stated",
            },
            limits.Tags.Treatment switch
            {
                NoiseTreatment.None => "no noise reduction",
                NoiseTreatment.Usual => "your usual noise reduction",
                _ => "noise reduction not stated",
            },
            limits.Tags.Lift is { Value: > 0 } lift ? $"the dark lifted by {StopsWords(lift)}" : "",
        }.Where(t => t.Length > 0));
        string known = limits.Origin == LimitOrigin.WorkedOut ? " (worked out; stretch: rule of thumb)"
            : limits.Shifts.Any(s => s.How == HowKnown.RuleOfThumb) ? " (rule of thumb)"
            : !limits.Shifts.IsEmpty ? " (worked out)"
            : limits.Origin == LimitOrigin.Judged ? " (measured)" : "";
        return $"{pair}, {origin}: {tags}.{known}{EvidenceWords(limits)}";
    }

    private static string Moved(NoiseLimits limits) => Say.List(limits.Shifts.Select(s => s.What).Distinct().Select(what => what.ToString().ToLowerInvariant()));

    /// <summary>" 95 % sure: clean 640 to 1000, stretch 2500 to 4000, by 35 and 41 answers."; empty where nothing was judged.</summary>
    private static string EvidenceWords(NoiseLimits limits)
    {
        if (limits.Evidence is not { } evidence)
            return "";
        (string Name, JudgedAnswers Answers)[] told = [.. new[] { ("clean", evidence.Clean), ("stretch", evidence.Stretch) }.Where(e => e.Item2 is not null).Select(e => (e.Item1, e.Item2!))];
        return $" 95 % sure: {string.Join(", ", told.Select(e => $"{e.Name} {Whole(e.Answers.Low)} to {Whole(e.Answers.High)}"))}, by {Say.List(told.Select(e => e.Answers.Answers.ToString(CultureInfo.InvariantCulture)))} answers.";

        static string Whole(Iso iso) => IsMark(iso, iso.NearestDial()) ? iso.NearestDial().ToDisplay() : Written.Short(Math.Round(iso.Speed));
    }

    private static string VerdictOf(ExposurePlan plan)
    {
        string iso = $"ISO {plan.Iso.Dial.ToDisplay()}";
        string print = plan.Print is { } p ? $", for a print {PrintWords(p)}" : "";
        if (plan.Answer.Gap.Value < -Stops.Hair)
            return $"Base ISO {plan.Scene.BaseIso.ToDisplay()} is enough, with {StopsWords(-plan.Answer.Gap)} of light to spare{print}.";
        if (plan.Iso.IsBeyondDial)
            return $"No dial goes as high as this needs: {StopsWords(plan.Answer.Gap)} under at base ISO {plan.Scene.BaseIso.ToDisplay()}{print}.";
        return plan.Answer.Verdict == PlanVerdict.Unknown && plan.Answer.SpareToClean is null
            ? $"{iso} closes the gap; whether it is clean {(plan.Print is null ? "for a print you have not named" : $"for a print {PrintWords(plan.Print)}")} I cannot say."
            : $"{iso}: {Place(plan.Answer, plan.Limits)}{print}.";
    }

    private static string SecondOf(ExposurePlan plan)
    {
        Scene scene = plan.Scene;
        double gap = plan.Answer.Gap.Value;
        string sentence = Math.Abs(gap) < Stops.Hair
            ? $"{scene.Aperture.ToDisplay()} at {scene.Shutter.ToDisplay()} fits the light at base ISO {scene.BaseIso.ToDisplay()}: there is no gap."
            : $"The gap is {StopsWords(plan.Answer.Gap)} at {scene.Aperture.ToDisplay()} and {scene.Shutter.ToDisplay()}, from base ISO {scene.BaseIso.ToDisplay()}: ISO {Written.Short(plan.Answer.Iso.Speed)} exactly{Rounded(plan.Iso)}.";
        if (!scene.FiltersOn.IsEmpty)
        {
            sentence += scene.LightUncertainty is null
                ? $" {Names(scene.FiltersOn, "was", "were")} on when you metered: counted already, not twice."
                : $" {Names(scene.FiltersOn, "is", "are")} taken off this light once: {StopsWords(scene.FiltersOn.Total)}.";
        }
        if (!scene.FiltersAfter.IsEmpty)
            sentence += $" {Names(scene.FiltersAfter, "was", "were")} fitted afterwards: {StopsWords(scene.FiltersAfter.Total)} less light, counted now.";
        if (Math.Abs(GapAnswer.StopsUsed(scene).Value) > Stops.Hair)
            sentence += $" {Used(scene)} {(plan.Answer.Effective > plan.Answer.Iso ? "use" : "give")}{(UsesOfOne(scene) ? "s" : "")} {StopsWords(Stops.Of(Math.Abs(GapAnswer.StopsUsed(scene).Value)))}: the print shows the noise of ISO {Written.Short(Math.Round(plan.Answer.Effective.Speed))}.";
        // A lift that costs less than itself, or nothing, says why.
        if (LiftUsed(scene) < scene.Lift)
            sentence += $" {LimitScaling.Lift(scene.Lift, scene.Limits?.Tags.Lift).Reason}";
        return sentence + " (worked out)";
    }

    private static string HowSureOf(ExposurePlan plan)
    {
        List<string> sure = [];
        if (plan.Scene.LightUncertainty is { } uncertain)
            sure.Add($"The light is not metered: it may be off by {StopsWords(uncertain)} either way, and the ISO with it. Your meter in the field wins.");
        if (plan.Limits is { } limits)
            sure.Add(LimitWords(limits));
        else if (plan.LimitRefusal is { } refusal)
            sure.Add(refusal);
        // Where the table is shown, the row of the lull says it.
        if (plan.Scene.Trial is { } trial && (plan.Answer.Verdict == PlanVerdict.Clean || plan.Row(GiveUpKind.WaitForLull) is null))
            sure.Add(trial.ToSentence(Motion.Chance.UsuallySure));
        if (plan.Scene.FiltersOn.Filters.Concat(plan.Scene.FiltersAfter.Filters).Any(f => f is { Kind: FilterKind.Polariser, How: HowKnown.RuleOfThumb }))
            sure.Add("A polariser takes 1 1/2 stops, 1 to 2. (rule of thumb)");
        return string.Join(" ", sure);
    }

    private static string Rounded(DialledIso iso) => Math.Abs(iso.RoundedBy.Value) < 0.005
        ? ""
        : string.Create(CultureInfo.InvariantCulture, $", dial {iso.Dial.ToDisplay()}, {Math.Abs(iso.RoundedBy.Value):0.00} {(Math.Abs(iso.RoundedBy.Value) > 1 ? "stops" : "stop")} {(iso.RoundedBy.Value > 0 ? "over" : "under")}");

    private static bool UsesOfOne(Scene scene) => (LiftUsed(scene).Value > 0 ? 1 : 0) + (scene.WidthKept < 1 ? 1 : 0) + (scene.FramesAveraged > 1 ? 1 : 0) == 1;

    private static Stops LiftUsed(Scene scene) => -LimitScaling.Lift(scene.Lift, scene.Limits?.Tags.Lift).Stops;

    private static string Used(Scene scene)
    {
        string used = Say.List(new[]
        {
            LiftUsed(scene).Value > 0 ? $"a lift of {StopsWords(scene.Lift)}" : "",
            scene.WidthKept < 1 ? string.Create(CultureInfo.InvariantCulture, $"a crop to {scene.WidthKept * 100:0} % of the width") : "",
            scene.FramesAveraged > 1 ? $"the mean of {scene.FramesAveraged} frames" : "",
        }.Where(s => s.Length > 0));
        return char.ToUpperInvariant(used[0]) + used[1..];
    }

    private static string Names(FilterSet filters, string one, string several) =>
        $"The {Say.List(filters.Filters.Select(f => f.Name))} {(filters.Filters.Length > 1 ? several : one)}";

    /// <summary>"1600", or "1893" for a limit between two marks. Which of them the dial stands at is for the verdict to say: the nearest third counts, not the one below.</summary>
    internal static string Number(Iso? exact, Iso? dial) => exact is null ? "unknown"
        : IsMark(exact, dial!) ? dial!.ToDisplay()
        : Written.Short(Math.Round(exact.Speed));

    private static bool IsMark(Iso exact, Iso dial) => Math.Abs(Iso.FromMarking(dial.Speed).Above(exact).Value) < 1e-6;

    private static bool IsNone(Stops stops) => stops.NearestThird().Value == 0;

    private static string Over(Stops spare) => IsNone(spare) ? "a little" : StopsWords(-spare);

    private static string Under(Stops spare) => IsNone(spare) ? "at" : $"{StopsNumber(spare)} under";
}
