using Leafstop.Core.Card;
using Leafstop.Core.Exposure;

namespace Leafstop.Cli.Paper.Card;

/// <summary>A card of A6: the ladder and what to give up on its front, tables and code on its back.</summary>
internal static class CardOfA6
{
    /// <summary>Lenses that its tables have room for.</summary>
    public const int MostLenses = 4;

    /// <summary>Side of the code without its quiet zone.</summary>
    public const double CodeMm = 40;

    private const double Left = 5, Right = 100, Bottom = 143, Body = 10, Line = 4.3, NoteLine = 4.7, Row = 5.1, HeadPoints = 11;

    /// <summary>The front.</summary>
    public static void Front(CardPen pen, PocketCard card)
    {
        string limits = CardWordings.Limits(card);
        pen.Title(card.Text.Name, limits, 15, 12, Left, 10, Right - Left);
        pen.Text($"Holds for a print {CardWordings.Print(card)}.", 10.5, Left, 15.4);
        pen.Text(CardWordings.Whose(card), 10.5, Left, 20, strong: false);
        double head = 22.6;
        if (CardWordings.OffLadder(card, card.Ladder) is { } off)
        {
            head += 4.6;
            pen.Text(off, 10.5, Left, 24.6);
        }
        pen.Page.Rule(Left, head, Right, head, 2);
        CardLadder.Draw(pen, card, Left, head + 3.8, Bottom);

        const double Column = 53, Width = Right - Column;
        pen.Text("Too far? Give up (stops):", HeadPoints, Column, head + 6.2, strong: true);
        double y = head + 8.4;
        foreach (CardGiveUp row in card.GiveUp)
        {
            string[] words = pen.Width(row.Words, Body) < Width - 15 ? [row.Words] : [.. row.Words.Split(", ").Select((w, i) => i == 0 ? w + "," : w)];
            pen.TextEndingAt(CardWordings.Stops(row), Body, Right, y + 3.7, strong: true);
            foreach (string part in words)
            {
                pen.Text(part, Body, Column, y + 3.7);
                y += Line;
            }
            y += Row - Line;
            pen.Page.Rule(Column, y, Right, y, CardPen.Hairline);
        }

        y += 5.2;
        foreach (string note in Notes(card))
            y = pen.Paragraph(note, Body, Column, y, Width, NoteLine) + 1;
    }

    /// <summary>The back.</summary>
    public static void Back(CardPen pen, PocketCard card)
    {
        const double Half = 45, Second = Right - Half;
        CardWish wish = card.Wish;
        string[] distances = [.. wish.Distances.Select(d => d.ToDisplay())];
        double[] columns = [6, 19, 32, Half];
        double water = Table(pen, Left, 5, $"Water: streak {Figures.Percent(wish.Taste.ShareOfWidth)}", [["mm", .. distances], .. card.Lenses.Select(l => (string[])[Mm(l), .. l.Water.Select(CardWordings.Shutter)])], columns);
        Table(pen, Second, 5, "Leaves: hold at", [["mm", .. distances], .. card.Lenses.Select(l => (string[])[Mm(l), .. l.Leaves.Select(CardWordings.Shutter)])], columns);
        pen.Text($"of the width, at {wish.Water.ToDisplay()} across", Body, Left, water + 4.2);
        pen.Text($"swing ±{wish.Leaf.Amplitude.ToDisplay()}, {Figures.Fixed(wish.Leaf.FrequencyHertz, 0)} a second", Body, Second, water + 4.2);

        double next = water + 7.4;
        double depth = Table(pen, Left, next, "Hyperfocal, metres", [["mm", .. wish.Apertures.Select(a => a.ToDisplay())], .. card.Lenses.Select(l => (string[])[Mm(l), .. l.Hyperfocal.Select(h => CardWordings.Metres(h.Metres))])], columns);
        pen.Text($"circle of confusion {CardWordings.Circle(card.CircleOfConfusion)}", Body, Left, depth + 4.2);
        Table(pen, Second, next, "Frames for 95 %", [["kept so far", "take"], .. card.Odds.Select(o => (string[])[$"1 in {o.OneIn}", Figures.Fixed(o.Frames, 0)])], [Half]);

        double y = Math.Max(depth + 4.2, next + 4.8 + 5 * Row) + 5.6;
        y = pen.Paragraph($"*Screen* *zoom* *{CardWordings.Zoom(card.Zoom)}* is your print. On your camera: ____ clicks.", Body, Left, y, Right - Left, Line) + 1.2;
        double at = pen.Text("Before leaving", Body, Left, y, strong: true) + 3;
        foreach (string tick in (string[])["water", "leaves", "foam", "near", "far"])
        {
            foreach ((double x1, double y1, double x2, double y2) in (ReadOnlySpan<(double, double, double, double)>)[(0, 0, 3, 0), (3, 0, 3, 3), (3, 3, 0, 3), (0, 3, 0, 0)])
                pen.Page.Rule(at + x1, y - 2.8 + y1, at + x2, y - 2.8 + y2, 0.8);
            at = pen.Text(tick, Body, at + 4, y) + 2.1;
        }
        y += 2.6;
        pen.Page.Rule(Left, y, Right, y, 2);

        var code = CardCode.Of(card.Text.ToString(), CodeMm);
        double side = Math.Min(CodeMm, Bottom - y - 2), quiet = CardCode.QuietModules * side / code.Side;
        code.Draw(pen.Page, Right - side, Bottom - side, side);
        double width = Right - Left - side - quiet - 1;
        y = pen.Paragraph(CardDocument.Cautions, Body, Left, y + 5, width, Line) + 0.8;
        pen.Paragraph($"Rule of thumb: lull, polariser, noise reduction, foam, leaf speed. Other tables: worked out. Made {CardWordings.ShortDay(card.Text.MadeOn).Replace(' ', Figures.NoBreak)}.", Body, Left, y, width, Line);
        pen.Text($"This line is {PaperPen.Mm(CardDocument.MeasuringLineMm)} long.", Body, Left, Bottom - 3);
        pen.MeasuringLine(Left, Bottom - 1, CardDocument.MeasuringLineMm);
    }

    private static IEnumerable<string> Notes(PocketCard card)
    {
        if (card.Text is { CleanRange: { } clean, StretchRange: { } stretch } && card.Limits!.Shifts.IsEmpty)
            yield return $"*Judged* clean {Figures.Dial(clean.Low)} to {Figures.Dial(clean.High)}, stretch {Figures.Dial(stretch.Low)} to {Figures.Dial(stretch.High)} (95 %).";
        yield return "*Filter* *on* when metered: already counted.";
        yield return $"*Lift* costs stop for stop in the shadows. *Crop* to ⅔ of the width costs {CardWordings.Stops(card.CropCosts)}.";
        yield return $"*Foam* sits {CardWordings.Stops(PocketCard.FoamOverMidGrey.Least)} to {CardWordings.Stops(PocketCard.FoamOverMidGrey.Most)} over mid-grey; raw clips at {CardWordings.Stops(HighlightRoom.ClipOverMidGrey.NearestThird())}.";
        // What lies under base is dialled no more.
        foreach (CardStep step in card.Text.Steps.Where(s => s.Above > card.Text.BaseIso).Take(1))
            yield return $"*Step* between {Figures.Speed(step.Below)} and {Figures.Speed(step.Above)}: in the same light dial {Figures.Speed(step.Above)} and lift the rest.";
    }

    private static double Table(CardPen pen, double left, double top, string head, IReadOnlyList<string[]> rows, double[] columns)
    {
        pen.Text(head, HeadPoints, left, top + 3.8, strong: true);
        return pen.Table(rows, Body, left, top + 4.8, columns.Length > 1 ? columns : [columns[0], columns[0]], Row, hasHead: true);
    }

    private static string Mm(CardLens lens) => Figures.Fixed(lens.FocalLength.Millimetres, lens.FocalLength.Millimetres % 1 == 0 ? 0 : 1);
}
