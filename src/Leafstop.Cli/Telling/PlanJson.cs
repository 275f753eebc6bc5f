using System.Globalization;
using System.Text.Json;
using Leafstop.Cli.CommandLine;
using Leafstop.Core.Exposure;
using Leafstop.Core.Motion;
using Leafstop.Core.Planning;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;
using static Leafstop.Cli.Telling.JsonValues;

namespace Leafstop.Cli.Telling;

/// <summary>A plan as JSON. The shape is a contract, described in docs/json/plan.md: fields are added, never renamed.</summary>
internal static class PlanJson
{
    /// <summary>The whole document.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="assumed">What it rests on though nobody said it.</param>
    public static string Of(ExposurePlan plan, IReadOnlyList<string> assumed) => JsonText.Of(json =>
    {
        json.WriteStartObject();
        WriteMembers(json, plan);
        json.WriteStartArray("assumed");
        foreach (string sentence in assumed)
            json.WriteStringValue(sentence);
        json.WriteEndArray();
        json.WriteEndObject();
    });

    /// <summary>The members of a plan, inside an object that is open.</summary>
    public static void WriteMembers(Utf8JsonWriter json, ExposurePlan plan)
    {
        json.WriteStartObject("exposure");
        WriteExposure(json, plan.Scene.Aperture, plan.Scene.Shutter, plan.Iso);
        json.WriteNumber("baseIso", plan.Scene.BaseIso.Speed);
        json.WriteNumber("effectiveIso", plan.Answer.Effective.Speed);
        json.WriteNumber("lightEv100", plan.Scene.Light.Value);
        json.WriteEndObject();
        json.WriteNumber("gapStops", plan.Answer.Gap.Value);
        WriteSpare(json, plan.Answer);
        json.WriteString("verdict", Camel(plan.Answer.Verdict));
        PlanSentences words = PlanSentences.Of(plan);
        json.WriteStartObject("words");
        json.WriteString("verdict", words.Verdict);
        json.WriteString("second", words.Second);
        json.WriteString("howSure", words.HowSure);
        json.WriteEndObject();
        WritePrint(json, "print", plan.Print);
        WriteLimits(json, plan.Limits);
        json.WriteString("limitRefusal", plan.LimitRefusal);
        json.WriteStartArray("giveUp");
        foreach (GiveUpRow row in plan.GiveUp)
            WriteRow(json, row);
        json.WriteEndArray();
        WriteFoam(json, plan.Foam);
        WriteTwoFrames(json, plan.TwoFrames);
        WriteWishes(json, plan);
        json.WriteStartArray("cautions");
        foreach (Caution caution in plan.Cautions)
        {
            json.WriteStartObject();
            json.WriteString("code", Camel(caution.Code));
            json.WriteString("text", caution.Text);
            json.WriteString("how", caution.How is { } how ? Camel(how) : null);
            json.WriteEndObject();
        }
        json.WriteEndArray();
    }

    private static void WriteExposure(Utf8JsonWriter json, FNumber aperture, ShutterTime shutter, DialledIso iso)
    {
        json.WriteNumber("aperture", aperture.Ratio);
        json.WriteString("apertureMark", aperture.ToDisplay());
        json.WriteNumber("shutterSeconds", shutter.Seconds);
        json.WriteString("shutterMark", shutter.ToDisplay());
        json.WriteNumber("isoExact", iso.Exact.Speed);
        json.WriteNumber("isoDial", iso.Dial.Speed);
        json.WriteNumber("isoRoundedByStops", iso.RoundedBy.Value);
    }

    private static void WriteSpare(Utf8JsonWriter json, GapAnswer answer)
    {
        json.WriteStartObject("spare");
        Number(json, "cleanStops", answer.SpareToClean?.Value);
        Number(json, "stretchStops", answer.SpareToStretch?.Value);
        json.WriteEndObject();
    }

    private static void WritePrint(Utf8JsonWriter json, string name, PrintCondition? print)
    {
        if (print is null)
        {
            json.WriteNull(name);
            return;
        }
        json.WriteStartObject(name);
        json.WriteNumber("widthMm", print.WidthMm);
        json.WriteNumber("viewingDistanceMm", print.ViewingDistanceMm);
        json.WriteEndObject();
    }

    private static void WriteLimits(Utf8JsonWriter json, NoiseLimits? limits)
    {
        if (limits is null)
        {
            json.WriteNull("limits");
            return;
        }
        json.WriteStartObject("limits");
        Number(json, "cleanIso", limits.Clean?.Speed);
        Number(json, "cleanDial", limits.CleanDial?.Speed);
        Number(json, "stretchIso", limits.Stretch?.Speed);
        Number(json, "stretchDial", limits.StretchDial?.Speed);
        json.WriteString("how", Camel(limits.Origin));
        json.WriteString("body", limits.Tags.Body);
        WritePrint(json, "print", limits.Tags.Print);
        json.WriteString("tone", Camel(limits.Tags.Tone));
        json.WriteString("treatment", Camel(limits.Tags.Treatment));
        Number(json, "darkLiftStops", limits.Tags.Lift?.Value);
        json.WriteStartArray("shifts");
        foreach (LimitShift shift in limits.Shifts)
        {
            json.WriteStartObject();
            json.WriteString("what", Camel(shift.What));
            json.WriteNumber("stops", shift.Stops.Value);
            json.WriteString("reason", shift.Reason);
            json.WriteString("how", Camel(shift.How));
            json.WriteEndObject();
        }
        json.WriteEndArray();
        json.WriteString("judgedOn", limits.Evidence?.JudgedOn.ToString("O", CultureInfo.InvariantCulture));
        WriteAnswers(json, "cleanJudged", limits.Evidence?.Clean);
        WriteAnswers(json, "stretchJudged", limits.Evidence?.Stretch);
        json.WriteEndObject();
    }

    private static void WriteAnswers(Utf8JsonWriter json, string name, JudgedAnswers? answers)
    {
        if (answers is null)
        {
            json.WriteNull(name);
            return;
        }
        json.WriteStartObject(name);
        json.WriteStartArray("interval95Iso");
        json.WriteNumberValue(answers.Low.Speed);
        json.WriteNumberValue(answers.High.Speed);
        json.WriteEndArray();
        json.WriteNumber("spreadStops", answers.Spread.Value);
        json.WriteNumber("answers", answers.Answers);
        json.WriteEndObject();
    }

    private static void WriteRow(Utf8JsonWriter json, GiveUpRow row)
    {
        json.WriteStartObject();
        json.WriteString("what", Camel(row.What));
        json.WriteNumber("stops", row.Gained.Value);
        json.WriteNumber("isoDial", row.Iso.Dial.Speed);
        json.WriteString("cost", row.Cost);
        json.WriteString("words", row.Words);
        json.WriteNumber("isoExact", row.Iso.Exact.Speed);
        json.WriteNumber("gapStops", row.Answer.Gap.Value);
        WriteSpare(json, row.Answer);
        json.WriteString("verdict", Camel(row.Answer.Verdict));
        json.WriteString("reaches", row.Reaches is { } reached ? Camel(reached) : null);
        json.WriteString("how", Camel(row.How));
        // What to set to plan the row again.
        json.WriteNumber("aperture", row.After.Aperture.Ratio);
        json.WriteNumber("shutterSeconds", row.After.Shutter.Seconds);
        WritePrint(json, "print", row.After.PrintAsked);
        json.WriteNumber("framesAveraged", row.After.FramesAveraged);
        json.WriteEndObject();
    }

    private static void WriteFoam(Utf8JsonWriter json, HighlightRoom? foam)
    {
        if (foam is null)
        {
            json.WriteNull("foam");
            return;
        }
        json.WriteStartObject("foam");
        json.WriteNumber("overMidGreyStops", foam.Placed.Value);
        json.WriteNumber("leftStops", foam.Left.Value);
        json.WriteBoolean("isClipped", foam.IsClipped);
        json.WriteNumber("highestIsoDial", foam.HighestIso.Speed);
        json.WriteNumber("bracketStops", -foam.BracketStops);
        json.WriteEndObject();
    }

    private static void WriteTwoFrames(Utf8JsonWriter json, TwoFrameRecipe? two)
    {
        if (two is null)
        {
            json.WriteNull("twoFrames");
            return;
        }
        json.WriteStartObject("twoFrames");
        WriteFrame(json, "water", two.Water);
        WriteFrame(json, "leaves", two.Leaves);
        json.WriteNumber("apartStops", two.Apart.Value);
        json.WriteNumber("noiseMismatchStops", two.NoiseMismatch.Value);
        json.WriteBoolean("needsTwo", two.NeedsTwo);
        if (two.IsFeasible is { } feasible)
            json.WriteBoolean("isFeasible", feasible);
        else
            json.WriteNull("isFeasible");
        json.WriteStartArray("instead");
        foreach (RecipeFrame frame in two.Instead)
            WriteFrame(json, null, frame);
        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void WriteFrame(Utf8JsonWriter json, string? name, RecipeFrame frame)
    {
        if (name is null)
            json.WriteStartObject();
        else
            json.WriteStartObject(name);
        json.WriteString("for", frame.For);
        WriteExposure(json, frame.Aperture, frame.Shutter, frame.Iso);
        json.WriteString("verdict", Camel(frame.Answer.Verdict));
        json.WriteEndObject();
    }

    private static void WriteWishes(Utf8JsonWriter json, ExposurePlan plan)
    {
        Scene scene = plan.Scene;
        if (scene.Depth is { } depth && plan.Print is { } print)
        {
            json.WriteStartObject("depth");
            Number(json, "focusMm", depth.Demand.Focus.Finite?.Millimetres);
            json.WriteNumber("blurOnPrintMm", depth.BlurOnPrint(scene.Aperture, print, scene.WidthKept).Millimetres);
            json.WriteNumber("allowedOnPrintMm", depth.AllowedOnPrint(print).Millimetres);
            json.WriteBoolean("holds", depth.Holds(scene.Aperture, print, scene.WidthKept));
            json.WriteNumber("widestAperture", depth.Widest(print, scene.WidthKept).Ratio);
            json.WriteEndObject();
        }
        else
        {
            json.WriteNull("depth");
        }
        if (scene.Water is { } water)
        {
            json.WriteStartObject("water");
            json.WriteNumber("streakPercent", water.Streak(scene.Shutter).Percent);
            Number(json, "shortestSeconds", water.Wanted?.Shortest.Seconds);
            Number(json, "longestSeconds", water.Wanted?.Longest.Seconds);
            json.WriteString("asked", water.Name);
            json.WriteEndObject();
        }
        else
        {
            json.WriteNull("water");
        }
        if (scene.Leaves is { } leaves && plan.Print is { } on)
        {
            PrintSmear smear = leaves.Smear(scene.Shutter, on, scene.WidthKept);
            json.WriteStartObject("leaves");
            json.WriteNumber("peakSpeedMetresPerSecond", leaves.Peak.Best.MetresPerSecond);
            json.WriteNumber("peakSpeedFactor", leaves.Peak.Factor);
            json.WriteNumber("smearOnPrintMm", smear.OnPrint.Millimetres);
            json.WriteNumber("allowedOnPrintMm", smear.Print.AllowedOnPrint.Millimetres);
            Number(json, "holdingSeconds", leaves.Holding(on, scene.WidthKept).Exact?.Seconds);
            Number(json, "holdingInLullSeconds", leaves.HoldingInLull(on, scene.WidthKept).Exact?.Seconds);
            json.WriteString("how", Camel(leaves.How));
            WriteTrial(json, scene.Trial);
            json.WriteEndObject();
        }
        else
        {
            json.WriteNull("leaves");
        }
    }

    private static void WriteTrial(Utf8JsonWriter json, KeeperTrial? trial)
    {
        if (trial is null)
        {
            json.WriteNull("trial");
            return;
        }
        FramesNeeded more = trial.StillNeeded(Chance.UsuallySure);
        json.WriteStartObject("trial");
        json.WriteNumber("kept", trial.Kept);
        json.WriteNumber("frames", trial.Frames);
        Number(json, "moreFrames", more.Best);
        Number(json, "moreFramesFewest", more.Fewest);
        Number(json, "moreFramesMost", more.Most);
        json.WriteNumber("chanceAtMost", trial.High.Share);
        json.WriteEndObject();
    }
}
