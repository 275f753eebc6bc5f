namespace Leafstop.Core.Optics;

/// <summary>Bessel functions of the first kind for real arguments, orders 0 and 1, to 2e-15 of their largest value.</summary>
/// <remarks>The library's own go by way of complex numbers: slow where a browser interprets, and a third of the library to fetch.</remarks>
public static class Bessel
{
    private const int Points = 48;

    private static readonly double[] Sines = [.. Enumerable.Range(0, Points).Select(i => Math.Sin(Angle(i)))];

    /// <summary>J0.</summary>
    /// <param name="x">Finite and not below zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">It is not.</exception>
    public static double J0(double x) => J(0, x);

    /// <summary>J1.</summary>
    /// <param name="x">Finite and not below zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">It is not.</exception>
    public static double J1(double x) => J(1, x);

    private static double J(int order, double x)
    {
        if (!(double.IsFinite(x) && x >= 0))
            throw new ArgumentOutOfRangeException(nameof(x), x, "The argument of a Bessel function is finite and not below zero here.");
        return x < 2 ? Series(order, x) : x < 25 ? Integral(order, x) : Far(order, x);
    }

    private static double Angle(int point) => Math.PI * (point + 0.5) / Points;

    /// <summary>The power series, DLMF 10.2.2.</summary>
    private static double Series(int order, double x)
    {
        double term = order == 0 ? 1 : x / 2, sum = 0;
        for (int k = 1; Math.Abs(term) > 1e-18 * Math.Abs(sum); k++)
        {
            sum += term;
            term *= -x * x / 4 / (k * (k + order));
        }
        return sum;
    }

    /// <summary>Bessel's integral, DLMF 10.9.2: the mean of cos(nθ − x sin θ) over half a turn. The integrand is periodic, so equal steps leave an error of the size of J of order 2 × 48: below rounding for x under 30.</summary>
    private static double Integral(int order, double x)
    {
        double sum = 0;
        for (int i = 0; i < Points; i++)
            sum += Math.Cos((order * Angle(i)) - (x * Sines[i]));
        return sum / Points;
    }

    /// <summary>Hankel's expansion for large arguments, DLMF 10.17.3.</summary>
    private static double Far(int order, double x)
    {
        double term = 1, even = 0, odd = 0;
        for (int k = 0; Math.Abs(term) > 1e-17; k++)
        {
            double signed = k % 4 < 2 ? term : -term;
            if (k % 2 == 0)
                even += signed;
            else
                odd += signed;
            term *= ((4.0 * order * order) - ((2.0 * k + 1) * (2.0 * k + 1))) / ((k + 1) * 8 * x);
        }
        double phase = x - ((order / 2.0 + 0.25) * Math.PI);
        return Math.Sqrt(2 / (Math.PI * x)) * ((even * Math.Cos(phase)) - (odd * Math.Sin(phase)));
    }
}
