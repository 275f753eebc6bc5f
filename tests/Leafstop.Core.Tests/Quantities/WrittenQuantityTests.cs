using System.Globalization;
using CsCheck;
using Leafstop.Core.Quantities;

namespace Leafstop.Core.Tests.Quantities;

/// <summary>Reading and printing of all quantities.</summary>
public sealed class WrittenQuantityTests
{
    // Derived: 1/4 s and longer marks, however they are written.
    [Theory]
    [InlineData("1/4")]
    [InlineData("1/4s")]
    [InlineData(" 1/4 s ")]
    [InlineData("0.25")]
    [InlineData(".25s")]
    [InlineData("¼")]
    public void A_quarter_of_a_second_is_the_same_however_it_is_written(string text) =>
        Assert.Equal(0.25, ShutterTime.Parse(text).Seconds);

    // Derived: 0.3 is the mark for 2^(-5/3), 30 for 32; --literal keeps the number.
    [Fact]
    public void A_mark_means_the_power_unless_taken_literally()
    {
        Assert.Equal(Math.Pow(2, -5 / 3.0), ShutterTime.Parse("0.3s").Seconds, 1e-12);
        Assert.Equal(0.3, ShutterTime.Parse("0.3s", NumberReading.Literal).Seconds);
        Assert.Equal(1 / 163.0, ShutterTime.Parse("1/163").Seconds, 1e-15);
        Assert.Equal(11, FNumber.Parse("f/11", NumberReading.Literal).Ratio);
        Assert.Equal(503.968, Iso.Parse("ISO 500").Speed, 1e-3);
        Assert.Equal(500, Iso.Parse("500", NumberReading.Literal).Speed);
    }

    // Derived.
    [Theory]
    [InlineData("2 1/3", 7)]
    [InlineData("2⅓", 7)]
    [InlineData("-2/3", -2)]
    [InlineData("−2/3", -2)]
    [InlineData("-2 1/3", -7)]
    [InlineData("- 1", -3)]
    [InlineData("1 stop", 3)]
    [InlineData("0", 0)]
    public void Stops_are_read_as_people_write_them_and_the_minus_covers_the_whole(string text, int thirds) =>
        Assert.Equal(thirds / 3.0, Stops.Parse(text).Value, 1e-12);

    // Derived: 24 in is 609.6 mm, 3.5 ft is 1066.8 mm by the definition of the inch.
    [Theory]
    [InlineData("60cm", 600)]
    [InlineData("60 CM", 600)]
    [InlineData("0.6m", 600)]
    [InlineData("600 mm", 600)]
    [InlineData("24in", 609.6)]
    [InlineData("24\"", 609.6)]
    [InlineData("3.5 ft", 1066.8)]
    [InlineData("3 1/2 ft", 1066.8)]
    public void Lengths_are_read_with_their_unit(string text, double millimetres) =>
        Assert.Equal(millimetres, Length.Parse(text).Millimetres, 1e-9);

    [Theory]
    [InlineData("")]
    [InlineData("60")]
    [InlineData("60 km")]
    [InlineData("-1 m")]
    [InlineData("cm")]
    [InlineData("NaN cm")]
    public void What_is_no_length_is_refused_with_a_sentence(string text)
    {
        Assert.False(Length.TryParse(text, out _, out string why));
        Assert.EndsWith(".", why, StringComparison.Ordinal);
        Assert.Throws<FormatException>(() => Length.Parse(text));
    }

    [Theory]
    [InlineData("0")]
    [InlineData("1/0")]
    [InlineData("-1/4")]
    [InlineData("0,3")]
    [InlineData("1/4/2")]
    [InlineData("1 2 3")]
    [InlineData("Infinity")]
    [InlineData("1e999")]
    [InlineData("quarter")]
    public void What_is_no_time_is_refused_with_a_sentence(string text)
    {
        Assert.False(ShutterTime.TryParse(text, out _, out string why));
        Assert.Contains(text, why, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void Values_without_meaning_are_refused(double value)
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => FNumber.FromRatio(value));
        Assert.Throws<ArgumentOutOfRangeException>(() => ShutterTime.FromSeconds(value));
        Assert.Throws<ArgumentOutOfRangeException>(() => Iso.FromSpeed(value));
        Assert.Throws<ArgumentOutOfRangeException>(() => Stops.FromRatio(value));
    }

    [Fact]
    public void Display_uses_the_true_minus_and_fractions()
    {
        Assert.Equal("\u22122/3", Stops.FromThirds(-2).ToDisplay());
        Assert.Equal("\u22122 1/3", Stops.FromThirds(-7).ToDisplay());
        Assert.Equal("0", Stops.Of(-0.01).ToDisplay());
        Assert.Equal("1/60 s", ShutterTime.Parse("1/60").ToDisplay());
        Assert.Equal("0.3 s", ShutterTime.Parse("0.3").ToDisplay());
        Assert.Equal("30 s", ShutterTime.Parse("30").ToDisplay());
        Assert.Equal("f/11", FNumber.Parse("11").ToDisplay());
        Assert.Equal("f/10.5", FNumber.FromRatio(10.5).ToDisplay());
        Assert.Equal("60 cm", Length.FromCentimetres(60).ToDisplay());
    }

    // Derived: what is printed in full reads back to the same double, whatever the culture of the machine.
    [Fact]
    public void Printing_and_reading_returns_the_same_value() =>
        Gen.Double[1e-6, 1e6].Sample(x =>
            Stops.Parse(Stops.Of(x).ToString()).Value == x
            && Stops.Parse(Stops.Of(-x).ToString()).Value == -x
            && ExposureValue.Parse(ExposureValue.Of(-x).ToString()).Value == -x
            && FNumber.Parse(FNumber.FromRatio(x).ToString(), NumberReading.Literal).Ratio == x
            && ShutterTime.Parse(ShutterTime.FromSeconds(x).ToString(), NumberReading.Literal).Seconds == x
            && Iso.Parse(Iso.FromSpeed(x).ToString(), NumberReading.Literal).Speed == x
            && Length.Parse(Length.FromMillimetres(x).ToString()).Millimetres == x);

    // Derived: thirds survive being shown and read; marks survive on all three dials.
    [Fact]
    public void Thirds_and_marks_survive_being_shown_and_read()
    {
        Gen.Int[-90, 90].Sample(k => Stops.Parse(Stops.FromThirds(k).ToDisplay()) == Stops.FromThirds(k));
        foreach (Mark mark in Marks.FNumbers(DialStep.Thirds).All)
            Assert.Equal(mark.Exact, FNumber.Parse(FNumber.FromRatio(mark.Exact).ToDisplay()).Ratio);
        foreach (Mark mark in Marks.Shutters(DialStep.Thirds).All)
            Assert.Equal(mark.Exact, ShutterTime.Parse(ShutterTime.FromSeconds(mark.Exact).ToDisplay()).Seconds);
        foreach (Mark mark in Marks.Isos(DialStep.Thirds).All)
            Assert.Equal(mark.Exact, Iso.Parse(Iso.FromSpeed(mark.Exact).ToDisplay()).Speed);
    }

    // Derived: rounding to thirds never moves a value by more than a sixth, and the third below never lies above.
    [Fact]
    public void Rounding_to_thirds_stays_within_a_sixth() =>
        Gen.Double[-20, 20].Sample(x =>
            Math.Abs(Stops.Of(x).NearestThird().Value - x) <= 1 / 6.0 + 1e-9
            && Stops.Of(x).ThirdAtOrBelow().Value is var low && low <= x + 1e-9 && low > x - 1 / 3.0 - 1e-9);

    // Derived: a decimal comma in the machine's culture changes nothing.
    [Fact]
    public void The_culture_of_the_machine_changes_nothing()
    {
        CultureInfo before = CultureInfo.CurrentCulture;
        var comma = (CultureInfo)CultureInfo.InvariantCulture.Clone();
        comma.NumberFormat.NumberDecimalSeparator = ",";
        comma.NumberFormat.NegativeSign = "~";
        try
        {
            CultureInfo.CurrentCulture = comma;
            Assert.Equal("0.3 s", ShutterTime.Parse("0.3").ToDisplay());
            Assert.Equal("-0.5", Stops.Of(-0.5).ToString());
            Assert.Equal(-0.5, Stops.Parse("-0.5").Value);
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }
}
