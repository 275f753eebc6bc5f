using CsCheck;
using Leafstop.Core.Exposure;
using Leafstop.Core.Quantities;

namespace Leafstop.Core.Tests.Exposure;

public sealed class FilterTests
{
    // Published formula, EXP-44 (ND): D 0.3 is 0.99658 stop and a factor of 1.99526; D 3.0 is 9.96578 stops and 1000.
    [Theory]
    [InlineData("density 0.3", 0.99658, 1.99526)]
    [InlineData("density 3.0", 9.96578, 1000)]
    public void A_density_is_taken_literally(string text, double stops, double factor)
    {
        var filter = Filter.Parse(text);
        Assert.Equal(stops, filter.Stops.Value, 1e-5);
        Assert.Equal(factor, filter.Factor, factor * 1e-5);
    }

    // Published: EXP-45 (ND), the label table; labels are the nearest third of what the density takes.
    [Theory]
    [InlineData(0.1, "1/3")]
    [InlineData(0.2, "2/3")]
    [InlineData(0.3, "1")]
    [InlineData(0.6, "2")]
    [InlineData(0.9, "3")]
    [InlineData(1.8, "6")]
    [InlineData(2.0, "6 2/3")]
    [InlineData(3.0, "10")]
    public void A_label_is_the_nearest_third(double density, string label)
    {
        var filter = Filter.FromDensity(density);
        Assert.Equal(label, filter.LabelStops.ToDisplay());
        Assert.InRange(Math.Abs(filter.LabelStops.Value - filter.Stops.Value), 0, 0.035);
    }

    // Derived: EXP-48. 1/30 s through ten stops is 34.13333 s; 1/15 s through density 2.0 is 6.66667 s; literal times, five decimals printed.
    [Fact]
    public void A_filter_lengthens_the_exposure()
    {
        Assert.Equal(34.13333, new FilterSet([Filter.FromStops(Stops.Of(10))]).Lengthen(ShutterTime.FromSeconds(1 / 30.0)).Seconds, 1e-5);
        Assert.Equal(6.66667, new FilterSet([Filter.FromDensity(2)]).Lengthen(ShutterTime.FromSeconds(1 / 15.0)).Seconds, 1e-5);
    }

    // Derived.
    [Theory]
    [InlineData("polariser 1.5", FilterKind.Polariser, 1.5)]
    [InlineData("Polariser 1 1/3", FilterKind.Polariser, 4 / 3.0)]
    [InlineData("nd8", FilterKind.NeutralDensity, 3)]
    [InlineData("ND 64", FilterKind.NeutralDensity, 6)]
    [InlineData("factor 8", FilterKind.NeutralDensity, 3)]
    [InlineData("3 stops", FilterKind.Other, 3)]
    [InlineData("1/3", FilterKind.Other, 1 / 3.0)]
    [InlineData("graduated 2", FilterKind.Other, 2)]
    public void Filters_are_read_as_people_write_them(string text, FilterKind kind, double stops)
    {
        var filter = Filter.Parse(text);
        Assert.Equal(kind, filter.Kind);
        Assert.Equal(stops, filter.Stops.Value, 1e-12);
    }

    // Published: job, a polariser takes 1.5 stops (1 to 2), a rule of thumb.
    [Fact]
    public void A_polariser_without_a_number_is_a_rule_of_thumb()
    {
        var filter = Filter.Parse("polariser");
        Assert.Equal((1.5, HowKnown.RuleOfThumb), (filter.Stops.Value, filter.How));
        Assert.Equal(HowKnown.WorkedOut, Filter.Parse("polariser 1.5").How);
    }

    [Theory]
    [InlineData("", "missing")]
    [InlineData("nd", "how much light")]
    [InlineData("nd 0.9", "two ways")]
    [InlineData("polariser much", "no filter that is known")]
    [InlineData("polariser -1", "less than no light")]
    [InlineData("60 stops", "more than 30 stops")]
    [InlineData("density NaN", "no filter that is known")]
    [InlineData("nd0", "less than no light")]
    public void What_is_no_filter_is_told_why(string text, string told)
    {
        Assert.False(Filter.TryParse(text, out _, out string why));
        Assert.Contains(told, why, StringComparison.Ordinal);
    }

    // Derived: stops of a stack add up; taking one off takes its stops off.
    [Fact]
    public void Stops_of_a_stack_add_up()
    {
        Assert.True(FilterSet.TryParse("polariser 1.5 + nd8, 1 stop", out FilterSet set, out _));
        Assert.Equal(5.5, set.Total.Value, 1e-12);
        Assert.Equal(4, set.Without(set.First(FilterKind.Polariser)!).Total.Value, 1e-12);
        Assert.True(FilterSet.TryParse("none", out FilterSet none, out _) && none.IsEmpty);
    }

    // Derived: factor, density and stops are three ways to write one thing.
    [Fact]
    public void Factor_density_and_stops_agree() => Gen.Double[0, 20].Sample(stops =>
    {
        var filter = Filter.FromStops(Stops.Of(stops));
        return Math.Abs(Filter.FromFactor(filter.Factor).Stops.Value - stops) < 1e-9
            && Math.Abs(Filter.FromDensity(filter.Density).Stops.Value - stops) < 1e-9;
    });
}
