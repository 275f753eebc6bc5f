using Leafstop.Core.Card;
using Leafstop.Core.Quantities;

namespace Leafstop.Cli.Paper.Card;

/// <summary>The ladder of a card, standing: more light missing, higher. One rule is the clean limit, two are the stretch limit, broken where they were worked out; between and past
/// them the paper shows grain, as a print would.</summary>
internal static class CardLadder
{
    private const double Points = 10.5, GapMm = 9, AxisMm = 11.6, IsoMm = 22, WidthMm = 44, TextHalfMm = 1.3, ClearMm = 0.9;

    // Between the axis and the longest figure.
    private const double BesideAxisMm = 1.6;

    // Spacing of the grain past clean and past stretch, and the size of its dots.
    private const double SparseMm = 3, DenseMm = 1.7, DotMm = 0.5;

    /// <summary>Draws it.</summary>
    public static void Draw(CardPen pen, PocketCard card, double leftMm, double topMm, double bottomMm)
    {
        double third = (bottomMm - topMm - 2 * TextHalfMm) / (card.Ladder.Length - 1), zero = bottomMm - TextHalfMm;
        double At(Stops gap) => zero - gap.Value * 3 * third;
        // On a long ladder a figure moved off its rule would stand on the next one: it stays, and the rule leaves room for it.
        bool isTight = third < 4.3 * TextHalfMm;
        List<(double From, double To, double At)> figures = [];
        double axis = leftMm + AxisMm, right = leftMm + WidthMm;
        // Long figures move away from the axis, so that it stays whole.
        double isos = Math.Max(leftMm + IsoMm, axis + BesideAxisMm + card.Ladder.Max(r => pen.Width(Figures.Dial(r.Dial), Points, r.IsWhole)));
        double? clean = Place(card.Limits?.Clean), stretch = Place(card.Limits?.Stretch);
        // Where even base ISO lies past the clean limit, so does the whole ladder.
        bool isPastClean = card.Limits?.Clean is { } low && low < card.Text.BaseIso;
        if ((clean ?? (isPastClean ? bottomMm : null)) is { } from)
            Grain(pen, axis + 1.5, right, stretch ?? topMm, from, SparseMm);
        if (stretch is { } past)
            Grain(pen, axis + 1.5, right, topMm, past, DenseMm);

        pen.Page.Rule(axis, topMm, axis, bottomMm, 1.8);
        foreach (CardRung rung in card.Ladder)
        {
            double y = At(rung.Gap), text = y;
            // The rules of a limit reach over the axis and are its tick.
            if (!new[] { clean, stretch }.Any(limit => limit is { } at && Math.Abs(at - y) < 0.5))
                pen.Page.Rule(axis - (rung.IsWhole ? 2 : 1.1), y, axis, y, rung.IsWhole ? 1.4 : 0.8);
            pen.TextEndingAt(CardWordings.Stops(rung.Gap), Points, leftMm + GapMm, y + TextHalfMm, rung.IsWhole);
            foreach (double limit in new[] { clean, stretch }.OfType<double>())
            {
                // A figure on a rule stands on it; one that lies under it hangs under it.
                if (!isTight && Math.Abs(y - limit) < TextHalfMm + ClearMm)
                    text = y > limit + 0.05 ? limit + ClearMm + TextHalfMm : limit - ClearMm - TextHalfMm;
            }
            string iso = Figures.Dial(rung.Dial);
            double width = pen.Width(iso, Points, rung.IsWhole);
            pen.Page.Blank(isos - width - 0.5, text - TextHalfMm - 0.3, width + 1, 2 * TextHalfMm + 0.6);
            pen.TextEndingAt(iso, Points, isos, text + TextHalfMm, rung.IsWhole);
            figures.Add((isos - width - 0.7, isos + 0.7, y));
        }

        // No limit: as far as was measured, and nothing is known above it.
        if (Place(card.MeasuredTo) is { } end)
        {
            pen.Page.BrokenRule(isos + 1, right, end, 0.8);
            pen.TextEndingAt("measured", 10, right, end + ClearMm + 0.3 + 2 * TextHalfMm);
        }
        bool isOne = clean is { } c && stretch is { } s && Math.Abs(c - s) < 2 * TextHalfMm + ClearMm;
        if (!(isOne && Math.Abs(clean!.Value - stretch!.Value) < 1))
            Rules(clean, [(0, 3)]);
        Rules(stretch, [(-0.65, 1.4), (0.65, 1.4)]);
        // Limits close together: one label above, the other below.
        Label("clean", clean, card.Limits?.CleanDial, 0.2, isBelow: isOne);
        Label("stretch", stretch, card.Limits?.StretchDial, 0.5, isBelow: false);

        double? Place(Iso? limit)
        {
            if (limit is null)
                return null;
            // Past the last rung by less than a third, a limit is dialled as that rung.
            Stops gap = limit.Above(card.Text.BaseIso), top = card.Ladder[^1].Gap;
            return CardWordings.ThirdOf(card, limit) is { } dialled && dialled >= 0 && dialled < card.Ladder.Length ? At(gap < top ? gap : top) : null;
        }

        void Rules(double? place, (double Offset, double Thickness)[] rules)
        {
            if (place is not { } y)
                return;
            double from = axis - 2;
            foreach ((double left, double last, _) in figures.Where(f => isTight && Math.Abs(f.At - y) < TextHalfMm + ClearMm).Append((right, right, y)))
            {
                foreach ((double offset, double thickness) in rules.Where(_ => left > from))
                {
                    if (CardWordings.AreOwn(card.Limits!))
                        pen.Page.Rule(from, y + offset, left, y + offset, thickness);
                    else
                        pen.Page.BrokenRule(from, left, y + offset, thickness);
                }
                from = Math.Max(from, last);
            }
        }

        void Label(string word, double? place, Iso? dial, double halfRuleMm, bool isBelow)
        {
            if (place is not { } y)
                return;
            // The figure of a rung that stands on the rule says the ISO already.
            string label = $"{word} {Figures.Dial(dial!)}";
            if ((card.Ladder.Any(r => Math.Abs(At(r.Gap) - y) < 0.05) && !isBelow) || pen.Width(label, 10, strong: true) > right - isos - 1)
                label = word;
            double width = pen.Width(label, 10, strong: true), baseline = isBelow ? y + ClearMm + 0.5 + 2 * TextHalfMm : y - ClearMm - halfRuleMm;
            pen.Page.Blank(right - width - 0.8, baseline - 2 * TextHalfMm - 0.2, width + 0.8, 2 * TextHalfMm + (isBelow ? 0.9 : 0.5));
            pen.TextEndingAt(label, 10, right, baseline, strong: true);
        }
    }

    /// <summary>Dots in a loose grid, always the same ones.</summary>
    private static void Grain(CardPen pen, double leftMm, double rightMm, double topMm, double bottomMm, double stepMm)
    {
        uint state = 0x9E3779B9;
        for (double y = bottomMm - stepMm / 2; y > topMm + DotMm; y -= stepMm)
        {
            for (double x = leftMm + stepMm / 2; x < rightMm; x += stepMm)
            {
                double atX = x + Shaken(), atY = y + Shaken();
                if (atX < rightMm - DotMm && atY > topMm + DotMm && atY < bottomMm - DotMm)
                    pen.Page.Dot(atX, atY, DotMm);
            }
        }

        // Up to 0.4 of a step either way: the low bits of a linear congruence carry no order that is seen.
        double Shaken()
        {
            state = unchecked(state * 1664525 + 1013904223);
            return ((state >> 16) / 65536.0 - 0.5) * 0.8 * stepMm;
        }
    }
}
