using Leafstop.Core.Sensor;

namespace Leafstop.Look.Bench;

/// <summary>Lift or dial in the report: the ISO to stop at, the pairs that matter, and every other pair folded away.</summary>
public static class LiftSection
{
    /// <summary>Writes the section where there is something to say.</summary>
    public static void Write(Markup page, BenchAccount account, BenchAnswer answer)
    {
        if (account.StopAt is null && answer.LiftOrDial.IsEmpty)
            return;
        page.Open("section").Element("h2", "Lift or dial");
        if (account.StopAt is { } stop)
            page.Open("p", ("class", "lead")).Say(stop).Close();
        if (answer.LiftOrDial.Length > 0)
        {
            page.Open("p", ("class", "before")).Say(new Statement(
                "In light metered for the ISO lifted to: the share of signal-to-noise that lifting loses, with the stops of light that would make it good, and the stops of highlights that it keeps.",
                Core.Quantities.HowKnown.WorkedOut)).Close();
            LiftPairs pairs = LiftPairs.Of(answer);
            Table(page, "Lift or dial table", pairs.Few);
            if (pairs.Rest.Count > 0)
            {
                page.Open("details", ("class", "why pairs")).Element("summary", $"the other {Figures.Count(pairs.Rest.Count)} {(pairs.Rest.Count == 1 ? "pair" : "pairs")}");
                page.Open("div", ("class", "note"));
                Table(page, "Lift or dial table, the other pairs", pairs.Rest);
                page.Close().Close();
            }
        }

        page.Close().Line();
    }

    private static void Table(Markup page, string name, IReadOnlyList<LiftOrDial> pairs)
    {
        double[] tones = LiftPairs.Tones(pairs);
        StanzaTable.Open(page, name, "lift",
        [
            ("Shot at", "ISO"), ("Lifted to", "ISO"), .. tones.Select(t => ("Lost", $"at {Figures.Tone(t)}")), ("Kept", "highlights, stops"),
        ]);
        foreach (LiftOrDial pair in pairs)
        {
            StanzaTable.Row(page, "on", "shot at ISO ", Figures.Speed(pair.Shot));
            StanzaTable.Cell(page, "lifted to", false, () => page.Text(Figures.Speed(pair.LiftedTo)));
            foreach (double tone in tones)
            {
                LiftLoss? loss = pair.Losses.FirstOrDefault(l => l.ToneEv == tone);
                StanzaTable.Cell(page, Figures.Tone(tone), loss is null, () =>
                {
                    if (loss is not null)
                        page.Text(Figures.Percent(loss.ShareLost)).Text(" ").Element("span", Figures.Fixed(loss.StopsLost, 2), ("class", "pm"));
                });
            }

            StanzaTable.Cell(page, "highlights kept, stops", false, () => page.Say(Figures.Stops(pair.HighlightStopsKept)));
            page.Close();
        }

        page.Close().Close().Line();
    }
}
