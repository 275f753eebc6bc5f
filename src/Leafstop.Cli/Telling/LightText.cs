using System.Globalization;
using System.Text;
using Leafstop.Core.Light;

namespace Leafstop.Cli.Telling;

/// <summary>The light of a day on a terminal: verdict, number, how sure, events, table.</summary>
internal static class LightText
{
    // Rows with the sun lower than this are left out of a table of a whole day: nobody meters there.
    private const double LowestRowDegrees = -12;

    public static string Of(LightAnswer answer, bool withWhy, int width)
    {
        StringBuilder text = new();
        LightWords words = new(answer);
        Paragraph(text, words.Sentence, width);
        Paragraph(text, words.Second, width);
        Paragraph(text, $"{words.HowSure.Text} ({Statement.Word(words.HowSure.Known!.Value)})", width);
        Events(text, answer, words);
        Moon(text, answer, words, width);
        if (answer.Moment is null)
            Table(text, answer, words, width);
        foreach ((_, string caution) in words.Cautions)
        {
            text.Append('\n');
            Paragraph(text, caution, width);
        }
        if (withWhy)
        {
            text.Append("\nWhy\n");
            foreach (string line in LightWhy.Of(answer, words))
                Paragraph(text, line, width);
        }
        return BenchText.Plain(text.ToString());
    }

    private static void Events(StringBuilder text, LightAnswer answer, LightWords words)
    {
        text.Append(CultureInfo.InvariantCulture, $"\nThe sun on {answer.Day.Date:uuuu-MM-dd} ({answer.Day.Zone.Id})\n");
        foreach (SunEvent e in answer.Events)
        {
            if (e.Time is { } time)
                text.Append(CultureInfo.InvariantCulture, $"  {words.Time(time)}  {LightWords.Name(e.Kind),-22}sun at {Figures.Fixed(e.Altitude!.Value.Degrees, 1),6}°, bearing {LightWords.Bearing(e.Azimuth!.Value),3}°\n");
        }
        foreach (var none in answer.Events.Where(e => e.Time is null && e.Kind != SunEventKind.Transit).GroupBy(e => (e.Altitude, e.State)))
        {
            string names = string.Join(", ", none.Select(e => LightWords.Name(e.Kind)));
            string why = none.Key.State switch
            {
                SunState.AboveAllDay => $"the sun stays above {Figures.Fixed(none.Key.Altitude!.Value.Degrees, 1)}° all day",
                SunState.BelowAllDay => $"the sun stays below {Figures.Fixed(none.Key.Altitude!.Value.Degrees, 1)}° all day",
                _ => "not on this day",
            };
            text.Append(CultureInfo.InvariantCulture, $"  --     {names}: {why}\n");
        }
    }

    private static void Moon(StringBuilder text, LightAnswer answer, LightWords words, int width)
    {
        string[] passes = [.. answer.MoonPasses.Select(p => $"{(p.IsRising ? "up" : "down")} at {words.Time(p.Time)}")];
        Paragraph(text, $"The moon is {Figures.Percent(answer.MoonLit)} lit{(passes.Length > 0 ? $", {Figures.List(passes)}" : "; it does not rise or set on this day")}. Its light is not counted here.", width);
    }

    private static void Table(StringBuilder text, LightAnswer answer, LightWords words, int width)
    {
        LightEstimate[] rows = [.. answer.Rows.Where(r => r.Sun.Altitude.Degrees >= LowestRowDegrees)];
        if (rows.Length == 0)
        {
            text.Append("\nThe sun is more than 12° below the horizon all the time: there is no light to meter by it.\n");
            return;
        }
        text.Append(CultureInfo.InvariantCulture, $"\nThe light under {words.Sky}{(answer.Conditions.Canopy.IsOverhead ? $", trees: {answer.Conditions.Canopy.Name}" : "")}\n");
        text.Append("  time      sun   EV100     stops/min   light (lx)\n");
        foreach (LightEstimate row in rows)
        {
            double rate = answer.Curve.StopsPerMinuteAt(row.When);
            string hidden = row.Sun.Altitude.Degrees > 0 && row.Chain.DiscShare < 1 ? row.Chain.DiscShare == 0 ? "  sun hidden" : "  sun half out" : "";
            text.Append(CultureInfo.InvariantCulture,
                $"  {words.Time(row.When)}  {Figures.Fixed(row.Sun.Altitude.Degrees, 1),6}°  {Figures.Fixed(row.Light.Value, 1),5} ±{Figures.Fixed(row.Uncertainty.Value, 1)}  {Signed(rate),8}   {Figures.Significant(row.Illuminance.Lux),10}{hidden}\n");
        }
        if (rows.Length < answer.Rows.Count)
            Paragraph(text, "  Rows with the sun more than 12° below the horizon are left out.", width);
    }

    private static string Signed(double rate) => (rate > 0.0005 ? "+" : "") + Figures.Fixed(rate, 3);

    private static void Paragraph(StringBuilder text, string paragraph, int width)
    {
        foreach (string line in TextColumns.Wrap(paragraph, width))
            text.Append(line).Append('\n');
    }
}
