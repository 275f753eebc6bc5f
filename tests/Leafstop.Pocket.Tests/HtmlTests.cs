using System.Globalization;
using System.Net;
using Leafstop.Pocket.Data;

namespace Leafstop.Pocket.Tests;

/// <summary>Derived: the page's own short ways of writing and reading give what the platform's longer ones give.</summary>
public sealed class HtmlTests
{
    [Theory]
    [InlineData("")]
    [InlineData("Brackenhush Wood")]
    [InlineData("Brackenhush </script><b>Wood & Co")]
    [InlineData("\"a\" 'b' <&> 2\u00A01/3 \u2212 \uD83C\uDF43")]
    public void Escaped_text_reads_back_and_ends_no_element_and_no_attribute(string text)
    {
        string escaped = Html.Text(text);
        Assert.Equal(text, WebUtility.HtmlDecode(escaped));
        Assert.DoesNotContain(escaped, c => c is '<' or '>' or '"' or '\'');
    }

    /// <summary>Hundredths apart from ties, which binary numbers hardly have: 0.125 has one, and either neighbour is as near.</summary>
    [Fact]
    public void A_coordinate_is_written_to_the_hundredth_as_the_platform_writes_it()
    {
        Random random = new(7);
        Assert.Equal(["0", "-0.01", "1", "1.5", "10.05", "-3.1", "0"], ((double[])[0, -0.01, 1, 1.5, 10.05, -3.1, -0.004]).Select(Html.At));
        for (int i = 0; i < 10_000; i++)
        {
            double value = (random.NextDouble() - 0.5) * Math.Pow(10, random.Next(-2, 6));
            Assert.Equal(double.Parse(value.ToString("0.##", CultureInfo.InvariantCulture), CultureInfo.InvariantCulture), double.Parse(Html.At(value), CultureInfo.InvariantCulture));
        }
    }

    [Fact]
    public void Lenses_and_tastes_come_in_order_each_once_and_what_is_out_of_range_is_left_out()
    {
        var data = PocketData.Read("""{"lenses":[{"focalLengthMm":70},{"focalLengthMm":24},{"focalLengthMm":70},{"focalLengthMm":0},{"focalLengthMm":"35"},7,{"focalLengthMm":35}],"tastes":[{"streakPercent":9},{"streakPercent":4}],"cameras":[{"name":"no base"},{"name":"Body A","baseIso":100}],"places":[{"name":""},{"name":"Dimble Spout"}]}""");
        Assert.Equal([24, 35, 70], data.Lenses);
        Assert.Equal([4, 9], data.Tastes);
        Assert.Equal(["Body A"], data.Cameras.Select(c => c.Name));
        Assert.Equal(["Dimble Spout"], data.Places.Select(p => p.Name));
    }
}
