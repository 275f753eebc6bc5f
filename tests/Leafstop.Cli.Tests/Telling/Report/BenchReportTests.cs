using System.Globalization;
using System.Text.RegularExpressions;
using System.Xml;
using System.Xml.Linq;
using Leafstop.Core.Sensor;
using Leafstop.Report;

namespace Leafstop.Cli.Tests.Telling.Report;

/// <summary>Derived: what the page must be whatever the numbers are.</summary>
public sealed partial class BenchReportTests
{
    private const string Hostile = "\"><script>alert(1)</script><img src=https://example.invalid/x onerror=alert(2)> & 'A'\u0000\u202E";

    private static readonly ReportPicture Crop = new(BodyABench.Speed(800), "Dark cloth, true size.", Convert.FromBase64String("iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAQAAAC1HAwCAAAAC0lEQVR42mNkYAAAAAYAAjCB0C8AAAAASUVORK5CYII="));

    public static TheoryData<string> All => ["metered", "faulty", "sameLight", "nothing", "jpeg", "none", "mixed", "crowded"];

    [Theory]
    [MemberData(nameof(All))]
    public void Every_page_is_well_formed_and_has_one_heading_that_is_the_verdict(string which)
    {
        BenchAnswer answer = Answer(which);
        XElement html = Parse(BenchReport.Html(answer, [Crop]));
        XElement verdict = Assert.Single(html.Descendants("h1"));
        Assert.Equal(BenchVerdict.Of(answer).Sentence, verdict.Value);
        Assert.DoesNotContain(html.Descendants().Attributes("id").GroupBy(a => a.Value), g => g.Count() > 1);
    }

    [Theory]
    [MemberData(nameof(All))]
    public void Every_page_asks_for_nothing(string which)
    {
        string page = BenchReport.Html(Answer(which), [Crop]);
        Assert.DoesNotContain("http:", page, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("https:", page, StringComparison.OrdinalIgnoreCase);
        Assert.DoesNotContain("@import", page, StringComparison.OrdinalIgnoreCase);
        Assert.All(Urls().Matches(page), m => Assert.True(m.Groups[1].Value is "data" or "#red-only", m.Value));
        XElement html = Parse(page);
        Assert.All(html.Descendants().Attributes().Where(a => a.Name.LocalName is "src" or "href"), a => Assert.True(a.Value.StartsWith("data:", StringComparison.Ordinal) || a.Value[0] == '#', a.Value));
        Assert.DoesNotContain(html.Descendants().Attributes(), a => a.Name.LocalName.StartsWith("on", StringComparison.Ordinal));
        string policy = html.Descendants("meta").Single(m => (string?)m.Attribute("http-equiv") == "Content-Security-Policy").Attribute("content")!.Value;
        Assert.StartsWith("default-src 'none'; style-src 'unsafe-inline'; font-src data:; img-src data:", policy, StringComparison.Ordinal);
        string script = Assert.Single(html.Descendants("script")).Value;
        string hash = Convert.ToBase64String(System.Security.Cryptography.SHA256.HashData(System.Text.Encoding.UTF8.GetBytes(script)));
        Assert.Contains($"'sha256-{hash}'", policy, StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(All))]
    public void Every_drawing_is_said_in_words_or_hidden(string which)
    {
        XElement html = Parse(BenchReport.Html(Answer(which), [Crop]));
        foreach (XElement svg in html.Descendants("svg").Where(s => s.Ancestors("svg").FirstOrDefault() is null))
        {
            bool said = svg.AncestorsAndSelf().Any(e => (string?)e.Attribute("role") is "img" or "group" && ((string?)e.Attribute("aria-label"))?.Length > 20);
            Assert.True(said || (string?)svg.Attribute("aria-hidden") == "true", svg.ToString()[..80]);
        }

        Assert.All(html.Descendants("svg").Where(s => (string?)s.Attribute("class") == "plot"), plot =>
            Assert.NotNull(plot.Ancestors("figure").First().Descendants("table").FirstOrDefault()));
    }

    [Theory]
    [MemberData(nameof(All))]
    public void No_number_in_a_drawing_is_broken(string which)
    {
        string page = BenchReport.Html(Answer(which), []);
        string body = page[page.IndexOf("<body", StringComparison.Ordinal)..];
        Assert.DoesNotContain("NaN", body, StringComparison.Ordinal);
        Assert.DoesNotContain("Infinity", body, StringComparison.Ordinal);
        Assert.DoesNotContain("∞", body, StringComparison.Ordinal);
    }

    [Fact]
    public void Hostile_names_stay_text()
    {
        BenchAnswer sound = BodyABench.DriftingLampAndHelpfulCamera();
        BenchAnswer answer = sound with
        {
            Camera = sound.Camera! with { Make = Hostile, Model = Hostile },
            Levels = [.. sound.Levels.Select(l => l with { Frames = [.. l.Frames.Select(f => f + Hostile)], Reason = l.Usable ? null : Hostile })],
            Findings = [.. sound.Findings.Select(f => f with { Frames = [.. f.Frames.Select(x => x + Hostile)], Text = f.Text + Hostile })],
            PredictedLimits = [.. sound.PredictedLimits.Select(l => l with { Body = Hostile, Treatment = Hostile })],
        };
        string page = BenchReport.Html(answer, [Crop with { Caption = Hostile }], Hostile);
        XElement html = Parse(page);
        Assert.Single(html.Descendants("script"));
        Assert.Single(html.Descendants("img"));
        Assert.DoesNotContain("<script>alert", page, StringComparison.Ordinal);
        Assert.Contains("&lt;script&gt;alert(1)&lt;/script&gt;", page, StringComparison.Ordinal);
        Assert.DoesNotContain('\u202E', page);
    }

    [Fact]
    public void A_level_that_is_left_off_is_struck_with_its_reason_beside_it()
    {
        XElement html = Parse(BenchReport.Html(BodyABench.DriftingLampAndHelpfulCamera(), []));
        XElement row = Assert.Single(html.Descendants("tr"), r => (string?)r.Attribute("class") == "off");
        Assert.Equal(["0.051", "1.01", "781"], row.Descendants("span").Where(s => (string?)s.Attribute("class") == "struck").Select(s => s.Value));
        Assert.Contains("smoothed in camera: left off", row.Value, StringComparison.Ordinal);
        Assert.Contains("Neighbouring pixels agree by 0.24", row.Value, StringComparison.Ordinal);
    }

    [Fact]
    public void Thirds_of_a_stop_are_true_fractions_and_shutter_times_stay_on_the_line()
    {
        BenchAnswer sound = BodyABench.Metered();
        string page = BenchReport.Html(sound with { Findings = [new Finding(FindingCode.LightDrift, [], "ISO 1600 had 2/3 stop more light at 1/3 s and 1/125 s.", true)] }, []);
        Assert.Contains("had <span class=\"fr\">2/3</span> stop", page, StringComparison.Ordinal);
        Assert.Contains("at 1/3 s and 1/125 s.", page, StringComparison.Ordinal);
    }

    [Fact]
    public void Pictures_are_shown_when_given_and_the_section_is_left_out_when_not()
    {
        Assert.Contains("The crops that show it", BenchReport.Html(BodyABench.Metered(), [Crop]), StringComparison.Ordinal);
        Assert.DoesNotContain("The crops that show it", BenchReport.Html(BodyABench.Metered(), []), StringComparison.Ordinal);
    }

    [Fact]
    public void Limits_are_labelled_worked_out_and_carry_their_five_tags()
    {
        string words = Surfaces.Flat(Surfaces.ReportWords(BenchReport.Html(BodyABench.Metered(), [])));
        Assert.Contains("Clean: ISO 2150, dial 2000 (signal-to-noise 40, where the criterion says first excellent). worked out", words, StringComparison.Ordinal);
        Assert.Contains("(signal-to-noise 20, between the two published levels). rule of thumb", words, StringComparison.Ordinal);
        Assert.Contains("For Body A, 14-bit raw; a print 60 cm wide seen from 60 cm; tone at mid-grey; treatment: no noise reduction, no sharpening.", words, StringComparison.Ordinal);
        Assert.Contains("I cannot say, this ladder does not reach it", words, StringComparison.Ordinal);
    }

    [Fact]
    public void The_ladder_lies_to_scale()
    {
        XElement html = Parse(BenchReport.Html(BodyABench.Metered(), []));
        XElement ladder = html.Descendants("div").First(d => (string?)d.Attribute("class") == "ladder");
        double At(string number) => double.Parse(ladder.Descendants("text").Single(t => t.Value == number).Attribute("x")!.Value.TrimEnd('%'), CultureInfo.InvariantCulture);
        // 0.01 %: places are written with three decimals.
        Assert.Equal(At("200") - At("100"), At("3200") - At("1600"), 0.01);
        Assert.Equal(6 * (At("200") - At("100")), At("6400") - At("100"), 0.01);
    }

    [Fact]
    public void Numbers_that_could_not_be_found_leave_gaps_and_do_not_stop_the_page()
    {
        Level level = BodyABench.Level(100);
        Level odd = level with
        {
            ReadNoiseElectrons = new Estimate(0, double.NegativeInfinity, double.PositiveInfinity),
            GainElectronsPerDn = new Estimate(double.NaN, double.NaN, double.NaN),
            NeighbourCorrelation = double.NaN,
            LightErrorStops = double.NaN,
            SaturationElectrons = 0,
            ReadNoiseDn = null,
        };
        string page = BenchReport.Html(BodyABench.Metered() with { Levels = [odd, level with { Curve = [], Planes = [] }] }, []);
        string body = page[page.IndexOf("<body", StringComparison.Ordinal)..];
        Assert.DoesNotContain("NaN", body, StringComparison.Ordinal);
        Assert.DoesNotContain("Infinity", body, StringComparison.Ordinal);
        Parse(page);
        Assert.DoesNotContain("NaN", Surfaces.Text(BodyABench.Metered() with { Levels = [odd] }), StringComparison.Ordinal);
    }

    private static BenchAnswer Answer(string which) => which switch
    {
        "metered" => BodyABench.Metered(),
        "faulty" => BodyABench.DriftingLampAndHelpfulCamera(),
        "sameLight" => BodyABench.SameLight(),
        "nothing" => BodyABench.NothingUsable(),
        "jpeg" => BodyABench.JpegOnly(),
        "none" => BodyABench.NoLadder(),
        "crowded" => BodyABench.Crowded(),
        _ => BodyABench.Mixed(),
    };

    private static XElement Parse(string page)
    {
        using var text = new StringReader(page);
        using var reader = XmlReader.Create(text, new XmlReaderSettings { DtdProcessing = DtdProcessing.Ignore });
        return XDocument.Load(reader).Root!;
    }

    [GeneratedRegex(@"url\(['""]?([a-z]+(?=:)|[^)'"":]*)")]
    private static partial Regex Urls();
}
