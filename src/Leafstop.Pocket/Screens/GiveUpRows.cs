using Leafstop.Core.Planning;
using Leafstop.Core.Quantities;

namespace Leafstop.Pocket.Screens;

/// <summary>The rows of the give-up table: one target each, which tries the step.</summary>
internal static class GiveUpRows
{
    /// <summary>The rows of a part.</summary>
    /// <param name="page">The page: how far its limits were measured.</param>
    /// <param name="plan">The plan.</param>
    /// <param name="part">Which part of the table, where it is longer than the screen.</param>
    /// <param name="room">Rows that fit.</param>
    public static string Of(PocketPage page, ExposurePlan plan, int part, int room)
    {
        GiveUpRow[] all = [.. Offered(plan)];
        return string.Concat(all.Skip(At(all.Length, part, room) * room).Take(room).Select(row => Row(page, plan, row)));
    }

    /// <summary>The way to the rows that are not shown; null when all are.</summary>
    public static (string Act, string Words)? Others(ExposurePlan plan, int part, int room)
    {
        int count = Offered(plan).Count(), at = At(count, part, room), others = Math.Max(0, count - (at + 1) * room);
        return count <= room ? null : others == 0 ? ("go:gap", "The cheaper ways") : ($"go:gap:{at + 1}", others == 1 ? "One more way" : $"{others} more ways");
    }

    private static int At(int count, int part, int room) => Math.Clamp(part, 0, Math.Max(0, (count + room - 1) / room - 1));

    private static IEnumerable<GiveUpRow> Offered(ExposurePlan plan) => plan.GiveUp.Where(r => r.What is not (GiveUpKind.KeepFrame or GiveUpKind.LiftLess));

    /// <summary>What a row does, in two words.</summary>
    public static string Short(GiveUpRow row) => row.What switch
    {
        GiveUpKind.WaitForLull => $"Lull, {row.After.Shutter.ToDisplay()}",
        GiveUpKind.Polariser => "Polariser off",
        GiveUpKind.OtherFilter => "Filter off",
        GiveUpKind.Aperture => row.After.Aperture.ToDisplay(),
        GiveUpKind.Shutter => row.After.Shutter.ToDisplay(),
        GiveUpKind.SmallerPrint => $"Print {Dials.Figure(Math.Round(row.After.Print!.WidthMm / 10))} cm",
        GiveUpKind.Average => $"Mean of {row.After.FramesAveraged}",
        GiveUpKind.TwoFrames => "Two frames",
        GiveUpKind.FocusSteps => row.Words,
        GiveUpKind.Later => row.Words,
        _ => row.Words,
    };

    private static string Row(PocketPage page, ExposurePlan plan, GiveUpRow row)
    {
        string reached = row.What == GiveUpKind.SmallerPrint && page.Limits?.IsCleanOpen is not true && GapAnswer.LimitsAsked(row.After)?.CleanDial is { } clean ? $"clean: {Html.Iso(clean)}" : row.Answer.Verdict switch
        {
            PlanVerdict.Clean when row.Answer.SpareToClean!.Value.NearestThird().Value == 0 => "at clean",
            PlanVerdict.Clean => "inside clean",
            PlanVerdict.Stretch => "past clean",
            PlanVerdict.Beyond => page.Limits?.IsStretchOpen is true ? "past all measured" : "past stretch",
            _ => "cannot say",
        };
        string gained = row.Gained.Value > Stops.Hair ? $"<data value=\"{Html.Exact(row.Gained.Value)}\">{Html.Size(row.Gained)}</data> back" : "";
        // No dial goes below base: there is light over then.
        (string before, string iso) = row.Answer.Gap.Value < -Stops.Hair ? ("", "base ISO") : ("ISO ", Html.Iso(row.Iso.Dial));
        return Html.Button($"try:{plan.GiveUp.IndexOf(row)}", "g",
            $"<span class=\"w\">{Html.Text(Short(row))}</span><span class=\"s\">{gained}</span><span class=\"i num\">{before}<data value=\"{Html.Exact(row.Answer.Iso.Speed)}\">{iso}</data></span>"
            + $"<span class=\"m\"><span class=\"res\" style=\"{Staff.WordsAt(plan, row, GapWords.Plain(reached))}\">{reached}</span>{Staff.Row(plan, row)}</span>");
    }
}
