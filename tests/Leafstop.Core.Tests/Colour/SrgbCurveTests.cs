using CsCheck;
using Leafstop.Core.Colour;

namespace Leafstop.Core.Tests.Colour;

public sealed class SrgbCurveTests
{
    [Theory]
    [InlineData(0.18, 0.461356129500442, 1e-12)] // Published: PER-25, tests of the colour-science library.
    [InlineData(0.5, 0.7353570, 1e-7)] // Published: PER-26, formula of IEC 61966-2-1, value computed elsewhere.
    [InlineData(0.001, 0.01292, 1e-7)]
    [InlineData(0.9, 0.9546872, 1e-7)]
    public void Linear_light_is_coded_as_published(double linear, double coded, double tolerance) =>
        Assert.Equal(coded, SrgbCurve.Encode(linear), tolerance);

    [Theory] // Published: PER-27, 8-bit values, seven decimals printed.
    [InlineData(118, 0.1811642)]
    [InlineData(128, 0.2158605)]
    [InlineData(188, 0.5028865)]
    [InlineData(10, 0.0030353)]
    public void Eight_bit_values_are_decoded_as_published(int coded, double linear) =>
        Assert.Equal(linear, SrgbCurve.Decode(coded / 255.0), 1e-7);

    // Derived: a round trip. The published knees leave a gap of about 3e-8 in linear light, elsewhere rounding only.
    [Fact]
    public void There_and_back_is_where_it_was_also_below_black_and_above_white() =>
        Gen.Double[-0.5, 3].Sample(v => Math.Abs(SrgbCurve.Decode(SrgbCurve.Encode(v)) - v) < 1e-7);

    // Derived: the curve rises.
    [Fact]
    public void More_light_is_a_higher_value() =>
        Gen.Select(Gen.Double[-0.5, 2], Gen.Double[1e-6, 1]).Sample((v, more) => SrgbCurve.Encode(v + more) > SrgbCurve.Encode(v));
}
