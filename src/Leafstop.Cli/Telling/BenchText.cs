using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Spectre.Console;

namespace Leafstop.Cli.Telling;

/// <summary>Tells a bench test on a terminal, or as plain lines in a pipe.</summary>
/// <remarks>Verdict, what to shoot again, level table, gain step, lift or dial, limits, how each number is known. Weight and strikes are extras: the words carry every meaning,
/// so the same lines go into a pipe. Lines keep to the width of the console, at most 100.</remarks>
public static class BenchText
{
    private const int Widest = 100;

    /// <summary>Writes the whole answer.</summary>
    /// <param name="console">Where to; its profile says how wide it is and whether it knows weights.</param>
    /// <param name="answer">The answer.</param>
    /// <param name="allPairs">True for every pair of lift or dial, false for the few that matter.</param>
    public static void Write(IAnsiConsole console, BenchAnswer answer, bool allPairs = false)
    {
        ArgumentNullException.ThrowIfNull(console);
        BenchAccount account = BenchAccount.Of(answer);
        var page = new Page(console);
        page.Paragraph(account.Verdict.Sentence, Decoration.Bold);
        page.Paragraph(account.Verdict.Second);
        if (account.Verdict.HowSure is { } sure)
            page.Paragraph(sure);
        page.Blank();
        Body(page, answer, account, allPairs);
    }

    /// <summary>Writes what was found on the way to no answer. The refusal itself is said elsewhere, once, and so is a finding that it repeats.</summary>
    /// <param name="console">As for <see cref="Write"/>.</param>
    /// <param name="answer">An answer without a usable level.</param>
    /// <param name="refusal">The sentences that are said elsewhere.</param>
    public static void WriteBeside(IAnsiConsole console, BenchAnswer answer, string refusal)
    {
        ArgumentNullException.ThrowIfNull(console);
        BenchAnswer rest = answer with { Findings = [.. answer.Findings.Where(f => !Plain(refusal).Contains(Plain(f.Text), StringComparison.Ordinal))] };
        if (!rest.Levels.IsEmpty || !rest.Findings.IsEmpty)
            Body(new Page(console), rest, BenchAccount.Of(rest), allPairs: false);
    }

    private static void Body(Page page, BenchAnswer answer, BenchAccount account, bool allPairs)
    {
        if (account.Camera.Length > 0)
            page.Paragraph(account.Camera);
        page.Paragraph(account.FrameCount);
        Findings(page, answer, account);
        Levels(page, account);
        Section(page, "Gain step", account.Steps);
        Lift(page, answer, account, allPairs);
        Limits(page, account);
        Section(page, "How each number is known", account.HowKnown);
    }

    /// <summary>One finding on one line, for printing it when it comes.</summary>
    /// <param name="finding">The finding.</param>
    public static string Line(Finding finding)
    {
        ArgumentNullException.ThrowIfNull(finding);
        string text = OneLine.Of(finding.Text), names = new FrameNames(finding.Frames).Beside(finding);
        string line = names.Length > 0 ? $"{text} [{names}]" : text;
        return Plain(finding.Reshoot ? $"Shoot again: {line}" : line);
    }

    /// <summary>Typographic spaces become plain ones, once lines are cut.</summary>
    internal static string Plain(string line) => line.Replace(Figures.NoBreak, ' ').Replace(Figures.Thin, ' ');

    private static void Findings(Page page, BenchAnswer answer, BenchAccount account)
    {
        Finding[] again = [.. answer.Findings.Where(f => f.Reshoot)];
        Finding[] others = [.. answer.Findings.Where(f => !f.Reshoot)];
        if (again.Length > 0)
        {
            page.Heading("Shoot again before you take the scene down");
            foreach (Finding finding in again)
                page.Item(finding.Text, account.Names.Beside(finding));
        }

        if (others.Length > 0)
        {
            page.Heading("Also noticed");
            foreach (Finding finding in others)
                page.Item(finding.Text, account.Names.Beside(finding));
        }

        if (account.Holding is { } holding && answer.Levels.Length > 0)
        {
            page.Blank();
            page.Paragraph(holding);
        }
    }

    private static void Levels(Page page, BenchAccount account)
    {
        foreach (IGrouping<LadderKind, LevelRow> group in account.Groups)
        {
            page.Heading(account.Groups.Count > 1 ? LevelWords.Ladder(group.Key) : "Level by level");
            LevelRow[] rows = [.. group];
            List<string[]> cells =
            [
                ["ISO", "frames", "gain", "read noise", "clips at", "range", "S/N", "remark"],
                ["", "", Figures.ElectronsPerDn, Figures.Electrons, Figures.Electrons, "stops", "\u22123" + Figures.NoBreak + "EV", ""],
                .. rows.Select(r => new[] { r.Iso, r.Frames, Struck(r, r.Gain), r.Usable ? $"{r.ReadNoise} {r.PlusMinus}" : Struck(r, r.ReadNoise), Struck(r, r.ClipsAt), r.Range, r.SignalToNoise, r.Remark }),
            ];
            IReadOnlyList<IReadOnlyList<string>> lines = TextColumns.Set(cells, page.Width);
            page.Lines(lines[0]);
            page.Lines(lines[1], Decoration.Dim);
            for (int i = 0; i < rows.Length; i++)
                page.Lines(lines[i + 2], rows[i].Usable ? Decoration.None : Decoration.Dim);
            foreach (LevelRow row in rows.Where(r => r.Level.Reason is not null))
                page.Item(row.Level.Reason!.Contains(Figures.Name(row.Level.Iso), StringComparison.Ordinal) ? $"Left off. {row.Level.Reason}" : $"{Figures.Name(row.Level.Iso)} is left off: {row.Level.Reason}", "");
            bool off = rows.Any(r => !r.Usable && (r.Gain + r.ReadNoise + r.ClipsAt).Length > 0);
            if (rows.All(r => r.Gain.Length == 0))
                continue;
            string known = string.Join(' ', LevelRow.Known(rows).Select(k => $"{k.Text}: {Statement.Word(k.Known!.Value)}."));
            page.Paragraph(off ? known + " A figure in brackets does not count." : known);
        }
    }

    /// <summary>A figure that does not count, in brackets: a pipe has no strike.</summary>
    /// <param name="row">The row that it stands in.</param>
    /// <param name="figure">The figure.</param>
    internal static string Struck(LevelRow row, string figure) => row.Usable || figure.Length == 0 ? figure : $"({figure})";

    private static void Section(Page page, string heading, IReadOnlyList<Statement> statements)
    {
        if (statements.Count == 0)
            return;
        page.Heading(heading);
        foreach (Statement statement in statements)
            page.Item(statement);
    }

    /// <summary>A table: the pairs are many, and a sentence each is not read.</summary>
    private static void Lift(Page page, BenchAnswer answer, BenchAccount account, bool allPairs)
    {
        if (account.StopAt is null && answer.LiftOrDial.IsEmpty)
            return;
        page.Heading("Lift or dial");
        if (account.StopAt is { } stop)
            page.Paragraph(stop);
        if (answer.LiftOrDial.IsEmpty)
            return;
        page.Paragraph(new Statement("In light metered for the higher ISO: stops of light that shooting the lower one and lifting it loses, by tone, and stops of highlights that it keeps.", HowKnown.WorkedOut));
        LiftPairs pairs = LiftPairs.Of(answer);
        IReadOnlyList<LiftOrDial> shown = allPairs ? answer.LiftOrDial : pairs.Few;
        double[] tones = LiftPairs.Tones(shown);
        List<string[]> cells =
        [
            ["shot at", "lifted to", .. tones.Select(Figures.Tone), "keeps"],
            .. shown.Select(pair => new[]
            {
                Figures.Speed(pair.Shot),
                Figures.Speed(pair.LiftedTo),
            }.Concat(tones.Select(t => pair.Losses.FirstOrDefault(l => l.ToneEv == t) is { } loss ? Figures.Fixed(loss.StopsLost, 2) : ""))
            .Append(Figures.Stops(pair.HighlightStopsKept)).ToArray()),
        ];
        foreach (IReadOnlyList<string> lines in TextColumns.Set(cells, page.Width))
            page.Lines(lines);
        if (!allPairs && pairs.Rest.Count > 0)
            page.Paragraph($"{Figures.Fixed(pairs.Rest.Count, 0)} more {(pairs.Rest.Count == 1 ? "pair" : "pairs")} with leafstop measure --all-pairs, in its --json and in its --report.");
    }

    private static void Limits(Page page, BenchAccount account)
    {
        if (account.Limits.Count == 0)
            return;
        page.Heading("Limits by the published print criterion, worked out");
        foreach (LimitWords limit in account.Limits)
        {
            page.Paragraph($"{limit.Heading}.");
            foreach (Statement line in limit.Lines)
                page.Item(line);
            page.Item(limit.Tags, "");
        }

        page.Paragraph("These are not judged: your own judging goes before them.");
    }

    /// <summary>Lines on a console, wrapped to its width.</summary>
    private sealed class Page(IAnsiConsole console)
    {
        public int Width { get; } = Math.Clamp(console.Profile.Width - 1, 40, Widest);

        public void Blank() => console.Write(new Text("\n"));

        public void Heading(string text)
        {
            Blank();
            Lines([text], Decoration.Bold);
        }

        public void Paragraph(string text, Decoration decoration = Decoration.None) => Lines(TextColumns.Wrap(text, Width), decoration);

        public void Paragraph(Statement statement) => Paragraph(Told(statement));

        public void Item(Statement statement) => Item(Told(statement), "");

        public void Item(string text, string names) =>
            Lines(TextColumns.Wrap($"- {OneLine.Of(text)}{(names.Length > 0 ? $" [{names}]" : "")}", Width, 2));

        public void Lines(IEnumerable<string> lines, Decoration decoration = Decoration.None)
        {
            foreach (string line in lines)
                console.Write(new Text(Plain(line) + "\n", new Style(decoration: decoration)));
        }

        private static string Told(Statement statement) => statement.Known is { } known ? $"{statement.Text} ({Statement.Word(known).Replace(' ', Figures.NoBreak)})" : statement.Text;
    }
}
