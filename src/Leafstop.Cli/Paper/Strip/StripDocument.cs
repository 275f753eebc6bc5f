using System.Collections.Immutable;
using Leafstop.Core.Judging;
using Leafstop.Core.Viewing;
using Leafstop.Raw.Crops;
using Leafstop.Raw.Developed;
using PdfSharp.Drawing;
using PdfSharp.Pdf;

namespace Leafstop.Cli.Paper.Strip;

/// <summary>Draws a test strip: one page of crops behind letters, at the scale of the print that is meant, and the key on the page after it.</summary>
internal static class StripDocument
{
    /// <summary>Length of the line that shows whether the page was printed at its own size, millimetres.</summary>
    public const double MeasuringLineMm = 100;

    /// <summary>Makes the file.</summary>
    /// <param name="content">What it shows.</param>
    /// <param name="layout">Where the crops lie.</param>
    /// <returns>A PDF of two pages.</returns>
    public static byte[] Make(StripContent content, StripLayout layout)
    {
        using var document = new PdfDocument();
        document.Info.Title = $"Test strip {content.Number}";
        document.ViewerPreferences.FitWindow = false;
        // Printing dialogues that heed it start at 100 %.
        document.ViewerPreferences.Elements.SetName("/PrintScaling", "/None");
        using (PaperPen pen = NewPage(document, layout.Sheet)) Crops(pen, content, layout);
        double line;
        using (PaperPen pen = NewPage(document, layout.Sheet)) line = Key(pen, content, layout.Sheet);
        if (TableMm(content) is > 0 and var high)
        {
            // Beneath the key where it has room, else on a sheet of its own.
            bool isBeneath = line + high <= layout.Sheet.HeightMm - PaperSheet.MarginMm;
            using PaperPen pen = isBeneath ? new PaperPen(XGraphics.FromPdfPage(document.Pages[^1])) : NewPage(document, layout.Sheet);
            Measured(pen, content, layout.Sheet, isBeneath ? line + 6 : PaperSheet.MarginMm + 6);
        }
        using var file = new MemoryStream();
        document.Save(file);
        return file.ToArray();
    }

    private const double RowMm = 5, CaptionMm = 24;

    private static readonly ImmutableArray<double> TableColumnsMm = [0, 16, 38, 68, 98, 128, 158];

    private static PaperPen NewPage(PdfDocument document, PaperSheet sheet)
    {
        PdfPage page = document.AddPage();
        (page.Width, page.Height) = (XUnit.FromMillimeter(sheet.WidthMm), XUnit.FromMillimeter(sheet.HeightMm));
        return new PaperPen(XGraphics.FromPdfPage(page));
    }

    private static void Crops(PaperPen pen, StripContent content, StripLayout layout)
    {
        double left = PaperSheet.MarginMm, right = layout.Sheet.WidthMm - PaperSheet.MarginMm, width = layout.Sheet.InnerWidthMm;
        string print = Figures.Length(content.Tags.Print.WidthMm), distance = Figures.Length(content.Tags.Print.ViewingDistanceMm);
        pen.Text("Judge these before you turn the page.", PaperType.Book(21), left, left + 6);
        double line = left + 15;
        line = pen.Paragraph($"Each picture is as large as it would be in a print {print} wide. Hang the sheet where that print will hang, in its light, and look from {distance}, "
            + $"with the glasses you would wear. The worst of the three pictures counts. {(content.LiftWords is { } lift ? $"{lift} " : "")}Write one word to each letter, in any order, without going back:", PaperType.Book(11), left, line, width);
        line = Answer(pen, "clean", "the noise does not disturb you.", left, line + 1);
        line = Answer(pen, "bearable", "it disturbs you, and you would still put your name to this print.", left, line);
        line = Answer(pen, "no", "you would not. And unsure is an answer too.", left, line);

        double measuring = line + 3;
        pen.Rule(left, measuring, left + MeasuringLineMm, measuring, 1);
        foreach (double end in (double[])[left, left + MeasuringLineMm]) pen.Rule(end, measuring - 2, end, measuring + 2, 1);
        pen.Paragraph($"This line is {PaperPen.Mm(MeasuringLineMm)} long. If not, print again at 100 %.", PaperType.Book(10), left + MeasuringLineMm + 4, measuring - 0.5, width - MeasuringLineMm - 4);

        double side = content.SideMm;
        for (int entry = 0; entry < content.Codes.Codes.Length; entry++)
        {
            CodedLevel code = content.Codes.Codes[entry];
            var (x, y) = layout.Place(entry, side);
            pen.Text(code.Letter, PaperType.Strong(18), x, y + side / 2 + 2.3);
            for (int s = 0; s < StripContent.Subjects.Length; s++)
            {
                double at = x + StripLayout.CropMm(s, side);
                if (y == layout.Place(0, side).TopMm) pen.TextAround(StripContent.Subjects[s].Head, PaperType.Book(10), at + side / 2, y - 2);
                if (content.Picture(code, StripContent.Subjects[s].Subject) is { } picture) pen.Picture(picture, at, y, side);
            }
        }

        double foot = layout.Sheet.HeightMm - PaperSheet.MarginMm;
        pen.Text($"Strip {content.Number}", PaperType.Strong(11), left, foot);
        pen.TextEndingAt($"leafstop judge --strip {content.Number} --paper \"A clean, B no, …\"", PaperType.Book(10), right, foot);
    }

    private static double Answer(PaperPen pen, string word, string meaning, double left, double line)
    {
        const double Indent = 20;
        pen.Text(word, PaperType.Hand(12), left, line);
        pen.Text(meaning, PaperType.Book(11), left + Indent, line);
        return line + 5.6;
    }

    private static double Key(PaperPen pen, StripContent content, PaperSheet sheet)
    {
        double left = PaperSheet.MarginMm, width = sheet.InnerWidthMm;
        pen.Text("The key. Look only when all is written.", PaperType.Book(21), left, left + 6);
        double line = pen.Paragraph(
            $"Strip {content.Number}: {content.Tags.Body}; a print {Figures.Length(content.Tags.Print.WidthMm)} wide, {Figures.Fixed(content.PixelsPerCentimetre, 1)} pixels on a centimetre, "
            + $"seen from {Figures.Length(content.Tags.Print.ViewingDistanceMm)}; no noise reduction, no sharpening. {content.LiftWords}",
            PaperType.Book(11), left, left + 15, width);

        // The letters in columns of twelve, so that any strip's key stays in sight.
        const int Deep = 12;
        double top = line + 6, columnMm = width / 2;
        foreach (var (code, i) in content.Codes.Codes.Select((c, i) => (c, i)))
        {
            double x = left + i / Deep * columnMm, y = top + i % Deep * 7;
            pen.Text(code.Letter, PaperType.Strong(13), x, y);
            pen.Text(Meaning(content, code), PaperType.Book(11), x + 9, y);
        }

        line = top + Math.Min(Deep, content.Codes.Codes.Length) * 7 + 2;
        pen.Rule(left, line - 5, left + width, line - 5);
        foreach (string note in content.Notes.Prepend($"Places, from the left and the top edge of the frame: {content.PlaceWords}. To move one, make another strip with --dark, --mid or --texture.").Append("The blank check is the cleanest there is: whoever refuses it refuses something other than noise.")
                     .Append("Your printer adds grain of its own, the same to every letter: if even the cleanest is not clean, it is the printer, the paper or a picture too large for its pixels.")
                     .Append("Banding and blotches are not grain: if stripes are what disturbs you, write it down beside the letter; a smaller print does not take them away."))
            line = pen.Paragraph(note, PaperType.Book(11), left, line, width) + 1.5;
        return pen.Paragraph($"Type the answers in: leafstop judge --strip {content.Number} --paper \"A clean, B no, …\"", PaperType.Book(11), left, line + 2, width);
    }

    private static double TableMm(StripContent content) => content.Corrections.IsEmpty ? 0 : CaptionMm + (content.Corrections.Length + 2) * RowMm;

    /// <summary>Brightness and visible noise by ISO: what belongs to the judging and would spoil it beforehand.</summary>
    private static void Measured(PaperPen pen, StripContent content, PaperSheet sheet, double top)
    {
        double left = PaperSheet.MarginMm;
        double line = pen.Paragraph(
            "What was measured. Brightened: by how many stops, so that all levels are as bright as one another. Noise: the standard deviations of L*, a* and b* as they are seen in this print, "
            + "measured from the pair of each level and predicted from its sensor; stripes apart, as L*. A witness beside your eye, never the judge.",
            PaperType.Book(10), left, top, sheet.InnerWidthMm) + 2;
        Row(line, "ISO", "brightened", "mid tone", "predicted", "dark", "predicted", "stripes");
        foreach (BrightnessCorrection correction in content.Corrections)
        {
            line += RowMm;
            CropNoise? mid = Of(CropSubject.MidTone), dark = Of(CropSubject.Dark);
            Row(line, Figures.Dial(correction.Level.Iso), Figures.Fixed(correction.Stops, 2), Spread(mid?.Measured.Grain), Spread(mid?.Predicted), Spread(dark?.Measured.Grain), Spread(dark?.Predicted),
                mid?.Measured.Banding is not { } stripes ? "" : stripes.IsFound ? Figures.Fixed(Math.Max(stripes.Rows, stripes.Columns), 2) : "none");

            CropNoise? Of(CropSubject subject) => content.Noise.FirstOrDefault(n => n.Subject == subject && n.Level == correction.Level);
        }

        void Row(double at, params ReadOnlySpan<string> cells)
        {
            for (int i = 0; i < cells.Length; i++)
                pen.Text(cells[i], PaperType.Book(10), left + TableColumnsMm[i], at);
        }
    }

    private static string Spread(VisibleNoise? noise) => noise is null ? "" : $"{Short(noise.Lightness)}  {Short(noise.RedGreen)}  {Short(noise.YellowBlue)}";

    // Three figures and a column never meet the next one.
    private static string Short(double value) => Figures.Fixed(value, value < 9.995 ? 2 : 1);

    private static string Meaning(StripContent content, CodedLevel code) =>
        code.IsBlank ? $"ISO\u00a0{Figures.Dial(code.Shown.Iso)}, both frames mixed: the blank check"
        : content.Codes.Codes.Any(o => o != code && !o.IsBlank && o.Shown.Iso == code.Shown.Iso) ? $"ISO\u00a0{Figures.Dial(code.Shown.Iso)}, shown twice"
        : $"ISO\u00a0{Figures.Dial(code.Shown.Iso)}";
}
