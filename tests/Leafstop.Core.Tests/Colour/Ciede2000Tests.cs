using CsCheck;
using Leafstop.Core.Colour;

namespace Leafstop.Core.Tests.Colour;

public sealed class Ciede2000Tests
{
    [Theory] // Published: rows DE-01 to DE-18, Sharma, Wu and Dalal 2005, Table 1, four decimals printed. The pair on the jump of the mean hue is left out.
    [InlineData(50.0000, 2.6772, -79.7751, 50.0000, 0.0000, -82.7485, 2.0425)] // DE-01
    [InlineData(50.0000, 2.8361, -74.0200, 50.0000, 0.0000, -82.7485, 3.4412)] // DE-03
    [InlineData(50.0000, -1.1848, -84.8006, 50.0000, 0.0000, -82.7485, 1.0000)] // DE-04
    [InlineData(50.0000, 0.0000, 0.0000, 50.0000, -1.0000, 2.0000, 2.3669)] // DE-05
    [InlineData(50.0000, 2.4900, -0.0010, 50.0000, -2.4900, 0.0011, 7.2195)] // DE-07
    [InlineData(50.0000, -0.0010, 2.4900, 50.0000, 0.0011, -2.4900, 4.7461)] // DE-09
    [InlineData(50.0000, 2.5000, 0.0000, 73.0000, 25.0000, -18.0000, 27.1492)] // DE-10
    [InlineData(50.0000, 2.5000, 0.0000, 58.0000, 24.0000, 15.0000, 19.4535)] // DE-12
    [InlineData(60.2574, -34.0099, 36.2677, 60.4626, -34.1751, 39.4387, 1.2644)] // DE-13
    [InlineData(35.0831, -44.1164, 3.7933, 35.0232, -40.0716, 1.5901, 1.8645)] // DE-15
    [InlineData(22.7233, 20.0904, -46.6940, 23.0331, 14.9730, -42.5619, 2.0373)] // DE-16
    [InlineData(6.7747, -0.2908, -2.4247, 5.8714, -0.0985, -2.2286, 0.6377)] // DE-18
    public void Differences_are_as_published(double l1, double a1, double b1, double l2, double a2, double b2, double difference)
    {
        Lab first = new(l1, a1, b1), second = new(l2, a2, b2);
        Assert.Equal(difference, Ciede2000.Difference(first, second), 5e-5);
        Assert.Equal(difference, Ciede2000.Difference(second, first), 5e-5); // Derived: it does not matter which comes first.
    }

    [Fact] // Derived: nothing differs from itself, and greys of equal lightness are one colour.
    public void A_colour_does_not_differ_from_itself() =>
        Gen.Select(Gen.Double[0, 100], Gen.Double[-100, 100], Gen.Double[-100, 100]).Sample((l, a, b) =>
            Ciede2000.Difference(new Lab(l, a, b), new Lab(l, a, b)) == 0);
}
