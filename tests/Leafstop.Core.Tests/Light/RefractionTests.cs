using Leafstop.Core.Light;
using Leafstop.Core.Quantities;

namespace Leafstop.Core.Tests.Light;

public class RefractionTests
{
    // Published: S-14, formula of [NOAA]; values computed, 1e-5°.
    [Theory]
    [InlineData(0, 0.48194)]
    [InlineData(1, 0.36337)]
    [InlineData(2, 0.28368)]
    [InlineData(10, 0.08812)]
    [InlineData(45, 0.01612)]
    [InlineData(90, 0)]
    public void The_government_form_gives_the_published_lift(double altitude, double lift) =>
        Assert.Equal(lift, Refraction.ByNoaa(Angle.FromDegrees(altitude)).Degrees, 1e-5);

    // Published: S-15; the first value stands in [SPA]; 1e-6°.
    [Theory]
    [InlineData(820, 11, 39.872046, 0.016332)]
    [InlineData(1010, 10, 0, 0.483032)]
    [InlineData(1013.25, 15, 5, 0.158946)]
    public void The_form_of_the_position_algorithm_gives_the_published_lift(double pressure, double temperature, double altitude, double lift) =>
        Assert.Equal(lift, Refraction.BySpa(Angle.FromDegrees(altitude), pressure, temperature).Degrees, 1e-6);

    // Published (form from memory): S-16, 0.01′.
    [Theory]
    [InlineData(0, 34.48)]
    [InlineData(1, 24.33)]
    [InlineData(5, 9.88)]
    [InlineData(10, 5.39)]
    [InlineData(20, 2.70)]
    public void Bennetts_form_gives_the_lift_from_the_height_that_is_seen(double apparent, double arcMinutes) =>
        Assert.Equal(arcMinutes, Refraction.FromApparent(Angle.FromDegrees(apparent)).Arcminutes, 0.01);

    [Fact]
    public void Air_that_cannot_be_is_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Refraction.BySpa(Angle.FromDegrees(1), double.NaN, 10));
}
