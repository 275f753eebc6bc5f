using Leafstop.Core.Card;
using PdfSharp.Drawing;
using PdfSharp.Pdf;

namespace Leafstop.Cli.Paper.Card;

/// <summary>Draws a pocket card: two pages, its front and its back, each of the size of the card.</summary>
internal static class CardDocument
{
    /// <summary>Length of the line that shows whether the page was printed at its own size, millimetres: as long as a bank card has room for.</summary>
    public const double MeasuringLineMm = 50;

    /// <summary>Cautions, once, one line each; local rules come first.</summary>
    public const string Cautions = "*Feet first, then frame:* the tripod is no handrail. Water cloudier or louder: leave. Gusts bring branches down. Local rules and rangers come first.";

    /// <summary>The same where there is less room.</summary>
    public const string ShortCautions = "*Feet* *first,* then frame. Louder water: leave. Branches fall in gusts. Local rules first.";

    /// <summary>Makes the file.</summary>
    /// <param name="card">What stands on it.</param>
    /// <param name="sheet"><see cref="PaperSheet.A6"/> or <see cref="PaperSheet.Wallet"/>.</param>
    /// <returns>A PDF of two pages.</returns>
    public static byte[] Make(PocketCard card, PaperSheet sheet)
    {
        using var document = new PdfDocument();
        document.Info.Title = $"Pocket card of {card.Text.Name}";
        document.ViewerPreferences.FitWindow = false;
        // Printing dialogues that heed it start at 100 %.
        document.ViewerPreferences.Elements.SetName("/PrintScaling", "/None");
        Action<CardPen, PocketCard>[] sides = sheet == PaperSheet.A6 ? [CardOfA6.Front, CardOfA6.Back] : [CardForWallet.Front, CardForWallet.Back];
        foreach (Action<CardPen, PocketCard> side in sides)
        {
            PdfPage page = document.AddPage();
            (page.Width, page.Height) = (XUnit.FromMillimeter(sheet.WidthMm), XUnit.FromMillimeter(sheet.HeightMm));
            using PaperPen pen = new(XGraphics.FromPdfPage(page));
            side(new CardPen(pen), card);
        }
        using var file = new MemoryStream();
        document.Save(file);
        return file.ToArray();
    }
}
