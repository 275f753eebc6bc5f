using System.Xml.Linq;

namespace Leafstop.Cli.Tests.Look;

/// <summary>Derived: a plot whose points tell their values is reached by the tab key once.</summary>
public sealed class PlotTests
{
    [Fact]
    public void The_tab_key_comes_to_one_point_and_every_point_says_its_value()
    {
        XElement[] points = [.. Drawn(read: true).Descendants("g").Where(g => (string?)g.Attribute("class") == "read")];
        Assert.Equal(["ISO 100: 3.60", "ISO 200: 3.30", "ISO 400: 3.10"], points.Select(p => (string?)p.Attribute("aria-label")));
        Assert.Equal(["0", "-1", "-1"], points.Select(p => (string?)p.Attribute("tabindex")));
        Assert.All(points, p => Assert.Equal((string?)p.Attribute("aria-label"), p.Descendants("text").Single().Value));
    }

    [Fact]
    public void What_holds_points_that_are_read_is_no_picture_to_a_screen_reader()
    {
        // Parts of a picture are not there for a screen reader.
        Assert.Equal("group", (string?)Drawn(read: true).Descendants("svg").First().Attribute("role"));
        Assert.Equal("img", (string?)Drawn(read: false).Descendants("svg").First().Attribute("role"));
    }

    private static XElement Drawn(bool read)
    {
        Plot plot = new(Axis.OfIso(100, 400), Axis.Even(0, 4), 300);
        foreach ((double iso, double noise) in new[] { (100.0, 3.6), (200, 3.3), (400, 3.1) })
            plot.Point(iso, noise, noise - 0.1, noise + 0.1, PointState.Solid, reading: read ? FormattableString.Invariant($"ISO {iso}: {noise:0.00}") : "");
        Markup page = new();
        plot.Draw(page, "Read noise");
        return XElement.Parse(page.ToString());
    }
}
