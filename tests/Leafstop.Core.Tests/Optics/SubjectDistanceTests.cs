using CsCheck;
using Leafstop.Core.Optics;

namespace Leafstop.Core.Tests.Optics;

public sealed class SubjectDistanceTests
{
    [Theory]
    [InlineData("inf")]
    [InlineData(" Infinity ")]
    [InlineData("∞")]
    public void Infinity_is_read_as_people_write_it(string text) => Assert.True(SubjectDistance.Parse(text).IsInfinite);

    [Theory]
    [InlineData("")]
    [InlineData("0m")]
    [InlineData("-3m")]
    [InlineData("5")]
    [InlineData("NaN m")]
    [InlineData("far")]
    public void What_is_no_distance_is_refused_with_a_sentence(string text)
    {
        Assert.False(SubjectDistance.TryParse(text, out _, out string why));
        Assert.EndsWith(".", why, StringComparison.Ordinal);
    }

    // Derived: what is printed in full reads back to the same, infinity included.
    [Fact]
    public void Printing_and_reading_returns_the_same_distance()
    {
        Gen.Double[1e-3, 1e9].Sample(x => SubjectDistance.Parse(SubjectDistance.FromMillimetres(x).ToString()).Millimetres == x);
        Assert.Equal(SubjectDistance.Infinity, SubjectDistance.Parse(SubjectDistance.Infinity.ToString()));
        Assert.Equal("3.4 m", SubjectDistance.FromMetres(3.4).ToDisplay());
        Assert.Equal("infinity", SubjectDistance.Infinity.ToDisplay());
    }

    [Fact]
    public void Distances_that_are_none_are_refused()
    {
        foreach (double wrong in new[] { 0, -1, double.NaN, double.NegativeInfinity })
            Assert.Throws<ArgumentOutOfRangeException>(() => SubjectDistance.FromMillimetres(wrong));
    }
}
