using Leafstop.Core.Sensor;

namespace Leafstop.Look.Bench;

/// <summary>The written parts of the report.</summary>
public static class BenchSections
{
    /// <summary>The verdict with its number, how sure it is, and why.</summary>
    public static void Verdict(Markup page, BenchAccount account, BenchAnswer answer, string title)
    {
        page.Open("div", ("class", "with-margin"));
        page.Open("p", ("class", "topline")).Element("b", title);
        if (account.Camera.Length > 0)
            page.Element("span", account.Camera);
        page.Element("span", account.FrameCount).Close();
        page.Open("div").Open("h1", ("class", "verdict"), ("tabindex", "-1")).Say(account.Verdict.Sentence).Close();
        page.Open("p", ("class", "second")).Say(account.Verdict.Second).Close();
        if (account.Verdict.HowSure is { } sure)
            page.Open("p", ("class", "third")).Say(sure).Close();
        if (answer.HasAnswer)
        {
            page.Open("details", ("class", "why")).Element("summary", "why").Open("div", ("class", "note"));
            bool isSingle = answer.Levels.All(l => !l.Usable || l.Flags.Contains(LevelFlag.SingleFrame));
            page.Say(isSingle
                ? "One frame alone: noise is taken from what differs between neighbouring points where the scene is smooth, and some of the scene stays in it. "
                : "Two frames of one scene differ only by noise, so texture and lens cancel out. ");
            page.Say("Plotted against light, the square of that noise is a straight line: how steep it is gives the gain, where it begins gives the read noise.");
            if (answer.GainSteps.Length > 0)
                page.Say($" With the step the read noise curve fits better by {Figures.Fixed(answer.GainSteps[^1].DeltaChiSquared, 0)} in chi-squared than without; 16 is asked.");
            page.Close().Close();
        }

        page.Close();
        if (answer.HasAnswer)
        {
            page.Open("div", ("class", "aside"));
            page.Element("p", "No limit on this page is judged. Noise figures are the witness; you are the judge.");
            page.Open("p").Say(new Statement($"Mid-grey is taken at {Figures.Fixed(LevelRow.MidGreyShare * 100, 1)}{Figures.NoBreak}% of clip, {Figures.Fixed(-Math.Log2(LevelRow.MidGreyShare), 2)} stops below it.", Core.Quantities.HowKnown.WorkedOut)).Close();
            page.Close();
        }

        page.Close().Line();
    }

    /// <summary>The ladder of each kind, on one scale.</summary>
    public static void Ladders(Markup page, BenchAccount account, BenchAnswer answer)
    {
        if (answer.Levels.IsEmpty)
            return;
        LadderScale scale = Scale(answer);
        foreach (IGrouping<LadderKind, Level> ladder in answer.Levels.GroupBy(l => l.Ladder))
        {
            if (account.Groups.Count > 1)
                page.Element("p", LevelWords.Ladder(ladder.Key), ("class", "group"));
            BenchLadder.Draw(page, scale, [.. ladder], answer);
        }
    }

    /// <summary>The scale that all ladders of this test share.</summary>
    public static LadderScale Scale(BenchAnswer answer) => new([.. answer.Levels.Select(l => l.Iso.Speed)]);

    /// <summary>What to shoot again, what does not hold, what was noticed.</summary>
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
        if (finding.Code is FindingCode.NotRaw or FindingCode.Duplicate or FindingCode.ClipNotAtTag or FindingCode.HotPixels or FindingCode.Clock)
            return LeafState.Whole;
        var frames = finding.Frames.ToHashSet(StringComparer.Ordinal);
        return finding.Code is FindingCode.Unreadable or FindingCode.FolderGone or FindingCode.FalsePair or FindingCode.JpegOnly or FindingCode.TwoBodies or FindingCode.TwoSizes or FindingCode.NoLadder
            || answer.Levels.Any(l => !l.Usable && l.Frames.Any(frames.Contains))
            ? LeafState.Bare
            : LeafState.Broken;
    }

    /// <summary>Limits by the published criterion.</summary>
    public static void Limits(Markup page, BenchAccount account, BenchAnswer answer)
    {
        if (account.Limits.Count == 0)
            return;
        LadderScale scale = Scale(answer);
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

    /// <summary>How each number is known.</summary>
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
