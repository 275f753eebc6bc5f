using Leafstop.Core.Exposure;
using Leafstop.Core.Planning;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;

namespace Leafstop.Pocket.Screens;

/// <summary>The answer in the few words that a pocket has room for.</summary>
internal static class GapWords
{
    /// <summary>Foam in shade, stops over mid-grey, when nobody metered it: a rule of thumb (common practice, no source).</summary>
    private static readonly Stops ShadedFoam = Stops.Of(2.7);

    /// <summary>The verdict, HTML.</summary>
    public static string Verdict(PocketPage page)
    {
        if (page.Plan is not { } plan)
            return Html.Text(page.Refusal);
        GapAnswer answer = plan.Answer;
        string whose = plan.Limits?.Origin is LimitOrigin.Judged or LimitOrigin.Given ? "your" : "the";
        if (answer.Gap.Value < -Stops.Hair)
            return $"Too bright at base by {Html.Size(answer.Gap)}.";
        if (plan.Iso.IsBeyondDial)
            return "No dial goes so high.";
        // Above the highest ISO that was measured nothing is known.
        if (page.Limits?.IsCleanOpen is true && answer.SpareToClean is { Value: < -Stops.Hair } beyond)
            return $"Past all that was measured by {Over(beyond)}.";
        if (page.Limits?.IsStretchOpen is true && answer.Verdict == PlanVerdict.Beyond)
            return $"Past clean by {Over(answer.SpareToClean!.Value)}, and past all that was measured.";
        return answer.Verdict switch
        {
            PlanVerdict.Clean when IsNone(answer.SpareToClean) => $"On {whose} clean limit, 0 to spare.",
            PlanVerdict.Clean => $"Inside clean, {Html.Size(answer.SpareToClean!.Value)} to spare.",
            PlanVerdict.Stretch when IsNone(answer.SpareToStretch) => $"Past clean by {Over(answer.SpareToClean!.Value)}. On {whose} stretch limit.",
            PlanVerdict.Stretch => $"Past clean by {Over(answer.SpareToClean!.Value)}. Still {Html.Size(answer.SpareToStretch!.Value)} short of stretch.",
            PlanVerdict.Beyond => $"Past stretch by {Over(answer.SpareToStretch!.Value)}.",
            _ when answer.SpareToClean is { } over => $"Past clean by {Over(over)}. Where stretch lies I cannot say.",
            _ => "I cannot say whether it is clean.",
        };
    }

    /// <summary>The answer as one plain sentence for a screen reader.</summary>
    public static string Spoken(PocketPage page) =>
        (page.State.LeaveAt < page.Now.Milliseconds ? "Leave now. " : "") + (page.Plan is { } plan ? $"ISO {Html.Iso(plan.Iso.Dial)}. {Plain(Verdict(page))}{(page.State.Frames > 1 ? $" The mean of {page.State.Frames} frames is counted." : "")}" : page.Refusal);

    /// <summary>The words of some HTML, such as may stand on lines of their own.</summary>
    public static string[] Words(string html) => Plain(html.Replace('\u00A0', '\u2007')).Split(' ', StringSplitOptions.RemoveEmptyEntries);

    /// <summary>The plain text of some HTML, for a label that is spoken.</summary>
    public static string Plain(string html)
    {
        System.Text.StringBuilder plain = new(html.Length);
        bool isTag = false;
        foreach (char c in html)
        {
            if (c == '<')
                isTag = true;
            else if (c == '>')
                isTag = false;
            else if (!isTag)
                plain.Append(c);
        }
        return System.Net.WebUtility.HtmlDecode(plain.ToString()).Replace('\u00A0', ' ');
    }

    /// <summary>Whose limits, for what print, and how they are known, HTML.</summary>
    public static string Limits(PocketPage page)
    {
        if (page.Plan?.Limits is not { } limits)
            return page.Camera is null ? "No camera and no limits are in this page: set your own under More." : "No limits for this camera: judge it at home, or set your own under More.";
        PrintCondition print = limits.Tags.Print;
        string which = limits.CleanDial is { } clean ? $"Clean {(page.Limits?.IsCleanOpen is true ? "at least to " : "")}{Html.Iso(clean)}" : $"Stretch {Html.Iso(limits.StretchDial!)}";
        string tone = limits.Tags.Tone switch { ToneKind.Smooth => ", smooth tones", ToneKind.Textured => ", textured tones", ToneKind.Shadows => ", shadows", _ => "" };
        return $"{which}, for {Dials.Distance(print.WidthMm)} at {Dials.Distance(print.ViewingDistanceMm)}{tone}{Mean(page)}{Known(limits)}";
    }

    /// <summary>The print that the verdict holds for and how the limits are known, where there is less room, HTML; empty without limits.</summary>
    public static string ForPrint(PocketPage page)
    {
        if (page.Plan?.Limits is not { } limits)
            return "";
        string tone = limits.Tags.Tone switch { ToneKind.Smooth => ", smooth", ToneKind.Textured => ", textured", ToneKind.Shadows => ", shadows", _ => "" };
        return $"{Dials.Distance(limits.Tags.Print.WidthMm)} at {Dials.Distance(limits.Tags.Print.ViewingDistanceMm)}{tone}{Mean(page)}{Known(limits)}";
    }

    private static string Known(NoiseLimits limits) => !limits.Shifts.IsEmpty ? $". {How("w", "worked out")}" : limits.Origin switch
    {
        LimitOrigin.Judged => $". {How("m", "measured")}",
        LimitOrigin.WorkedOut when limits.Clean is null => $". {How("t", "rule of thumb")}",
        LimitOrigin.WorkedOut => $". {How("w", "worked out")}",
        LimitOrigin.Invented => ", invented.",
        _ => ", as you gave it.",
    };

    /// <summary>", mean of 4" where averaging counts: the limits are then met by several frames, not by one.</summary>
    private static string Mean(PocketPage page) => page.State.Frames > 1 ? $", mean of {page.State.Frames}" : "";

    /// <summary>The things to mind here and now, most pressing first: what spoils this frame, then what the limits leave out, last foam that nobody metered, which is a guess.</summary>
    public static IReadOnlyList<Care> Cares(PocketPage page)
    {
        if (page.Plan is not { } plan)
            return [];
        // Too bright as set: that first, and what else there is once it is mended.
        bool isBelowBase = plan.Answer.Gap.Value < -Stops.Hair;
        List<Care> cares = [];
        foreach (Caution caution in plan.Cautions)
        {
            if ((isBelowBase && caution.Code != CautionCode.BelowBase) || CareOf(plan, caution) is not { } care)
                continue;
            int at = cares.Count;
            while (at > 0 && cares[at - 1].Weight > care.Weight)
                at--;
            cares.Insert(at, care);
        }
        return cares;
    }

    private static Care? CareOf(ExposurePlan plan, Caution caution)
    {
        Scene scene = plan.Scene;
        switch (caution.Code)
        {
            case CautionCode.BelowBase:
                string atBase = Html.Text(caution.Text[(caution.Text.IndexOf(": ", StringComparison.Ordinal) + 2)..]).Replace("at ISO", "At ISO", StringComparison.Ordinal);
                return new Care(atBase, atBase);
            case CautionCode.Foam:
                return Foam(plan);
            case CautionCode.LeavesMove when scene.Leaves is { } leaves && plan.Print is { } print && leaves.Smear(scene.Shutter, print, scene.WidthKept) is { Passes: false } smear:
                return new Care($"Leaves smear {Hundredths(smear.OnPrint)} mm on the print; you see {Hundredths(smear.Print.AllowedOnPrint)}.", $"Leaves smear {Hundredths(smear.OnPrint)} mm; you see {Hundredths(smear.Print.AllowedOnPrint)}.");
            case CautionCode.Depth when scene.Depth is { } depth && plan.Print is { } print:
                string blurs = $"{Hundredths(depth.BlurOnPrint(scene.Aperture, print, scene.WidthKept))} mm; you see {Hundredths(depth.AllowedOnPrint(print))}.";
                return new Care($"Near and far blur {blurs}", $"Near and far blur {blurs}");
            case CautionCode.WaterLook when scene.Water is { Wanted: { } wanted }:
                string streak = $"{(scene.Shutter < wanted.Shortest ? "Too short" : "Too long")} for your streak";
                return new Care($"{streak}: {wanted.Middle.NearestMark().ToDisplay()} draws it.", $"{streak}: use {wanted.Middle.NearestMark().ToDisplay()}.");
            case CautionCode.Averaging:
                return new Care("A mean softens water: take that from one frame.", "Take the water from one frame.");
            case CautionCode.LongExposure:
                return new Care("Past 10 s limits are another thing: test them.", "Past 10 s limits differ: test them.", CareWeight.Caveat);
            case CautionCode.LimitsConverted:
                return new Care("Stripes do not scale with the print: check those.", "Stripes do not scale: check those.", CareWeight.Caveat);
            default:
                return null;
        }
    }

    /// <summary>That the polariser is in the reading, where there is no room for what it costs.</summary>
    public const string PolariserCounted = "Polariser counted.";

    /// <summary>What the polariser costs, HTML; empty when none is on.</summary>
    public static string Polariser(PocketPage page)
    {
        if (page.Plan?.Row(GiveUpKind.Polariser) is not { } row)
            return "";
        string exact = Html.Exact(row.Answer.Iso.Speed);
        return row.Answer.Gap.Value < -Stops.Hair
            ? $"{PolariserCounted} Without it base is enough."
            : $"{PolariserCounted} Without it ISO <data value=\"{exact}\">{TwoFigures(row.Answer.Iso.Speed)}</data>, dial {Html.Iso(row.Iso.Dial)}.";
    }

    /// <summary>How something is known: the line under the word says it, and the word.</summary>
    public static string How(string kind, string word) => $"<span class=\"k k-{kind}\">{word}</span>";

    private static Care Foam(ExposurePlan plan)
    {
        HighlightRoom room = plan.Foam ?? HighlightRoom.Of(ShadedFoam, plan.Answer.Iso, plan.Answer.Iso, plan.Scene.ClipOverMidGrey);
        (string foam, CareWeight weight) = plan.Foam is null ? ("Shaded foam", CareWeight.Guess) : ("Foam", CareWeight.Trouble);
        return room.IsClipped
            ? new Care(
                $"{foam} is clipped by {Html.Size(-room.Left)}: ISO {Html.Iso(room.HighestIso)} keeps it, or bracket −{room.BracketStops}.",
                $"{foam} clipped by {Html.Size(-room.Left)}: bracket −{room.BracketStops}.", weight)
            : new Care($"{foam} has about {Quarter(room.Left)} stop left. Check the highlights.", $"{foam} has {Quarter(room.Left)} stop left: check it.", weight);
    }

    // A third would say more than such a guess holds.
    private static string Quarter(Stops left) => Math.Abs(left.Value - 0.25) < 0.06 ? "<span class=\"fr\">1/4</span>" : Html.Size(left);

    private static string TwoFigures(double iso)
    {
        double step = Math.Pow(10, Math.Floor(Math.Log10(iso)) - 1);
        return Html.Iso(Iso.FromSpeed(Math.Round(iso / step) * step));
    }

    private static bool IsNone(Stops? stops) => stops is { } s && s.NearestThird().Value == 0;

    private static string Over(Stops spare) => IsNone(spare) ? "a little" : Html.Size(spare);

    private static string Hundredths(Length length) => length.Millimetres.ToString("0.00", System.Globalization.CultureInfo.InvariantCulture);
}

/// <summary>One thing to mind, HTML.</summary>
/// <param name="Words">In a sentence or two.</param>
/// <param name="OneLine">In forty letters or so, for a line across the telephone.</param>
/// <param name="Weight">What goes first.</param>
internal sealed record Care(string Words, string OneLine, CareWeight Weight = CareWeight.Trouble);

/// <summary>What a care rests on, the most pressing first.</summary>
internal enum CareWeight
{
    /// <summary>It spoils this frame, as it was measured or asked for.</summary>
    Trouble,

    /// <summary>The limits leave it out.</summary>
    Caveat,

    /// <summary>Nobody said or metered anything: a usual place of foam.</summary>
    Guess,
}
