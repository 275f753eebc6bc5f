using Leafstop.Raw.Jpegs;

namespace Leafstop.Report;

/// <summary>The crops of a report: a row a place, ISO under each picture, straight on the page.</summary>
internal static class PictureSection
{
    /// <summary>Pictures that fit beside each other on the widest page.</summary>
    private const int MostAcross = 7;

    public static void Write(Markup page, IReadOnlyList<ReportPicture> pictures)
    {
        if (pictures.Count == 0)
            return;
        page.Open("section").Element("h2", "The crops that show it");
        if (pictures.Any(p => p.Row.Length > 0))
            page.Open("p").Say(CropWords.HowMade).Close();
        Rows(page, pictures);
        page.Close().Line();
    }

    /// <summary>JPEGs side by side, or why there is nothing to put side by side.</summary>
    public static void Write(Markup page, JpegComparison jpegs)
    {
        if (jpegs.Pictures.Count == 0 && jpegs.Why is null)
            return;
        page.Open("section").Element("h2", "To look at, not to measure");
        page.Open("p").Say(jpegs.Why ?? JpegWords.HowMade).Close();
        Rows(page, JpegWords.Of(jpegs));
        if (JpegWords.LeftOut(jpegs) is { Count: > 0 } leftOut)
        {
            page.Open("div", ("class", "crop-row")).Element("h3", "Not shown", ("class", "group")).Open("ul", ("class", "sources"));
            foreach (string line in leftOut)
                page.Open("li").Say(line).Close();
            page.Close().Close();
        }

        page.Close().Line();
    }

    private static void Rows(Markup page, IReadOnlyList<ReportPicture> pictures)
    {
        foreach (IGrouping<string, ReportPicture> row in pictures.GroupBy(p => p.Row))
        {
            page.Open("div", ("class", "crop-row"));
            if (row.Key.Length > 0)
                page.Element("h3", row.Key, ("class", "group"));
            if (row.First().RowNote is { Length: > 0 } note)
                page.Open("p").Say(note).Close();
            page.Open("div", ("class", "crops"), ("style", $"--across:{Across(row.Count())}"));
            foreach (ReportPicture picture in row)
                Picture(page, picture);
            page.Close().Close();
        }
    }

    /// <summary>Lines of about equal length: ten pictures lie five and five, not seven and three.</summary>
    private static int Across(int pictures)
    {
        int lines = (pictures + MostAcross - 1) / MostAcross;
        return (pictures + lines - 1) / lines;
    }

    private static void Picture(Markup page, ReportPicture picture)
    {
        string source = "data:image/png;base64," + Convert.ToBase64String(picture.Png.Span), alt = picture.Alt.Length > 0 ? picture.Alt : picture.Caption;
        page.Open("figure");
        if (picture.Side is { } side)
            page.Empty("img", ("class", "pic"), ("src", source), ("alt", alt), ("width", Markup.Px(side)), ("height", Markup.Px(side)));
        else
            page.Empty("img", ("class", "pic"), ("src", source), ("alt", alt));
        page.Open("figcaption").Element("span", Figures.Name(picture.Iso), ("class", "ft"));
        if (picture.Caption.Length > 0)
            page.Open("span", ("class", "said")).Say(picture.Caption).Close();
        page.Close().Close();
    }
}
