namespace Leafstop.Pocket.Tests;

/// <summary>Derived: whatever was written into the page or kept by it, however old, foreign or damaged, it opens, answers, and never lets text become page.</summary>
public sealed class WhatWasLeftTests
{
    private const string Nasty = "<script>alert(1)</script><img src=x onerror=alert(2)>\" ' & Brackenhush";

    private static readonly string[] Screens =
    [
        "gap", "pick:under:0:gap", "pick:focal:0:water", "pick:leave:0:leave", "water", "leaves", "wind", "light", "leave", "more", "depth", "keep", "pair", "leaving", "zoom", "print", "place", "camera", "look", "own", "card",
    ];

    [Fact]
    public void Names_never_become_page()
    {
        string name = new Data.JsonWriting().Open('{').Text("name", Nasty).Close('}').ToString()[1..^1];
        string data = OpenPage.Given.Replace("\"name\":\"\"", name, StringComparison.Ordinal).Replace("\"body\":\"\"", name.Replace("name", "body", StringComparison.Ordinal), StringComparison.Ordinal)
            .Replace("\"remark\":\"\"", name.Replace("name", "remark", StringComparison.Ordinal), StringComparison.Ordinal)
            .Replace("\"places\":[]", "\"places\":[{" + name + ",\"notes\":[{\"time\":\"<b>now</b>\",\"meteredEv100\":7,\"sky\":\"<i>\",\"filter\":\"<u>\",\"remark\":\"<s>\"}]}]", StringComparison.Ordinal);
        string state = new Data.JsonWriting().Open('{').Text("place", Nasty).Text("card", Nasty).Text("tried", Nasty).Text("triedCost", Nasty).Open('{', "before").Number("aperture", 8).Close('}').Close('}').ToString();
        foreach (string screen in Screens)
        {
            OpenPage page = OpenPage.At(screen, state, data);
            Assert.DoesNotMatch("<(script|img|b>now|i>|u>|s>)", page.Html);
            Assert.DoesNotContain("\" '", page.Html, StringComparison.Ordinal);
        }
        Assert.Contains("Brackenhush", OpenPage.At("place", state, data).Text, StringComparison.Ordinal);
        Assert.Contains("Brackenhush", OpenPage.At("camera", state, data).Text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("{\"aperture\":\"inf\",\"shutter\":\"inf\",\"light\":\"inf\",\"focal\":\"inf\",\"taste\":\"inf\",\"waterSpeed\":\"inf\",\"leafDistance\":\"inf\",\"near\":\"inf\",\"waterDistance\":\"inf\"}")]
    [InlineData("{\"aperture\":-1,\"shutter\":0,\"light\":1e300,\"frames\":1e9,\"readings\":[1e300,1e300,-1e300,5,1],\"screen\":\"nowhere\",\"leaveAt\":1e300,\"ticks\":[\"x\",1,null]}")]
    [InlineData("{\"aperture\":256,\"shutter\":86400,\"light\":30}")]
    [InlineData("{\"aperture\":0.5,\"shutter\":0.00001,\"light\":-20,\"printWidth\":10,\"printDistance\":100000,\"leaves\":\"wind\",\"waterOn\":true,\"depthOn\":true,\"near\":10,\"focal\":10000}")]
    [InlineData("{\"ownClean\":10000000,\"ownStretch\":1,\"ownBase\":100000,\"camera\":\"your own numbers\"}")]
    [InlineData("{\"focal\":10000,\"near\":10,\"leafDistance\":10,\"waterDistance\":10,\"leaves\":\"trial\",\"smear\":100,\"trial\":\"kkkk\",\"secondShutter\":86400}")]
    [InlineData("{\"readings\":[1792256400000,8,1792256400000,8],\"light\":8}")]
    [InlineData("{\"readings\":[1792256500000,8,1792256400000,7],\"light\":8}")]
    [InlineData("not json")]
    public void Every_screen_opens_whatever_was_kept(string state)
    {
        foreach (string data in (string[])[OpenPage.Given, "{}", "[", "{\"cameras\":[{\"name\":\"x\",\"baseIso\":64,\"limits\":[]}],\"lenses\":[],\"places\":7}"])
        {
            foreach (string screen in Screens)
            {
                OpenPage page = OpenPage.At(screen, state, data);
                Assert.NotEmpty(page.Verdict);
                Assert.DoesNotContain("NaN", page.Text, StringComparison.Ordinal);
                // Every button does something that can be shown.
                foreach (string act in page.Html.Split("data-act=\"").Skip(1).Select(a => a[..a.IndexOf('"', StringComparison.Ordinal)]))
                {
                    OpenPage next = OpenPage.At(screen, state, data);
                    next.Press(System.Net.WebUtility.HtmlDecode(act), "some text");
                    Assert.NotEmpty(next.Verdict);
                    Assert.NotEmpty(next.Reopened(data).Verdict);
                }
            }
        }
    }

    /// <summary>However short the window, the table has a row and a way to the others.</summary>
    [Theory]
    [InlineData(100)]
    [InlineData(390)]
    [InlineData(568)]
    [InlineData(664)]
    [InlineData(844)]
    public void A_table_that_is_cut_has_a_way_on(int height)
    {
        OpenPage page = OpenPage.With("""{"aperture":8,"shutter":0.0078125,"light":9,"polariser":true,"leaves":"trial","smear":0.33,"smearShutter":0.015625}""");
        page.Page.Height = height;
        HashSet<string> rows = [];
        for (int part = 0; part < 8; part++)
        {
            rows.UnionWith(page.Html.Split("data-act=\"try:").Skip(1).Select(r => r[..1]));
            page.Press($"go:gap:{part + 1}");
        }
        Assert.True(rows.Count >= 5, $"{rows.Count} rows");
    }

    [Fact]
    public void Forty_lenses_and_twelve_cameras_are_all_within_reach()
    {
        string lenses = string.Join(',', Enumerable.Range(10, 40).Select(mm => $"{{\"focalLengthMm\":{mm}.5}}"));
        string camera = OpenPage.Given[OpenPage.Given.IndexOf("{\"name\"", StringComparison.Ordinal)..OpenPage.Given.IndexOf("],\"lenses\"", StringComparison.Ordinal)];
        string cameras = string.Join(',', Enumerable.Range(1, 12).Select(n => camera.Replace("\"name\":\"\"", $"\"name\":\"Body {n}\"", StringComparison.Ordinal)));
        string data = $"{{\"cameras\":[{cameras}],\"lenses\":[{lenses}]}}";
        OpenPage page = OpenPage.At("pick:focal:0:water", "{}", data);
        HashSet<string> offered = [];
        for (int sheet = 0; sheet < 4; sheet++)
        {
            page.Press($"go:pick:focal:{sheet}:water");
            offered.UnionWith(page.Html.Split("set:focal:").Skip(1).Select(s => s[..s.IndexOf(':', StringComparison.Ordinal)]));
        }
        Assert.All(Enumerable.Range(10, 40), mm => Assert.Contains($"{mm}.5", offered));
        page.Press("go:camera");
        for (int part = 1; !page.Text.Contains("Body 12", StringComparison.Ordinal); part++)
        {
            Assert.True(part < 12, page.Text);
            Assert.Contains("Clean 800, stretch 3200", page.Text, StringComparison.Ordinal);
            page.Press($"go:camera:{part}");
        }
        page.Press("camera:11");
        Assert.StartsWith("Body 12", page.Verdict, StringComparison.Ordinal);
    }

    [Fact]
    public void What_is_tried_in_a_damaged_state_can_be_taken_back()
    {
        OpenPage page = OpenPage.At("gap", "{\"before\":{\"aperture\":8,\"shutter\":0.25}}");
        page.Press("back");
        Assert.Contains("ISO", page.Text, StringComparison.Ordinal);
        Assert.Contains("f/8", page.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_card_that_cannot_be_read_is_said_and_what_was_there_stays()
    {
        OpenPage page = OpenPage.At("card", "{}");
        foreach ((string text, string said) in new[]
        {
            ("", "Paste the text of the card's code first."), ("hello", "does not begin with LEAFSTOP CARD"), ("LEAFSTOP CARD 1\ncamera x", "cut off"), ("LEAFSTOP CARD 9\n", "version 9"), (new string('x', 50_000), "does not begin with"),
        })
        {
            page.Press("card", text);
            Assert.Contains(said, page.Verdict, StringComparison.Ordinal);
            Assert.Null(page.Page.CardCamera);
        }
        page.Press("go:gap");
        Assert.Contains("Clean 800", page.Text, StringComparison.Ordinal);
    }
}
