using Leafstop.Core.Card;

namespace Leafstop.Cli.Paper.Card;

/// <summary>A card of the size of a bank card: the ladder as a table of whole stops and thirds and what to give up on its front, lenses and code on its back.</summary>
internal static class CardForWallet
{
    /// <summary>Lenses that its table has room for.</summary>
    public const int MostLenses = 3;

    /// <summary>Side of the code without its quiet zone, which may lie in the margin.</summary>
    public const double CodeMm = 25.6;

    private const double Left = 3.2, Right = 82.4, Points = 10, Line = 4.15, BackLine = 3.85, Heads = 15.5;

    // The rows that leave a line free under the ladder; ISOs of seven figures, which nobody dials, have no room beside each other.
    private const int MostRowsOverSentence = 8, TooLong = 1_000_000;

    /// <summary>The front.</summary>
    public static void Front(CardPen pen, PocketCard card)
    {
        pen.Title(card.Text.Name, CardWordings.Limits(card), 12, 10, Left, 5.9, Right - Left);
        string made = CardWordings.ShortDay(card.Text.MadeOn);
        pen.TextEndingAt(made, Points, Right, 10);
        pen.Text(pen.Cut($"Print {CardWordings.Print(card)}", Points, Right - Left - pen.Width(made, Points) - 2), Points, Left, 10);
        pen.Page.Rule(Left, 11.4, Right, 11.4, 1.6);
        (double column, double lowest) = Ladder(pen, card);

        double y = Heads, pitch = Math.Min(Line, (lowest - Heads) / Math.Max(1, card.GiveUp.Length));
        pen.Text("Give up (stops)", Points, column, y, strong: true);
        foreach (CardGiveUp row in card.GiveUp)
        {
            y += pitch;
            string stops = CardWordings.Stops(row);
            pen.Text(pen.Cut(row.FewWords, Points, Right - column - pen.Width(stops, Points, strong: true) - 0.8), Points, column, y);
            pen.TextEndingAt(stops, Points, Right, y, strong: true);
        }
        pen.Text(CardWordings.WhoseInShort(card), Points, Left, 51.2);
    }

    /// <summary>The back.</summary>
    public static void Back(CardPen pen, PocketCard card)
    {
        CardWish wish = card.Wish;
        int middle = wish.Distances.Length / 2;
        // Hyperfocal at each aperture, water at each distance, leaves at the one in the middle.
        double[] columns = [Left + 16.5, Left + 26, Left + 35.5, Left + 45.5, Left + 55.3, Left + 65.1, Right];
        string[] heads = [.. wish.Apertures.Select(a => a.ToDisplay()), .. wish.Distances.Select(d => d.ToDisplay()), wish.Distances[middle].ToDisplay()];
        const double Above = 5.2, Below = 9.2, First = 10.4, Row = 4.25, Lens = 3.4;
        pen.Text("mm", Points, Left, Below);
        // "c" is the circle of confusion, millimetres: without it a hyperfocal distance says nothing.
        pen.TextEndingAt($"hyperfocal m, c {Figures.Fixed(card.CircleOfConfusion.Millimetres, 3)}", Points, columns[2], Above);
        pen.TextEndingAt($"water {Figures.Percent(wish.Taste.ShareOfWidth)}", Points, columns[5], Above);
        pen.TextEndingAt("leaves", Points, columns[6], Above);
        for (int c = 0; c < heads.Length; c++)
            pen.TextEndingAt(heads[c], Points, columns[c], Below);
        double y = First;
        pen.Page.Rule(Left, y, Right, y, 0.8);
        foreach (CardLens lens in card.Lenses)
        {
            pen.Text(Figures.Fixed(lens.FocalLength.Millimetres, lens.FocalLength.Millimetres % 1 == 0 ? 0 : 1), Points, Left, y + Lens);
            string[] cells = [.. lens.Hyperfocal.Select(h => CardWordings.Metres(h.Metres)), .. lens.Water.Select(CardWordings.Shutter), CardWordings.Shutter(lens.Leaves[middle])];
            for (int c = 0; c < cells.Length; c++)
                pen.TextEndingAt(cells[c], Points, columns[c], y + Lens, strong: true);
            y += Row;
            pen.Page.Rule(Left, y, Right, y, lens == card.Lenses[^1] ? 0.8 : CardPen.Hairline);
        }

        var code = CardCode.Of(card.Text.ToString(), CodeMm);
        double top = 26.6, quiet = CardCode.QuietModules * CodeMm / code.Side;
        code.Draw(pen.Page, Left, top, CodeMm);
        double text = Left + CodeMm + quiet + 0.8;
        // Under the table, which ends where the three lenses do.
        y = First + MostLenses * Row + 4.3;
        pen.Text("95 %, kept 1 in", Points, text, y, strong: true);
        pen.Text("take", Points, text, y + BackLine);
        for (int o = 0; o < card.Odds.Length; o++)
        {
            double right = Right - (card.Odds.Length - 1 - o) * 6.2;
            pen.TextEndingAt(Figures.Fixed(card.Odds[o].OneIn, 0), Points, right, y);
            pen.TextEndingAt(Figures.Fixed(card.Odds[o].Frames, 0), Points, right, y + BackLine, strong: true);
        }
        y = pen.Paragraph($"*Zoom* *{CardWordings.Zoom(card.Zoom)}* is the print: __{Figures.NoBreak}clicks", Points, text, y + 2 * BackLine, Right - text, BackLine);
        y = pen.Paragraph(CardDocument.ShortCautions, Points, text, y, Right - text, BackLine);
        pen.Text($"This line is {PaperPen.Mm(CardDocument.MeasuringLineMm)}.", Points, text, 50.7);
        pen.MeasuringLine(Right - CardDocument.MeasuringLineMm, 52, CardDocument.MeasuringLineMm);
    }

    /// <summary>The ladder as a table, a stop in a row.</summary>
    /// <returns>Where the column beside it begins, and the lowest line that it has to itself.</returns>
    private static (double Column, double Lowest) Ladder(CardPen pen, PocketCard card)
    {
        const double Last = 47.3, ForSentence = 4, GapMm = 3.4, Beside = 47;
        CardRung[] shown = [.. card.Ladder.Where(r => r.Dial.Speed < TooLong)];
        // Nine rows leave no line under them for the sentence that says where a limit lies beyond.
        if (CardWordings.IsBeyond(card, shown.Length))
            shown = [.. shown.Take(3 * MostRowsOverSentence)];
        int rows = (shown.Length + 2) / 3;
        // Few rows leave the fractions of the head room over the rule, and the first row under it.
        bool isRoomy = rows <= 6;
        double rule = Heads + (isRoomy ? 1.5 : 1.2), first = Heads + (isRoomy ? 5 : 4.3);
        string? off = CardWordings.OffLadder(card, shown);
        bool isBeside = rows > MostRowsOverSentence;
        double pitch = rows > 1 ? Math.Min(5.4, (Last - (off is null || isBeside ? 0 : ForSentence) - first) / (rows - 1)) : 0;
        // Figures must not be taken for parts of one number.
        double width = Math.Max(12.4, shown.Max(r => pen.Width(Figures.Dial(r.Dial), Points, r.IsWhole)) + 1), end = Left + GapMm + 3 * width, column = Math.Max(Beside, end + 1.9);
        string[] heads = ["0", "⅓", "⅔"];
        pen.Text("under", Points, Left, Heads);
        for (int c = 0; c < heads.Length; c++)
            pen.TextEndingAt("+" + heads[c], Points, Left + GapMm + (c + 1) * width, Heads);
        pen.Page.Rule(Left, rule, end, rule, 0.8);
        for (int i = 0; i < shown.Length; i++)
        {
            CardRung rung = shown[i];
            double y = first + i / 3 * pitch, right = Left + GapMm + (i % 3 + 1) * width;
            string iso = Figures.Dial(rung.Dial);
            if (rung.IsWhole)
                pen.Text(CardWordings.Stops(rung.Gap), Points, Left, y, strong: true);
            pen.TextEndingAt(iso, Points, right, y, rung.IsWhole);
            double from = right - pen.Width(iso, Points, rung.IsWhole) - 0.4;
            // Close under their figure: the next row is not far. Broken where they were worked out, as on the ladder.
            if (CardWordings.ThirdOf(card, card.Limits?.Stretch) == i)
            {
                Mark(0.35, 0.7);
                Mark(0.8, 0.7);
            }
            else if (CardWordings.ThirdOf(card, card.Limits?.Clean) == i)
                Mark(0.55, 1.6);

            void Mark(double below, double thickness)
            {
                if (CardWordings.AreOwn(card.Limits!))
                    pen.Page.Rule(from, y + below, right + 0.4, y + below, thickness);
                else
                    pen.Page.BrokenRule(from, right + 0.4, y + below, thickness);
            }
        }
        // Of nine rows only the clean limit can be missing, and only under base: beyond, they are eight.
        if (off is not null)
            pen.Text(isBeside ? "Clean is under base." : Fitting(off), Points, isBeside ? column : Left, Last);
        // Where the whole sentence has no room, what is said of the limits alone.
        string Fitting(string sentence) => pen.Width(sentence, Points) <= Right - Left ? sentence : Capital(sentence[(sentence.IndexOf(": ", StringComparison.Ordinal) + 2)..]);

        static string Capital(string words) => char.ToUpperInvariant(words[0]) + words[1..];

        return (column, off is null || isBeside ? Last : Last - ForSentence);
    }
}
