using Leafstop.Core.Quantities;

namespace Leafstop.Core.Optics;

/// <summary>An aperture with the contrast it leaves.</summary>
/// <param name="Aperture">Literal f-number, as set on the lens.</param>
/// <param name="Contrast">Contrast left of a full-contrast pattern at the worst place of the depth, 0 to 1.</param>
public sealed record ApertureContrast(FNumber Aperture, double Contrast);

/// <summary>The apertures that hold a depth.</summary>
/// <param name="Widest">The widest that holds it.</param>
/// <param name="Smallest">The smallest that holds it; past it diffraction takes too much.</param>
public sealed record ApertureRange(FNumber Widest, FNumber Smallest);

/// <summary>The aperture that keeps a whole depth sharpest: opened further the limits blur, closed further diffraction takes everything.</summary>
/// <remarks>Two methods that may differ by a stop and more: <see cref="Exact"/> maximises the exact contrast at one frequency, <see cref="ByRule(DepthDemand, Length)"/>
/// adds two blur diameters as if they were independent. Both are for a perfect lens: a real one is often at its best two or three stops from wide
/// open, and nothing here knows that.</remarks>
public static class SharpestAperture
{
    /// <summary>The widest aperture that is looked at.</summary>
    public static readonly FNumber WidestTried = FNumber.FromRatio(1);

    /// <summary>The smallest aperture that is looked at.</summary>
    public static readonly FNumber SmallestTried = FNumber.FromRatio(128);

    /// <summary>Contrast that a blur disc as wide as the finest detail leaves of a pattern of that detail, without diffraction: 2 J1(π) / π. The
    /// line that depth of field draws, said in contrast; to use it with diffraction in is our own reading.</summary>
    public static readonly double JustSharpContrast = BlurTransfer.DiscAlone(1, Length.FromMillimetres(1));

    private const int StepsPerStop = 6;
    private const double Golden = 0.6180339887498949;

    /// <summary>Contrast at the worst place between the limits; zero once the pattern has been lost anywhere between them.</summary>
    /// <remarks>Contrast falls with blur until the pattern is lost, and what comes back beyond that is reversed or false; so it is lost at the limits, or earlier.</remarks>
    /// <param name="demand">The depth.</param>
    /// <param name="aperture">Literal f-number.</param>
    /// <param name="linePairsPerMillimetre">Frequency on the sensor, above zero.</param>
    /// <param name="wavelength">Above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">Out of range.</exception>
    public static double Contrast(DepthDemand demand, FNumber aperture, double linePairsPerMillimetre, Length wavelength)
    {
        FNumber effective = demand.Lens.EffectiveAperture(aperture, demand.Focus);
        double x = linePairsPerMillimetre * Diffraction.Wave(wavelength) * effective.Ratio;
        if (x >= 1)
            return 0;
        double waves = BlurTransfer.WavesAtRim(demand.BlurAtLimits(aperture), effective, wavelength);
        // Until the cosine has gone through half a turn at the edge of the pupil nothing has been lost; a few turns on, it surely has.
        double turn = 1 / (8 * x * (1 - x));
        if (waves > 4 * turn)
            return 0;
        for (double at = turn; at < waves; at += turn / 8)
        {
            if (BlurTransfer.Exact(x, at) <= 0)
                return 0;
        }
        return Math.Max(0, BlurTransfer.Exact(x, waves));
    }

    /// <summary>The aperture of greatest contrast at the worst place of the depth; null when the pattern is lost at every aperture.</summary>
    /// <remarks>Searched from f/1 to f/128 in sixths of a stop and then closed in to a hundred-thousandth of a stop.</remarks>
    /// <param name="demand">The depth.</param>
    /// <param name="linePairsPerMillimetre">Frequency on the sensor, above zero: one over the circle of confusion for the print's finest detail.</param>
    /// <param name="wavelength">Above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">Out of range.</exception>
    public static ApertureContrast? Exact(DepthDemand demand, double linePairsPerMillimetre, Length wavelength)
    {
        Positive(linePairsPerMillimetre);
        double At(double stops) => Contrast(demand, OfStops(stops), linePairsPerMillimetre, wavelength);
        (double best, double contrast) = (0, 0);
        double last = StopsOf(SmallestTried);
        for (int step = 0; step <= last * StepsPerStop; step++)
        {
            double stops = (double)step / StepsPerStop;
            if (At(stops) is var found && found > contrast)
                (best, contrast) = (stops, found);
        }
        if (contrast <= 0)
            return null;
        double low = Math.Max(0, best - 1.0 / StepsPerStop);
        double high = Math.Min(last, best + 1.0 / StepsPerStop);
        while (high - low > 1e-5)
        {
            double left = high - Golden * (high - low);
            double right = low + Golden * (high - low);
            if (At(left) < At(right))
                low = left;
            else
                high = right;
        }
        FNumber aperture = OfStops((low + high) / 2);
        return new ApertureContrast(aperture, Contrast(demand, aperture, linePairsPerMillimetre, wavelength));
    }

    /// <summary>The apertures, around the sharpest, that leave at least a wanted contrast everywhere in the depth; null when none does.</summary>
    /// <param name="demand">The depth.</param>
    /// <param name="linePairsPerMillimetre">Frequency on the sensor, above zero.</param>
    /// <param name="wavelength">Above zero.</param>
    /// <param name="contrast">Wanted, above 0 and below 1; <see cref="JustSharpContrast"/> for depth of field as it is usually drawn.</param>
    /// <exception cref="ArgumentOutOfRangeException">Out of range.</exception>
    public static ApertureRange? Holding(DepthDemand demand, double linePairsPerMillimetre, Length wavelength, double contrast)
    {
        if (contrast is not (> 0 and < 1))
            throw new ArgumentOutOfRangeException(nameof(contrast), contrast, "A contrast is between 0 and 1.");
        return Exact(demand, linePairsPerMillimetre, wavelength) is { } best ? Holding(demand, best, linePairsPerMillimetre, wavelength, contrast) : null;
    }

    /// <summary>The same around a sharpest aperture that is known already.</summary>
    internal static ApertureRange? Holding(DepthDemand demand, ApertureContrast best, double linePairsPerMillimetre, Length wavelength, double contrast)
    {
        if (best.Contrast < contrast)
            return null;
        double Edge(double holds, double fails)
        {
            if (Contrast(demand, OfStops(fails), linePairsPerMillimetre, wavelength) >= contrast)
                return fails;
            while (Math.Abs(holds - fails) > 1e-6)
            {
                double middle = (holds + fails) / 2;
                if (Contrast(demand, OfStops(middle), linePairsPerMillimetre, wavelength) >= contrast)
                    holds = middle;
                else
                    fails = middle;
            }
            return holds;
        }
        double stops = StopsOf(best.Aperture);
        return new ApertureRange(OfStops(Edge(stops, 0)), OfStops(Edge(stops, StopsOf(SmallestTried))));
    }

    /// <summary>The rule of practice: the f-number that makes √((D / 2N)² + (2.44 λ N)²) least, N = √(D / (2 · 2.44 λ)). Rows DIF-17, DIF-19.</summary>
    /// <remarks>A convention, not physics: the two blurs are neither Gaussian nor independent. It knows no print and no frequency.</remarks>
    /// <param name="focusSpread">Distance between the sharp images of the limits, above zero.</param>
    /// <param name="wavelength">Above zero.</param>
    /// <returns>An effective f-number.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Zero.</exception>
    public static FNumber ByRule(Length focusSpread, Length wavelength) => focusSpread.Millimetres > 0
        ? FNumber.FromRatio(Math.Sqrt(focusSpread.Millimetres / (2 * RuleConstant * Diffraction.Wave(wavelength))))
        : throw new ArgumentOutOfRangeException(nameof(focusSpread), focusSpread.Millimetres, "A focus spread is above zero.");

    /// <summary>The rule of practice for a depth, as the f-number to set.</summary>
    /// <param name="demand">The depth.</param>
    /// <param name="wavelength">Above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">The wavelength is zero.</exception>
    public static FNumber ByRule(DepthDemand demand, Length wavelength) => FNumber.FromRatio(
        ByRule(demand.FocusSpread, wavelength).Ratio / (1 + demand.Lens.Magnification(demand.Focus) / demand.Lens.PupilRatio));

    /// <summary>The blur diameter at the limits by the same rule. Row DIF-19.</summary>
    /// <param name="focusSpread">Distance between the sharp images of the limits.</param>
    /// <param name="effective">Effective f-number.</param>
    /// <param name="wavelength">Above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">The wavelength is zero.</exception>
    public static Length BlurByRule(Length focusSpread, FNumber effective, Length wavelength) => Length.FromMillimetres(double.Hypot(
        focusSpread.Millimetres / (2 * effective.Ratio), RuleConstant * Diffraction.Wave(wavelength) * effective.Ratio));

    /// <summary>Stops of light from one aperture to another: positive when the second lets in more.</summary>
    public static Stops Light(FNumber from, FNumber to) => Stops.Of(2 * Math.Log2(from.Ratio / to.Ratio));

    // The rule is used with the rounded constant.
    private const double RuleConstant = 2.44;

    private static FNumber OfStops(double stops) => FNumber.FromRatio(Math.Pow(2, stops / 2));

    private static double StopsOf(FNumber aperture) => 2 * Math.Log2(aperture.Ratio);

    private static void Positive(double linePairsPerMillimetre)
    {
        if (!double.IsFinite(linePairsPerMillimetre) || linePairsPerMillimetre <= 0)
            throw new ArgumentOutOfRangeException(nameof(linePairsPerMillimetre), linePairsPerMillimetre, "A frequency is finite and above zero.");
    }
}
