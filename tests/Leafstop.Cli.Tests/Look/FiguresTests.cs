using Leafstop.Cli.Tests.Telling;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;

namespace Leafstop.Cli.Tests.Look;

/// <summary>Derived: how numbers are written.</summary>
public sealed class FiguresTests
{
    [Theory]
    [InlineData(7812.4, 0, "7812")]
    [InlineData(50000, 0, "50\u2009000")]
    [InlineData(-1234567.891, 1, "\u22121\u2009234\u2009567.9")]
    [InlineData(-0.001, 2, "0.00")]
    public void Thousands_are_parted_from_ten_thousand_and_minus_is_a_minus(double value, int decimals, string written) =>
        Assert.Equal(written, Figures.Fixed(value, decimals));

    [Theory]
    [InlineData(3.0, "3")]
    [InlineData(0.667, "2/3")]
    [InlineData(2.3333, "2\u00A01/3")]
    [InlineData(-1.3333, "\u22121\u00A01/3")]
    [InlineData(0.5, "0.50")]
    [InlineData(0.0, "0")]
    public void Stops_in_thirds_are_fractions_and_others_are_not_rounded_to_them(double stops, string written) =>
        Assert.Equal(written, Figures.Stops(stops));

    // The pairs of exact and dialled ISO are those of the scenario "The Long Wall": 356 → 320, 1800 → 1600, 2200 → 2000, 139 → 125.
    [Theory]
    [InlineData(356, 320)]
    [InlineData(1800, 1600)]
    [InlineData(2200, 2000)]
    [InlineData(139, 125)]
    [InlineData(800, 800)]
    [InlineData(99, 80)]
    [InlineData(16400, 16000)]
    [InlineData(13000, 12800)]
    public void A_limit_is_dialled_at_the_third_at_or_below(double exact, double dial) =>
        Assert.Equal(dial, Iso.FromSpeed(exact).DialAtOrBelow().Speed);

    /// <summary>Derived from the CCD equation (SEN-15) at mid-grey of EXP-29; the scenario's table gives 28, 13.8, 12.5, 9.9 and 4.8, with mid-grey at 12.8 %.</summary>
    [Theory]
    [InlineData(100, 28.0)]
    [InlineData(400, 13.8)]
    [InlineData(500, 12.5)]
    [InlineData(800, 9.9)]
    [InlineData(3200, 4.8)]
    public void Signal_to_noise_in_the_table_is_that_of_Body_A(double iso, double expected)
    {
        Level level = BodyABench.Level(iso);
        // 0.1: the table is rounded to one decimal and mid-grey differs by 0.5 %, worth 0.08 at ISO 100.
        Assert.InRange(LevelRow.SignalToNoiseAt(level.Model!, -3), expected - 0.1, expected + 0.1);
    }
}
