using Leafstop.Core.Sensor;
using Leafstop.Raw.Jpegs;

namespace Leafstop.Report;

/// <summary>Writes a bench test as one printable HTML page that asks for nothing: type, style, drawings and pictures are inside.</summary>
public static class BenchReport
{
    /// <summary>The page as text, to be saved as UTF-8.</summary>
    /// <param name="answer">The answer.</param>
    /// <param name="pictures">Crops that show the numbers; the section is left out when there are none.</param>
    /// <param name="title">What the bench is called, for instance the name of the folder; null for "Bench test".</param>
    /// <param name="jpegs">JPEGs to look at where there are only JPEGs; null for none.</param>
    public static string Html(BenchAnswer answer, IReadOnlyList<ReportPicture> pictures, string? title = null, JpegComparison? jpegs = null)
    {
        ArgumentNullException.ThrowIfNull(answer);
        ArgumentNullException.ThrowIfNull(pictures);
        BenchAccount account = BenchAccount.Of(answer);
        var page = new Markup();
        page.Open("html", ("lang", "en-GB"), ("data-theme", "paper"));
        Head(page, answer);
        page.Open("body");
        Filters(page);
        Masthead(page);
        page.Open("main", ("class", "sheet"), ("id", "main")).Line();
        BenchSections.Verdict(page, account, answer, title ?? "Bench test");
        if (answer.Levels.Length > 0)
        {
            BenchSections.Ladders(page, account, answer);
            BenchSections.Findings(page, account, answer);
            LevelTable.Write(page, account);
            PlotSections.Write(page, answer);
            LiftSection.Write(page, account, answer);
            BenchSections.Limits(page, account, answer);
        }
        else
        {
            BenchSections.Findings(page, account, answer);
        }

        PictureSection.Write(page, pictures);
        if (jpegs is not null)
            PictureSection.Write(page, jpegs);
        BenchSections.HowKnown(page, account);
        page.Close().Line();
        page.Open("script").OwnResource(ReportResources.Script()).Close();
        page.Close().Close();
        return "<!DOCTYPE html>\n" + page + "\n";
    }

    private static void Head(Markup page, BenchAnswer answer)
    {
        string camera = answer.Camera is { } c ? BenchAccount.CameraName(c) : "no camera";
        page.Open("head");
        page.Empty("meta", ("charset", "utf-8"));
        page.Empty("meta", ("http-equiv", "Content-Security-Policy"), ("content", ReportResources.ContentPolicy(ReportResources.Script())));
        page.Empty("meta", ("name", "viewport"), ("content", "width=device-width,initial-scale=1"));
        page.Element("title", $"Bench, {camera} · Leafstop");
        page.Open("style").OwnResource(ReportResources.Style()).Close();
        page.Close().Line();
    }

    /// <summary>At night pictures pass through this: red only.</summary>
    private static void Filters(Markup page)
    {
        page.Open("svg", ("width", "0"), ("height", "0"), ("style", "position:absolute"), ("aria-hidden", "true")).Open("defs");
        page.Open("filter", ("id", "red-only"), ("color-interpolation-filters", "sRGB"));
        page.Empty("feColorMatrix", ("values", ".24 .48 .09 0 0  0 0 0 0 0  0 0 0 0 0  0 0 0 1 0"));
        page.Close().Close().Close().Line();
    }

    private static void Masthead(Markup page)
    {
        page.Element("a", "To the answer", ("class", "skip"), ("href", "#main"));
        page.Open("header", ("class", "head")).Open("span", ("class", "mark")).DrawLeaf(LeafState.Whole).Text("Leafstop").Close();
        // Hidden until the script runs: without it they would do nothing.
        page.Open("div", ("class", "themes"), ("role", "group"), ("aria-label", "Light"), ("hidden", "hidden"));
        foreach (string theme in new[] { "paper", "sun", "night" })
            page.Element("button", theme, ("type", "button"), ("data-set-theme", theme), ("aria-pressed", theme == "paper" ? "true" : "false"));
        page.Close().Close().Line();
    }
}
