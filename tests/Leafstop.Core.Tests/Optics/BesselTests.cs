using Leafstop.Core.Optics;
using MathNet.Numerics;

namespace Leafstop.Core.Tests.Optics;

public sealed class BesselTests
{
    // Published: Abramowitz and Stegun, Table 9.1, 15 and 10 decimals, from memory. Tolerance: their last place.
    [Theory]
    [InlineData(0, 0, 1, 1e-15)]
    [InlineData(0, 1, 0.765197686557967, 1e-15)]
    [InlineData(1, 1, 0.4400505857, 1e-10)]
    [InlineData(0, 5, -0.177596771314338, 1e-15)]
    [InlineData(1, 5, -0.3275791376, 1e-10)]
    public void Values_of_the_tables(int order, double x, double value, double tolerance) => Assert.Equal(value, Ours(order, x), tolerance);

    // Derived: another method (complex, by recurrence and Debye's expansions) in an independent library. Tolerance: rounding of about ten operations on numbers up to 1; far out, that of the phase.
    [Fact]
    public void Agrees_with_an_independent_library_from_nothing_to_far_out()
    {
        for (double x = 0.001; x < 3000; x *= 1.003)
        {
            for (int order = 0; order < 2; order++)
                Assert.Equal(SpecialFunctions.BesselJ(order, x), Ours(order, x), Math.Max(1e-14, x * 1e-16));
        }
    }

    [Theory]
    [InlineData(-1e-9)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void Refuses_what_is_no_argument(double x)
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Bessel.J0(x));
        Assert.Throws<ArgumentOutOfRangeException>(() => Bessel.J1(x));
    }

    private static double Ours(int order, double x) => order == 0 ? Bessel.J0(x) : Bessel.J1(x);
}
