using CsCheck;
using Leafstop.Core.Quantities;

namespace Leafstop.Core.Tests.Quantities;

public sealed class ShareTests
{
    // Derived.
    [Theory]
    [InlineData("0.67", 0.67)]
    [InlineData("2/3", 2 / 3.0)]
    [InlineData("67%", 0.67)]
    [InlineData("4 %", 0.04)]
    [InlineData("1", 1)]
    [InlineData("0", 0)]
    public void Shares_are_read_as_people_write_them(string text, double value) => Assert.Equal(value, Share.Parse(text).Value, 1e-15);

    [Theory]
    [InlineData("")]
    [InlineData("1.01")]
    [InlineData("-0.1")]
    [InlineData("101%")]
    [InlineData("NaN")]
    [InlineData("%")]
    [InlineData("half")]
    public void What_is_no_share_is_refused_with_a_sentence(string text)
    {
        Assert.False(Share.TryParse(text, out _, out string why));
        Assert.EndsWith(".", why, StringComparison.Ordinal);
        Assert.Throws<FormatException>(() => Share.Parse(text));
    }

    // Derived: printed in full it reads back to the same double.
    [Fact]
    public void Printing_and_reading_returns_the_same_share()
    {
        Gen.Double[0, 1].Sample(x => Share.Parse(Share.Of(x).ToString()).Value == x);
        Assert.Equal("66.7 %", Share.Of(2 / 3.0).ToDisplay());
        Assert.Throws<ArgumentOutOfRangeException>(() => Share.Of(double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => Share.Of(1.1));
    }
}
