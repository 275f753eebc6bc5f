using Leafstop.Core.Optics;

namespace Leafstop.Core.Motion;

/// <summary>The contrast that motion leaves in fine detail: modulation transfer, 1 for none lost, 0 for all.</summary>
/// <remarks>Standard forms, rows B-10 to B-12 and MOT-03. The argument is the motion in periods of the detail: length on the sensor × cycles per unit of length
/// there. Detail along the motion keeps its contrast.</remarks>
public static class SmearContrast
{
    /// <summary>Steady motion: |sin(πx)/(πx)|, x = smear × frequency. Half is left at 0.60335.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or below zero.</exception>
    public static double Steady(double smearInPeriods)
    {
        double x = Math.PI * Valid(smearInPeriods);
        return x == 0 ? 1 : Math.Abs(Math.Sin(x) / x);
    }

    /// <summary>A long look at a swing: |J0(2πx)|, x = amplitude × frequency. Half is left at 0.24210.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or below zero.</exception>
    public static double Swaying(double amplitudeInPeriods) =>
        Math.Abs(Bessel.J0(2 * Math.PI * Valid(amplitudeInPeriods)));

    /// <summary>Random jitter of normal distribution: e^(−2π²x²), x = standard deviation × frequency.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite or below zero.</exception>
    public static double Jittering(double deviationInPeriods) => Math.Exp(-2 * Math.Pow(Math.PI * Valid(deviationInPeriods), 2));

    /// <summary>Steady motion seen in several exposures with gaps between them: |sinc(uνt)·sin(nπuνP)/(n·sin(πuνP))|, P = exposure + gap. Row M-06.</summary>
    /// <remarks>A gap shows as dots in a streak once the travel during it exceeds the bright fleck.</remarks>
    /// <param name="smearInPeriods">Travel during one exposure, in periods of the detail.</param>
    /// <param name="stepInPeriods">Travel from the start of one exposure to the start of the next; not less.</param>
    /// <param name="frames">Exposures added, 1 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">Out of range.</exception>
    public static double SteadyWithGaps(double smearInPeriods, double stepInPeriods, int frames)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(frames, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(Valid(stepInPeriods), smearInPeriods);
        // Whole periods between frames add up in step and would be 0/0.
        double apart = Math.PI * (stepInPeriods - Math.Round(stepInPeriods));
        double together = Math.Abs(apart) < 1e-9 ? 1 : Math.Abs(Math.Sin(frames * apart) / (frames * Math.Sin(apart)));
        return Steady(smearInPeriods) * together;
    }

    private static double Valid(double periods) => double.IsFinite(periods) && periods >= 0
        ? periods
        : throw new ArgumentOutOfRangeException(nameof(periods), periods, "Motion in periods of the detail is finite and not below zero.");
}
