using Leafstop.Core.Sensor;

namespace Leafstop.Cli.Telling.Report;

/// <summary>The written parts of the report.</summary>
internal static class ReportSections
{
    public static void Verdict(Markup page, BenchAccount account, BenchAnswer answer, string title)
    {
        page.Open("div", ("class", "with-margin"));
        page.Open("p", ("class", "topline")).Element("b", title);
        if (account.Camera.Length > 0)
            page.Element("span", account.Camera);
        page.Element("span", account.FrameCount).Close();
        page.Open("div").Open("h1", ("class", "verdict")).Say(account.Verdict.Sentence).Close();
        page.Open("p", ("class", "second")).Say(account.Verdict.Second).Close();
        if (account.Verdict.HowSure is { } sure)
            page.Open("p", ("class", "third")).Say(sure).Close();
        if (answer.HasAnswer)
        {
            page.Open("details", ("class", "why")).Element("summary", "why").Open("div", ("class", "note"));
            page.Say("Two frames of one scene differ only by noise, so texture and lens cancel out. Plotted against light, the square of that noise is a straight line: how steep it is gives the gain, where it begins gives the read noise.");
            if (answer.GainSteps.Length > 0)
                page.Say($" With the step the read noise curve fits better by {Figures.Fixed(answer.GainSteps[^1].DeltaChiSquared, 0)} in chi-squared than without; 16 is asked.");
            page.Close().Close();
        }

        page.Close();
        if (answer.HasAnswer)
        {
            page.Open("div", ("class", "aside"));
            page.Element("p", "Nobody has judged a limit yet. Noise figures are the witness; you are the judge.");
            page.Open("p").Say(new Statement($"Mid-grey is taken at {Figures.Fixed(LevelRow.MidGreyShare * 100, 1)}{Figures.NoBreak}% of clip, {Figures.Fixed(-Math.Log2(LevelRow.MidGreyShare), 2)} stops below it.", Core.Quantities.HowKnown.WorkedOut)).Close();
            page.Close();
        }

        page.Close().Line();
    }

    public static void Findings(Markup page, BenchAccount account, BenchAnswer answer)
    {
        if (answer.Findings.IsEmpty && account.Holding is null)
            return;
        page.Open("section").Element("h2", answer.Findings.Any(f => f.Reshoot) ? "Before you take the scene down" : "What was noticed");
        page.Open("ul", ("class", "findings"));
        foreach (Finding finding in answer.Findings)
        {
            LeafState state = State(finding, answer);
            page.Open("li").DrawLeaf(state).Open("div");
            page.Element("span", state switch { LeafState.Half => "Shoot again: ", LeafState.Bare => "Does not hold: ", LeafState.Broken => "Not certain: ", _ => "Holds: " }, ("class", "say"));
            int end = finding.Text.IndexOf(". ", StringComparison.Ordinal);
            string head = end < 0 ? finding.Text : finding.Text[..(end + 1)];
            page.Open("b").Say(head).Close().Say(finding.Text[head.Length..]);
            if (account.Names.Beside(finding) is { Length: > 0 } names)
                page.Element("span", names, ("class", "files"));
            page.Close().Close();
        }

        if (account.Holding is { } holding)
        {
            page.Open("li").DrawLeaf(LeafState.Whole).Open("div");
            int end = holding.Text.IndexOf(". ", StringComparison.Ordinal);
            string head = end < 0 ? holding.Text : holding.Text[..(end + 1)];
            page.Open("b").Say(head).Close().Say(holding with { Text = holding.Text[head.Length..] }).Close().Close();
        }

        page.Close().Close().Line();
    }

    /// <summary>Half: needs the person. Bare: a level or file that does not count. Broken: a number is less certain for it. Whole: worth knowing, and all holds.</summary>
    private static LeafState State(Finding finding, BenchAnswer answer)
    {
        if (finding.Reshoot)
            return LeafState.Half;
        var frames = finding.Frames.ToHashSet(StringComparer.Ordinal);
        if (finding.Code is FindingCode.Unreadable or FindingCode.FalsePair or FindingCode.JpegOnly or FindingCode.TwoBodies or FindingCode.TwoSizes or FindingCode.NoLadder
            || answer.Levels.Any(l => !l.Usable && l.Frames.Any(frames.Contains)))
            return LeafState.Bare;
        return finding.Code is FindingCode.NotRaw or FindingCode.Duplicate or FindingCode.ClipNotAtTag or FindingCode.HotPixels or FindingCode.Clock
            ? LeafState.Whole
            : LeafState.Broken;
    }

    public static void Levels(Markup page, BenchAccount account)
    {
        page.Open("section").Element("h2", "Level by level");
        foreach (IGrouping<LadderKind, LevelRow> group in account.Groups)
        {
            if (account.Groups.Count > 1)
                page.Element("h3", LevelWords.Ladder(group.Key), ("class", "group"));
            page.Open("div", ("class", "scroll"), ("tabindex", "0"), ("role", "region"), ("aria-label", account.Groups.Count > 1 ? $"Level table, {LevelWords.Ladder(group.Key)}" : "Level table"));
            page.Open("table").Open("thead").Open("tr");
            Heading(page, "ISO", "");
            Heading(page, "Frames", "");
            Heading(page, "Gain", "e\u207B per raw unit");
            Heading(page, "Read noise", "e\u207B");
            Heading(page, "Clips at", "e\u207B");
            Heading(page, "Range", "stops");
            Heading(page, "S/N", $"at −3{Figures.NoBreak}EV");
            page.Element("th", "Remark", ("scope", "col"), ("class", "rem")).Close().Close().Open("tbody");
            foreach (LevelRow row in group)
                Row(page, row);
            page.Close().Close().Close();
        }

        LevelRow[] all = [.. account.Groups.SelectMany(g => g)];
        if (all.Any(r => r.Gain.Length > 0))
        {
            page.Open("p", ("class", "tags"));
            foreach (Statement known in LevelRow.Known(all))
                page.Say(known.Text).Text(": ").Known(known.Known!.Value).Text(". ");
            page.Close();
        }

        page.Close().Line();
    }

    private static void Heading(Markup page, string text, string unit)
    {
        page.Open("th", ("scope", "col"), ("class", "r")).Text(text);
        if (unit.Length > 0)
            page.Open("small").Say(unit).Close();
        page.Close();
    }

    private static void Row(Markup page, LevelRow row)
    {
        page.Open("tr", ("class", row.Usable ? "on" : "off")).Element("th", row.Iso, ("scope", "row"), ("class", "r"));
        page.Element("td", row.Frames, ("class", "r")).Element("td", row.Gain, ("class", "r"));
        page.Open("td", ("class", "r")).Element("span", row.ReadNoise, ("class", row.Usable ? "num" : "struck"));
        if (row.PlusMinus.Length > 0)
            page.Text(" ").Element("span", row.PlusMinus, ("class", "pm"));
        page.Close();
        page.Element("td", row.ClipsAt, ("class", "r")).Element("td", row.Range, ("class", "r")).Element("td", row.SignalToNoise, ("class", "r"));
        page.Open("td", ("class", "rem"));
        if (row.Remark.StartsWith("step", StringComparison.Ordinal))
            page.Element("b", "step").Say(row.Remark["step".Length..]);
        else
            page.Say(row.Remark);
        if (row.Level.Reason is { } reason)
            page.Open("span", ("class", "why-off")).Say(reason).Close();
        page.Close().Close();
    }

    public static void Lift(Markup page, BenchAccount account, BenchAnswer answer)
    {
        if (account.StopAt is null && answer.LiftOrDial.IsEmpty)
            return;
        page.Open("section").Element("h2", "Lift or dial");
        if (account.StopAt is { } stop)
            page.Open("p", ("class", "lead")).Say(stop).Close();
        if (answer.LiftOrDial.Length > 0)
        {
            double[] tones = [.. answer.LiftOrDial.SelectMany(p => p.Losses).Select(l => l.ToneEv).Distinct().OrderDescending()];
            page.Open("div", ("class", "scroll"), ("tabindex", "0"), ("role", "region"), ("aria-label", "Lift or dial table")).Open("table");
            page.Open("caption").Say(new Statement("In light metered for the ISO lifted to: share of signal-to-noise lost by lifting, with the stops of light that would make it good, and what the highlights keep.", Core.Quantities.HowKnown.WorkedOut)).Close();
            page.Open("thead").Open("tr");
            Heading(page, "Shot at", "ISO");
            Heading(page, "Lifted to", "ISO");
            foreach (double tone in tones)
                Heading(page, "Lost", $"at {Figures.Tone(tone)}");
            Heading(page, "Kept", "highlights, stops");
            page.Close().Close().Open("tbody");
            foreach (LiftOrDial pair in answer.LiftOrDial)
            {
                page.Open("tr").Element("th", Figures.Speed(pair.Shot), ("scope", "row"), ("class", "r")).Element("td", Figures.Speed(pair.LiftedTo), ("class", "r"));
                foreach (double tone in tones)
                    Lost(page, pair.Losses.FirstOrDefault(l => l.ToneEv == tone));
                page.Open("td", ("class", "r")).Say(Figures.Stops(pair.HighlightStopsKept)).Close().Close();
            }

            page.Close().Close().Close();
        }

        page.Close().Line();
    }

    private static void Lost(Markup page, LiftLoss? loss)
    {
        page.Open("td", ("class", "r"));
        if (loss is not null)
        {
            page.Text(Figures.Percent(loss.ShareLost));
            page.Text(" ").Element("span", Figures.Fixed(loss.StopsLost, 2), ("class", "pm"));
        }

        page.Close();
    }

    public static void Limits(Markup page, BenchAccount account, LadderScale scale)
    {
        if (account.Limits.Count == 0)
            return;
        page.Open("section").Element("h2", "Limits by the published print criterion, not judged");
        foreach (LimitWords limit in account.Limits)
        {
            page.Open("div", ("class", "tone")).Element("h3", limit.Heading, ("class", "group"));
            LimitLadder.Draw(page, scale, limit.Limit);
            page.Open("ul", ("class", "limits"));
            foreach (Statement line in limit.Lines)
                page.Open("li").Say(line).Close();
            page.Close().Open("p", ("class", "tags")).Say(limit.Tags).Close().Close();
        }

        page.Element("p", "Judging prints of this bench replaces these.", ("class", "third"));
        page.Close().Line();
    }

    public static void HowKnown(Markup page, BenchAccount account)
    {
        if (account.HowKnown.Count == 0)
            return;
        page.Open("section").Element("h2", "How each number is known").Open("ul", ("class", "sources"));
        foreach (Statement statement in account.HowKnown)
            page.Open("li").Say(statement).Close();
        page.Close().Close().Line();
    }
}
