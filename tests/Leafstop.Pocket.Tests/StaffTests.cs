using System.Globalization;
using System.Text.RegularExpressions;

namespace Leafstop.Pocket.Tests;

/// <summary>Derived: look.md 5, one scale from base up. Base, both limits and the leaf lie on it wherever they are, and no rule runs through words.</summary>
public sealed partial class StaffTests
{
    private const double Height = 470, LyingWidth = 322, LyingFrom = 34;

    [Theory]
    [InlineData(100, 125)]
    [InlineData(800, 3200)]
    [InlineData(800, 40_000)]
    [InlineData(12_800, 25_600)]
    [InlineData(25_600, 40_000)]
    [InlineData(200, 40_000)]
    public void Limits_and_leaf_lie_on_the_staff_standing_and_lying(double clean, double stretch)
    {
        for (int thirds = 0; thirds <= 42; thirds += 3)
        {
            string html = At(clean, stretch, thirds).Html;
            if (html.Contains("class=\"st\"", StringComparison.Ordinal))
            {
                Assert.InRange(Numbers(StandingLeaf(), html).Single(), 0, Height);
                Assert.All(Numbers(StandingClean(), html), y => Assert.InRange(y, 1, Height - 1));
                Assert.NotEmpty(Numbers(StandingClean(), html));
                // Limits closer than a word share one rule; else the second has two of its own.
                Assert.All(Numbers(StandingStretch(), html), y => Assert.InRange(y, 0, Height - 1));
            }
            else
            {
                string head = html[html.IndexOf("class=\"gh\"", StringComparison.Ordinal)..];
                head = head[..head.IndexOf("</div>", StringComparison.Ordinal)];
                Assert.Single(Numbers(LyingClean(), head));
                Assert.All([.. Numbers(LyingClean(), head), .. Numbers(LyingStretch(), head), .. Numbers(LyingLeaf(), head)], x => Assert.InRange(x, 0, 100));
                Assert.Single(Numbers(LyingStretch(), head));
            }
        }
    }

    /// <summary>The order on the staff is that of the ISOs: nothing is drawn past a limit that lies inside it.</summary>
    [Theory]
    [InlineData(800, 3200, 12)]
    [InlineData(800, 3200, 18)]
    [InlineData(800, 40_000, 24)]
    [InlineData(200, 40_000, 30)]
    public void The_leaf_lies_between_or_past_the_limits_as_the_verdict_says(double clean, double stretch, int thirds)
    {
        string html = At(clean, stretch, thirds).Html, head = html[html.IndexOf("class=\"gh\"", StringComparison.Ordinal)..];
        head = head[..head.IndexOf("</div>", StringComparison.Ordinal)];
        double leaf = Numbers(LyingLeaf(), head).Single();
        Assert.True(leaf > Numbers(LyingClean(), head).Single());
        Assert.Equal(html.Contains("data-verdict=\"beyond\"", StringComparison.Ordinal), leaf > Numbers(LyingStretch(), head).Single());
    }

    /// <summary>The words of each row of the table: no rule and no leaf of that row stands in them where there is a place that is free.</summary>
    [Theory]
    [InlineData(800, 3200)]
    [InlineData(1600, 6400)]
    [InlineData(400, 12_800)]
    public void No_rule_runs_through_the_words_of_a_row(double clean, double stretch)
    {
        OpenPage page = At(clean, stretch, 16);
        MatchCollection rows = Row().Matches(page.Html);
        Assert.NotEmpty(rows);
        foreach (Match row in rows)
        {
            double from = LyingFrom + LyingWidth * double.Parse(row.Groups[1].Value, CultureInfo.InvariantCulture), to = from + 6.5 * row.Groups[2].Value.Length;
            IEnumerable<double> marks = Numbers(LyingClean(), row.Value).Concat(Numbers(LyingStretch(), row.Value)).Select(x => LyingFrom + LyingWidth * x / 100);
            Assert.All(marks, x => Assert.False(x > from && x < to, $"'{row.Groups[2].Value}' from {from:0} to {to:0} px is struck through at {x:0}"));
        }
    }

    private static OpenPage At(double clean, double stretch, int thirds)
    {
        OpenPage page = OpenPage.With(string.Create(CultureInfo.InvariantCulture, $"{{\"camera\":\"your own numbers\",\"ownClean\":{clean},\"ownStretch\":{stretch},\"aperture\":8,\"shutter\":0.0078125}}"));
        page.Press(string.Create(CultureInfo.InvariantCulture, $"set:under:{thirds}:gap"));
        return page;
    }

    private static double[] Numbers(Regex of, string html) => [.. of.Matches(html).Select(m => double.Parse(m.Groups[1].Value, CultureInfo.InvariantCulture))];

    [GeneratedRegex("translate\\(56,([\\d.]+)\\)")]
    private static partial Regex StandingLeaf();

    [GeneratedRegex("<line class=\"clean\" x1=\"42\" x2=\"132\" y1=\"([\\d.-]+)\"")]
    private static partial Regex StandingClean();

    [GeneratedRegex("<line class=\"stretch\" x1=\"42\" x2=\"132\" y1=\"([\\d.-]+)\"")]
    private static partial Regex StandingStretch();

    [GeneratedRegex("<line class=\"clean\" x1=\"([\\d.-]+)%\"")]
    private static partial Regex LyingClean();

    [GeneratedRegex("<svg x=\"([\\d.-]+)%\" overflow=\"visible\"><line class=\"stretch\"")]
    private static partial Regex LyingStretch();

    [GeneratedRegex("<svg x=\"([\\d.-]+)%\" y=\"46\" overflow=\"visible\"><g class=\"slide\">")]
    private static partial Regex LyingLeaf();

    [GeneratedRegex("<span class=\"res\" style=\"left:calc\\(34px \\+ \\(100% - 68px\\) \\* ([\\d.-]+)\\)\">(.*?)</span>.*?</button>")]
    private static partial Regex Row();
}
