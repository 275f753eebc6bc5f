using System.Text;
using Leafstop.Core.Planning;
using Leafstop.Core.Quantities;

namespace Leafstop.Pocket.Screens;

/// <summary>The rows of the give-up table: one target each, which tries the step.</summary>
internal static class GiveUpRows
{
    /// <param name="plan">The plan.</param>
    /// <param name="part">Which part of the table, where it is longer than the screen.</param>
    /// <param name="room">Rows that fit.</param>
    public static string Of(ExposurePlan plan, int part, int room)
    {
        GiveUpRow[] all = [.. Offered(plan)];
        bool isSplit = all.Length > room;
        int parts = isSplit ? (all.Length + room - 2) / (room - 1) : 1, at = Math.Clamp(part, 0, parts - 1);
        StringBuilder html = new();
        foreach (GiveUpRow row in isSplit ? all[(at * (room - 1))..].Take(room - 1) : all)
            html.Append(Row(plan, row));
        if (isSplit)
        {
            int others = all.Length - Math.Min(all.Length, (at + 1) * (room - 1));
            html.Append(Html.Button(others == 0 ? "go:gap" : $"go:gap:{at + 1}", "press more", others == 0 ? "The cheaper ways" : others == 1 ? "One more way" : $"{others} more ways"));
        }
        return html.ToString();
    }

    /// <summary>How many rows there are.</summary>
    public static int Count(ExposurePlan plan) => Offered(plan).Count();

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

    private static string Row(ExposurePlan plan, GiveUpRow row)
    {
        string reached = row.What == GiveUpKind.SmallerPrint && GapAnswer.LimitsAsked(row.After)?.CleanDial is { } clean ? $"clean: {Html.Iso(clean)}" : row.Answer.Verdict switch
        {
            PlanVerdict.Clean when row.Answer.SpareToClean!.Value.NearestThird().Value == 0 => "at clean",
            PlanVerdict.Clean => "inside clean",
            PlanVerdict.Stretch => "past clean",
            PlanVerdict.Beyond => "past stretch",
            _ => "cannot say",
        };
        string gained = row.Gained.Value > Stops.Hair ? $"<data value=\"{Html.Exact(row.Gained.Value)}\">{Html.Size(row.Gained)}</data> back" : "";
        return Html.Button($"try:{plan.GiveUp.IndexOf(row)}", "g",
            $"<span class=\"w\">{Html.Text(Short(row))}</span><span class=\"s\">{gained}</span><span class=\"i num\">ISO <data value=\"{Html.Exact(row.Answer.Iso.Speed)}\">{Html.Iso(row.Iso.Dial)}</data></span>"
            + $"<span class=\"m\"><span class=\"res\" style=\"{Staff.WordsAt(plan, row, GapWords.Plain(reached))}\">{reached}</span>{Staff.Row(plan, row)}</span>");
    }
}
