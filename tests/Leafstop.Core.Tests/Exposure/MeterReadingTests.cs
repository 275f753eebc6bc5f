using Leafstop.Core.Exposure;
using Leafstop.Core.Quantities;

namespace Leafstop.Core.Tests.Exposure;

public sealed class MeterReadingTests
{
    // Derived: f/8 and 1/30 (1/32) ask EV 11 at ISO 100; at ISO 400 they are right for two stops less.
    [Theory]
    [InlineData("f/8 1/30 ISO 400")]
    [InlineData("ISO 400, 1/30s, f/8")]
    [InlineData("1/30 s f8 iso400")]
    [InlineData("  F/ 8   1/30  ISO400 ")]
    public void A_reading_is_read_in_any_order(string text) => Assert.Equal(9, MeterReading.Parse(text).Light.Value, 1e-9);

    // Derived: literal numbers, log2(64 · 30) − 2.
    [Fact]
    public void Literal_numbers_stay_literal() =>
        Assert.Equal(Math.Log2(64 * 30) - 2, MeterReading.Parse("f/8 1/30 ISO 400", NumberReading.Literal).Light.Value, 1e-12);

    [Theory]
    [InlineData("", "no whole meter reading")]
    [InlineData("f/8 1/30", "no whole meter reading")]
    [InlineData("f/8 f/11 1/30 ISO 400", "two apertures")]
    [InlineData("f/8 1/30 1/60 ISO 400", "more than one shutter")]
    [InlineData("f/8 1/30 ISO 400 ISO 200", "two ISOs")]
    [InlineData("f/8 1/30 ISO NaN", "cannot be read")]
    [InlineData("f/0 1/30 ISO 400", "not above zero")]
    public void What_is_no_reading_is_told_why(string text, string told)
    {
        Assert.False(MeterReading.TryParse(text, out _, out string why));
        Assert.Contains(told, why, StringComparison.Ordinal);
    }

    [Fact]
    public void It_is_shown_as_it_is_read() => Assert.Equal("f/8 1/30 s ISO 400", MeterReading.Parse("f/8 1/30 ISO 400").ToDisplay());
}
