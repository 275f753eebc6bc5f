using Leafstop.Core.Quantities;

namespace Leafstop.Core.Tests.Quantities;

public sealed class MarksTests
{
    // Published: EXP-37 (F3), the sixth-root-of-two series; the source prints three decimals.
    [Fact]
    public void Third_stop_f_numbers_are_powers_of_the_sixth_root_of_two()
    {
        double[] published =
        [
            1.000, 1.122, 1.260, 1.414, 1.587, 1.782, 2.000, 2.245, 2.520, 2.828, 3.175, 3.564, 4.000, 4.490, 5.040, 5.657,
            6.350, 7.127, 8.000,
        ];
        for (int k = 0; k < published.Length; k++)
            Assert.Equal(published[k], Marks.FNumbers(DialStep.Thirds).All[k].Exact, 5e-4);
    }

    // EXP-39 (from memory): whole-stop markings; f/11 stands for 11.314, f/22 for 22.627, f/45 for 45.255.
    [Fact]
    public void Whole_stop_apertures_carry_the_marks_that_lenses_carry()
    {
        Assert.Equal([1, 1.4, 2, 2.8, 4, 5.6, 8, 11, 16, 22, 32, 45, 64], Marks.FNumbers(DialStep.Wholes).All.Select(m => m.Label));
        Assert.Equal(11.314, FNumber.FromMarking(11).Ratio, 5e-4);
        Assert.Equal(22.627, FNumber.FromMarking(22).Ratio, 5e-4);
        Assert.Equal(45.255, FNumber.FromMarking(45).Ratio, 5e-4);
    }

    // EXP-40 (from memory): marks of the shutter dial and the exact powers of two behind them.
    [Theory]
    [InlineData("1/15", 1 / 16.0)]
    [InlineData("1/30", 1 / 32.0)]
    [InlineData("1/60", 1 / 64.0)]
    [InlineData("1/125", 1 / 128.0)]
    [InlineData("1/250", 1 / 256.0)]
    [InlineData("15 s", 16)]
    [InlineData("30 s", 32)]
    public void Shutter_marks_stand_for_exact_powers_of_two(string mark, double seconds) =>
        Assert.Equal(seconds, ShutterTime.Parse(mark).Seconds, 1e-12);

    // EXP-41 (derived): ISO marks in thirds against 100 · 2^(k/3), two decimals given.
    [Theory]
    [InlineData(100, 100)]
    [InlineData(125, 125.99)]
    [InlineData(160, 158.74)]
    [InlineData(200, 200)]
    [InlineData(250, 251.98)]
    [InlineData(320, 317.48)]
    [InlineData(400, 400)]
    [InlineData(500, 503.97)]
    [InlineData(640, 634.96)]
    [InlineData(800, 800)]
    [InlineData(1000, 1007.94)]
    [InlineData(1250, 1269.92)]
    [InlineData(1600, 1600)]
    public void ISO_marks_stand_for_thirds_of_a_stop(double mark, double exact)
    {
        Assert.Equal(exact, Iso.FromMarking(mark).Speed, 5e-3);
        Assert.Equal(mark, Iso.FromSpeed(exact).NearestDial().Speed);
    }

    // Derived: a label never lies further than half its step from the power it stands for, on every dial.
    [Theory]
    [InlineData(DialStep.Thirds)]
    [InlineData(DialStep.Halves)]
    [InlineData(DialStep.Wholes)]
    public void Every_label_is_nearest_to_its_own_power(DialStep step)
    {
        foreach (MarkSeries dial in new[] { Marks.FNumbers(step), Marks.Shutters(step), Marks.Isos(step) })
        {
            foreach (Mark mark in dial.All)
            {
                Assert.Equal(mark, dial.Nearest(mark.Label));
                Assert.Equal(mark.Label, dial.LabelOf(mark.Exact));
            }
        }
    }

    // Published: job figures, limits scale to 356, 139, 1800 and 2200 and are dialled 320, 125, 1600 and 2000.
    [Theory]
    [InlineData(355.6, 320)]
    [InlineData(138.9, 125)]
    [InlineData(1800, 1600)]
    [InlineData(2222, 2000)]
    [InlineData(800, 800)]
    [InlineData(500, 500)]
    [InlineData(503.968419957949, 500)]
    [InlineData(0.5, 0.8)]
    public void A_limit_is_dialled_at_the_mark_at_or_below(double limit, double dial) =>
        Assert.Equal(dial, Iso.FromSpeed(limit).DialAtOrBelow().Speed);

    // Derived: half-way between ISO 100 and 125 in stops is 100 · 2^(1/6).
    [Fact]
    public void Half_way_between_two_marks_goes_up() =>
        Assert.Equal(125, Iso.FromSpeed(100 * Math.Pow(2, 1 / 6.0)).NearestDial().Speed);

    // Derived: longest shutter is the mark at or below; 1/163 dials 1/200, whose exact time is 2^(-23/3).
    [Fact]
    public void A_longest_shutter_is_dialled_at_the_mark_below() =>
        Assert.Equal("1/200 s", ShutterTime.FromSeconds(1 / 163.0).MarkAtOrBelow().ToDisplay());
}
