using System.Net;
using System.Text.RegularExpressions;

namespace Leafstop.Pocket.Tests;

/// <summary>A page that is open as the script opens it: pressed by the names of its buttons, read as text.</summary>
internal sealed partial class OpenPage
{
    /// <summary>17 October 2026, 17:00 UTC, a clock one hour ahead.</summary>
    public static readonly Moment Evening = new(1_792_256_400_000, 60);

    /// <summary>Limits that were typed in: clean 800, stretch 3200 at 60 cm from 60 cm.</summary>
    public const string Given = """
        {"leafstopPocket":1,"cameras":[{"name":"","baseIso":100,"format":null,"limits":[{"cleanIso":800,"stretchIso":3200,"how":"given","body":"","print":{"widthMm":600,"viewingDistanceMm":600},
        "tone":"notStated","treatment":"notStated","judged":null,"remark":""}]}],"lenses":[{"focalLengthMm":24},{"focalLengthMm":35},{"focalLengthMm":70}],"tastes":[{"streakPercent":4}],"places":[]}
        """;

    private OpenPage(PocketPage page) => Page = page;

    public PocketPage Page { get; }

    public Moment Now { get; set; } = Evening;

    /// <summary>What the script gets: a line about the page, then the page.</summary>
    public string Answer => Page.Show(Now, keeps: true);

    public string Html => Answer[(Answer.IndexOf('\n', StringComparison.Ordinal) + 1)..];

    /// <summary>What a person reads, spaces that do not break as plain ones.</summary>
    public string Text => Plain(Html);

    public string Verdict => Plain(VerdictElement().Match(Html).Groups[1].Value).Trim();

    public static OpenPage With(string state, string data = Given) => new(new PocketPage(Data.PocketData.Read(data), PocketStateText.Read(state)));

    public static OpenPage At(string screen, string state, string data = Given)
    {
        OpenPage page = With(state, data);
        page.Press("go:" + screen);
        return page;
    }

    public void Press(string act, string value = "") => Page.Press(act, value, Now);

    /// <summary>The same page after it was closed: only what it keeps is left.</summary>
    public OpenPage Reopened(string data = Given) => new(new PocketPage(Data.PocketData.Read(data), PocketStateText.Read(PocketStateText.Write(Page.State)))) { Now = Now };

    private static string Plain(string html) => WebUtility.HtmlDecode(Tag().Replace(html, " ")).Replace('\u00A0', ' ').Replace('\u2009', ' ');

    [GeneratedRegex("<[^>]*>")]
    private static partial Regex Tag();

    [GeneratedRegex("<h1 class=\"(?:pv|say)\">(.*?)</h1>", RegexOptions.Singleline)]
    private static partial Regex VerdictElement();
}
