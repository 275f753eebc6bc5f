using Leafstop.Core.Sensor;

namespace Leafstop.Look.Bench;

/// <summary>The level table of the report.</summary>
public static class LevelTable
{
    private static readonly (string Name, string Unit)[] Heads =
    [
        ("ISO", ""), ("Frames", ""), ("Gain", "e\u207B/DN"), ("Read noise", "e\u207B"), ("Clips at", "e\u207B"), ("Range", "stops"), ("S/N", $"at \u22123{Figures.NoBreak}EV"), (StanzaTable.RemarkHead, ""),
    ];

    /// <summary>Writes the section, one table a ladder.</summary>
    public static void Write(Markup page, BenchAccount account)
    {
        page.Open("section").Element("h2", "Level by level");
        foreach (IGrouping<LadderKind, LevelRow> group in account.Groups)
        {
            if (account.Groups.Count > 1)
                page.Element("h3", LevelWords.Ladder(group.Key), ("class", "group"));
            StanzaTable.Open(page, account.Groups.Count > 1 ? $"Level table, {LevelWords.Ladder(group.Key)}" : "Level table", "levels", Heads);
            foreach (LevelRow row in group)
                Row(page, row);
            page.Close().Close().Line();
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

    private static void Row(Markup page, LevelRow row)
    {
        StanzaTable.Row(page, row.Usable ? "on" : "off", "ISO ", row.Iso);
        Plain(1, row.Frames);
        Counted(2, row.Gain);
        StanzaTable.Cell(page, NameOf(3), row.ReadNoise.Length == 0, () =>
        {
            page.Element("span", row.ReadNoise, ("class", row.Usable ? "num" : "struck"));
            if (row.PlusMinus.Length > 0)
                page.Text(" ").Element("span", row.PlusMinus, ("class", "pm"));
        });
        Counted(4, row.ClipsAt);
        Plain(5, row.Range);
        Plain(6, row.SignalToNoise);
        page.Open("td", ("class", row.Remark.Length == 0 && row.Level.Reason is null ? "rem none" : "rem"), ("role", "cell"));
        if (row.Remark.StartsWith("step", StringComparison.Ordinal))
            page.Element("b", "step").Say(row.Remark["step".Length..]);
        else
            page.Say(row.Remark);
        if (row.Level.Reason is { } reason)
            page.Open("span", ("class", "why-off")).Say(reason).Close();
        page.Close().Close();

        void Counted(int column, string text) => StanzaTable.Cell(page, NameOf(column), text.Length == 0, () =>
        {
            if (row.Usable)
                page.Text(text);
            else
                page.Element("span", text, ("class", "struck"));
        });

        void Plain(int column, string text) => StanzaTable.Cell(page, NameOf(column), text.Length == 0, () => page.Text(text));
    }

    private static string NameOf(int column) => Heads[column].Unit.Length > 0 ? $"{Heads[column].Name} {Heads[column].Unit}" : Heads[column].Name;
}
