using Leafstop.Core.Card;
using Leafstop.Core.Quantities;

namespace Leafstop.Cli.Paper.Card;

/// <summary>A card of the size of a bank card: the ladder as a table of whole stops and thirds and what to give up on its front, lenses and code on its back.</summary>
internal static class CardForWallet
{
    /// <summary>Lenses that its table has room for.</summary>
    public const int MostLenses = 3;

    /// <summary>Side of the code without its quiet zone, which may lie in the margin.</summary>
    public const double CodeMm = 25.6;

    // More rows than eight would stand closer than their type is high.
    private const int MostRungs = 24;

    private const double Left = 3.2, Right = 82.4, Points = 10, Line = 4.15;

    /// <summary>The front.</summary>
    public static void Front(CardPen pen, PocketCard card)
    {
        string limits = CardWordings.Limits(card.Limits);
        double title = pen.Fitting($"{card.Text.Name}: {limits}", 12, 10, Right - Left, strong: true), room = Right - Left - pen.Width($": {limits}", title, strong: true);
        pen.Text($"{pen.Cut(card.Text.Name, title, room, strong: true)}: {limits}", title, Left, 6.6, strong: true);
        string made = CardWordings.ShortDay(card.Text.MadeOn);
        pen.TextEndingAt(made, Points, Right, 10.9);
        pen.Text(pen.Cut($"Print {CardWordings.Print(card)}", Points, Right - Left - pen.Width(made, Points) - 2), Points, Left, 10.9);
        pen.Page.Rule(Left, 12.4, Right, 12.4, 1.6);
        Ladder(pen, card);

        const double Column = 45;
        double y = 16.6;
        pen.Text("Give up (stops)", Points, Column, y, strong: true);
        foreach (CardGiveUp row in card.GiveUp)
        {
            y += Line;
            pen.Text(row.FewWords, Points, Column, y);
            pen.TextEndingAt(CardWordings.Stops(row), Points, Right, y, strong: true);
        }
        pen.Text(CardWordings.WhoseInShort(card), Points, Left, 51);
    }

    /// <summary>The back.</summary>
    public static void Back(CardPen pen, PocketCard card)
    {
        CardWish wish = card.Wish;
        int middle = wish.Distances.Length / 2;
        // Hyperfocal at each aperture, water at each distance, leaves at the one in the middle.
        double[] columns = [Left + 16.5, Left + 26, Left + 35.5, Left + 45.5, Left + 55.3, Left + 65.1, Right];
        string[] heads = [.. wish.Apertures.Select(a => a.ToDisplay()), .. wish.Distances.Select(d => d.ToDisplay()), wish.Distances[middle].ToDisplay()];
        pen.Text("mm", Points, Left, 10.6);
        pen.TextEndingAt("hyperfocal, m", Points, columns[2], 6.4);
        pen.TextEndingAt($"water {Figures.Percent(wish.Taste.ShareOfWidth)}", Points, columns[5], 6.4);
        pen.TextEndingAt("leaves", Points, columns[6], 6.4);
        for (int c = 0; c < heads.Length; c++)
            pen.TextEndingAt(heads[c], Points, columns[c], 10.6);
        double y = 12;
        pen.Page.Rule(Left, y, Right, y, 0.8);
        foreach (CardLens lens in card.Lenses)
        {
            pen.Text(Figures.Fixed(lens.FocalLength.Millimetres, lens.FocalLength.Millimetres % 1 == 0 ? 0 : 1), Points, Left, y + 3.5);
            string[] cells = [.. lens.Hyperfocal.Select(h => CardWordings.Metres(h.Metres)), .. lens.Water.Select(CardWordings.Shutter), CardWordings.Shutter(lens.Leaves[middle])];
            for (int c = 0; c < cells.Length; c++)
                pen.TextEndingAt(cells[c], Points, columns[c], y + 3.5, strong: true);
            y += 4.4;
            pen.Page.Rule(Left, y, Right, y, lens == card.Lenses[^1] ? 0.8 : CardPen.Hairline);
        }

        var code = CardCode.Of(card.Text.ToString(), CodeMm);
        double top = 26.6, quiet = CardCode.QuietModules * CodeMm / code.Side;
        code.Draw(pen.Page, Left, top, CodeMm);
        double text = Left + CodeMm + quiet + 0.8;
        y = top + 3.4;
        pen.Text("95 %, kept 1 in", Points, text, y, strong: true);
        pen.Text("take", Points, text, y + Line);
        for (int o = 0; o < card.Odds.Length; o++)
        {
            double right = Right - (card.Odds.Length - 1 - o) * 6.2;
            pen.TextEndingAt(Figures.Fixed(card.Odds[o].OneIn, 0), Points, right, y);
            pen.TextEndingAt(Figures.Fixed(card.Odds[o].Frames, 0), Points, right, y + Line, strong: true);
        }
        y = pen.Paragraph($"*Zoom* *{CardWordings.Zoom(card.Zoom)}* is the print: __{Figures.NoBreak}clicks", Points, text, y + 2 * Line, Right - text, Line);
        y = pen.Paragraph(CardDocument.ShortCautions, Points, text, y, Right - text, Line);
        pen.Text($"This line is {PaperPen.Mm(CardDocument.MeasuringLineMm)}.", Points, text, 50.5);
        pen.MeasuringLine(Right - CardDocument.MeasuringLineMm, 52, CardDocument.MeasuringLineMm);
    }

    private static void Ladder(CardPen pen, PocketCard card)
    {
        const double Top = 13.2, Foot = 47.6, GapMm = 4;
        int rungs = Math.Min(card.Ladder.Length, MostRungs), rows = (rungs + 2) / 3;
        double height = Math.Min(5.4, (Foot - Top - 3.9) / rows), width = 11.3;
        string[] heads = ["0", "⅓", "⅔"];
        pen.Text("under", Points, Left, Top + 3.4);
        for (int c = 0; c < heads.Length; c++)
            pen.TextEndingAt("+" + heads[c], Points, Left + GapMm + (c + 1) * width, Top + 3.4);
        pen.Page.Rule(Left, Top + 4.3, Left + GapMm + 3 * width, Top + 4.3, 0.8);
        for (int i = 0; i < rungs; i++)
        {
            CardRung rung = card.Ladder[i];
            double y = Top + 4.3 + (i / 3 + 1) * height - 1.3, right = Left + GapMm + (i % 3 + 1) * width;
            if (rung.IsWhole)
                pen.Text(CardWordings.Stops(rung.Gap), Points, Left, y, strong: true);
            pen.TextEndingAt(rung.Dial.ToDisplay(), Points, right, y, rung.IsWhole);
            double from = right - pen.Width(rung.Dial.ToDisplay(), Points, rung.IsWhole) - 0.4;
            if (Is(rung, card.Limits?.CleanDial))
                pen.Page.Rule(from, y + 0.75, right + 0.4, y + 0.75, 2.2);
            if (Is(rung, card.Limits?.StretchDial))
            {
                pen.Page.Rule(from, y + 0.55, right + 0.4, y + 0.55, 0.9);
                pen.Page.Rule(from, y + 1.15, right + 0.4, y + 1.15, 0.9);
            }
        }

        bool Is(CardRung rung, Iso? dial) => CardWordings.Rung(card, dial) is { } gap && Math.Abs(gap.Value - rung.Gap.Value) < 1e-6;
    }
}
