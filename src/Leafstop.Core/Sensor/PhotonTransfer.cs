using System.Collections.Immutable;
using MathNet.Numerics.Distributions;

namespace Leafstop.Core.Sensor;

/// <summary>The photon-transfer fit: temporal variance against mean signal is a straight line whose slope is the inverse gain.</summary>
/// <remarks>
/// <para>s² = σ² + μ/g with s² the temporal variance of one frame (DN²), μ the signal above black (DN), g the gain (e⁻/DN) and
/// σ the read noise (DN), quantisation included. Source: reference A5 (EMVA 1288 as coded in the reference implementation, SEN-01, SEN-03).</para>
/// <para>Each point is weighted by the inverse of its own expected variance under the fitted line,
/// Var(s²) = s⁴ (2/ν + κ/n): ν degrees of freedom, κ = μ k³ / 2s⁴ the excess kurtosis of a difference of Poisson counts (SEN-29).
/// Weights come from the line and not from the scattered points, which would pull the line down.</para>
/// </remarks>
public static class PhotonTransfer
{
    /// <summary>The line is fitted up to this share of the way from black to clip. Source: EMVA 1288, from memory (reference A5).</summary>
    public const double FittedShare = 0.70;

    private const int LeastDegreesOfFreedom = 20;
    private const int Rounds = 50;

    /// <summary>Fits one plane.</summary>
    /// <param name="bins">Noise against signal, DN.</param>
    /// <param name="blackDn">Black level, DN.</param>
    /// <param name="clipDn">Clip level, DN; bins above <see cref="FittedShare"/> of the way from black to clip are left out.</param>
    /// <param name="darkVariance">Variance of cap frames in DN² with its 95 % interval; null to take the read noise from the line itself.</param>
    /// <param name="blackErrorDn">Standard error of the black level, DN.</param>
    public static FitOutcome Fit(ImmutableArray<SignalBin> bins, double blackDn, double clipDn, Estimate? darkVariance, double blackErrorDn = 0)
    {
        double top = FittedShare * (clipDn - blackDn);
        Point[] points = [.. bins
            .Where(b => b.DegreesOfFreedom >= LeastDegreesOfFreedom && b.MeanRawDn - blackDn <= top)
            .Select(b => new Point(b.MeanRawDn - blackDn, b.VarianceDn2, b.DegreesOfFreedom))];
        if (points.Length < 3) return FitOutcome.Refused($"{points.Length} {(points.Length == 1 ? "tone" : "tones")} below the highlights; a line needs 3.");
        double least = points.Min(p => p.Signal), most = points.Max(p => p.Signal);
        if (most < 4 * Math.Max(least, 0) || most - least < 1) return FitOutcome.Refused("All tones are nearly the same; a line needs darks and lights.");

        double? fixedIntercept = darkVariance?.Value;
        VarianceLine line = Start(points, fixedIntercept);
        for (int round = 0; round < Rounds; round++)
        {
            VarianceLine next = fixedIntercept is { } dark ? Through(points, line, dark) : Free(points, line);
            if (!(next.Slope > 0)) return FitOutcome.Refused("Noise does not rise with light.");
            bool settled = Math.Abs(next.Slope - line.Slope) <= 1e-12 * next.Slope
                && Math.Abs(next.Intercept - line.Intercept) <= 1e-12 * Math.Abs(next.Intercept);
            line = next;
            if (settled) break;
        }

        return Judge(points, WithOutsideErrors(points, line, darkVariance, blackErrorDn), fixedIntercept is null ? 2 : 1);
    }

    /// <summary>Joins the fits of the planes of one level, each weighted by its error, as if all planes had one amplifier.</summary>
    /// <remarks>Where the planes differ by more than their errors allow (p below 0.001) the joint interval is widened by the excess.</remarks>
    public static FitOutcome Join(IReadOnlyList<FitOutcome> planes)
    {
        FitOutcome[] fitted = [.. planes.Where(p => p.Line is not null)];
        if (fitted.Length == 0) return FitOutcome.Refused(planes.Select(p => p.Refusal).FirstOrDefault(r => r is not null) ?? "No plane could be fitted.");
        if (fitted.Length == 1) return fitted[0];

        double a = 0, b = 0, c = 0, u = 0, v = 0;
        foreach (var (line, (p, q, r)) in fitted.Select(f => (f.Line!, Inverse(f.Line!))))
        {
            a += p; b += q; c += r;
            u += p * line.Intercept + q * line.Slope;
            v += q * line.Intercept + r * line.Slope;
        }

        double determinant = a * c - b * b;
        var joint = new VarianceLine((c * u - b * v) / determinant, (a * v - b * u) / determinant, c / determinant, -b / determinant, a / determinant);
        double chiSquared = fitted.Sum(f => Distance(f.Line!, joint));
        int freedom = 2 * (fitted.Length - 1);
        if (1 - ChiSquared.CDF(freedom, chiSquared) < 1e-3) joint = joint.Widened(chiSquared / freedom);
        return Outcome(joint) with
        {
            ReducedChiSquared = fitted.Average(f => f.ReducedChiSquared),
            ExcessDeviation = fitted.Average(f => f.ExcessDeviation),
            IsNotLinear = fitted.Count(f => f.IsNotLinear) * 2 > fitted.Length,
        };
    }

    /// <summary>The variance of a pair of cap frames, all bins pooled, DN², with its 95 % interval (SEN-36: √(2/ν) of the variance).</summary>
    public static Estimate DarkVariance(ImmutableArray<SignalBin> bins)
    {
        double freedom = bins.Sum(b => (double)b.DegreesOfFreedom);
        if (freedom <= 0) throw new ArgumentException("A pair of cap frames has at least one tile.", nameof(bins));
        double variance = bins.Sum(b => b.DegreesOfFreedom * b.VarianceDn2) / freedom;
        double half = Estimate.Normal95 * variance * Math.Sqrt(2 / freedom);
        return new Estimate(variance, variance - half, variance + half);
    }

    /// <summary>All temporal noise of a pixel without light, DN: read noise and the row offsets that were taken out of it. Column offsets never left it.</summary>
    /// <param name="readVarianceDn2">Variance without row offsets, DN², as of <see cref="DarkVariance"/>.</param>
    /// <param name="rowNoiseDn">Standard deviation of the row offsets of one frame, DN; see <see cref="RowNoiseDn"/>.</param>
    /// <remarks>Independent parts, so their variances add (GUM). EMVA 1288's temporal dark noise is this whole (SEN-03, SEN-04).</remarks>
    public static double DarkNoiseDn(double readVarianceDn2, double rowNoiseDn) => Math.Sqrt(readVarianceDn2 + rowNoiseDn * rowNoiseDn);

    /// <summary>Row offset noise of one frame over all its planes and pairs, DN: the root of their mean square.</summary>
    /// <param name="planes">Planes of pairs, at least one.</param>
    public static double RowNoiseDn(IEnumerable<PairPlane> planes) => Math.Sqrt(planes.Average(p => p.RowNoiseDn * p.RowNoiseDn));

    private static VarianceLine Start(Point[] points, double? fixedIntercept)
    {
        double slope = points.Sum(p => p.Freedom * Math.Max(0, p.Variance)) / points.Sum(p => p.Freedom * Math.Max(p.Signal, 1));
        return new VarianceLine(fixedIntercept ?? points.Min(p => Math.Max(p.Variance, 1e-6)), slope, 0, 0, 0);
    }

    private static double Weight(Point p, VarianceLine line)
    {
        double floor = Math.Max(Math.Abs(line.Intercept), 1e-3);
        double variance = Math.Max(line.Intercept + line.Slope * p.Signal, 0.1 * floor);
        double excessKurtosis = line.Slope * line.Slope * line.Slope * Math.Max(p.Signal, 0) / (2 * variance * variance);
        return p.Freedom / (variance * variance * (2 + excessKurtosis));
    }

    private static VarianceLine Free(Point[] points, VarianceLine line)
    {
        double w = 0, wx = 0, wxx = 0, wy = 0, wxy = 0;
        foreach (Point p in points)
        {
            double weight = Weight(p, line);
            w += weight;
            wx += weight * p.Signal;
            wxx += weight * p.Signal * p.Signal;
            wy += weight * p.Variance;
            wxy += weight * p.Signal * p.Variance;
        }

        double determinant = w * wxx - wx * wx;
        return new VarianceLine((wxx * wy - wx * wxy) / determinant, (w * wxy - wx * wy) / determinant, wxx / determinant, -wx / determinant, w / determinant);
    }

    private static VarianceLine Through(Point[] points, VarianceLine line, double intercept)
    {
        double wxx = 0, wxy = 0;
        foreach (Point p in points)
        {
            double weight = Weight(p, line);
            wxx += weight * p.Signal * p.Signal;
            wxy += weight * p.Signal * (p.Variance - intercept);
        }

        return new VarianceLine(intercept, wxy / wxx, 0, 0, 1 / wxx);
    }

    /// <summary>Adds what the cap frames and the black level leave uncertain: both move the line as a whole.</summary>
    private static VarianceLine WithOutsideErrors(Point[] points, VarianceLine line, Estimate? dark, double blackErrorDn)
    {
        double black = line.Slope * blackErrorDn;
        if (dark is not { } d) return line with { InterceptVariance = line.InterceptVariance + black * black };
        double wx = points.Sum(p => Weight(p, line) * p.Signal), wxx = points.Sum(p => Weight(p, line) * p.Signal * p.Signal);
        double lever = wx / wxx;
        double darkError = (d.High - d.Low) / (2 * Estimate.Normal95);
        return line with
        {
            InterceptVariance = darkError * darkError,
            Covariance = -lever * darkError * darkError,
            SlopeVariance = line.SlopeVariance + lever * lever * (darkError * darkError + black * black),
        };
    }

    private static FitOutcome Judge(Point[] points, VarianceLine line, int parameters)
    {
        double chiSquared = 0, expected = 0, weights = 0, seen = 0;
        foreach (Point p in points)
        {
            double model = line.Intercept + line.Slope * p.Signal;
            double residual = p.Variance - model, weight = Weight(p, line);
            chiSquared += residual * residual * weight;
            // The same in shares of the variance, each point counting as often as it has samples.
            seen += p.Freedom * residual * residual / (model * model);
            expected += p.Freedom / (weight * model * model);
            weights += p.Freedom;
        }

        int freedom = points.Length - parameters;
        double chance = 1 - ChiSquared.CDF(freedom, chiSquared);
        double excess = Math.Sqrt(Math.Max(0, seen - expected) / weights);
        if (chance < 1e-3) line = line.Widened(chiSquared / freedom);
        return Outcome(line) with
        {
            ReducedChiSquared = chiSquared / freedom,
            ExcessDeviation = excess,
            IsNotLinear = chance < 1e-6 && excess > 0.01,
        };
    }

    private static FitOutcome Outcome(VarianceLine line) => line.Intercept > 0
        ? new FitOutcome
        {
            GainElectronsPerDn = line.Gain(),
            ReadNoiseElectrons = line.NoiseElectrons(),
            ReadNoiseDn = line.NoiseDn(),
            Line = line,
        }
        : FitOutcome.Refused("The darkest tones leave no room for read noise: the scene has no deep tone, or the blacks are cut off.");

    private static (double P, double Q, double R) Inverse(VarianceLine line)
    {
        double determinant = line.InterceptVariance * line.SlopeVariance - line.Covariance * line.Covariance;
        return (line.SlopeVariance / determinant, -line.Covariance / determinant, line.InterceptVariance / determinant);
    }

    private static double Distance(VarianceLine line, VarianceLine joint)
    {
        var (p, q, r) = Inverse(line);
        double da = line.Intercept - joint.Intercept, db = line.Slope - joint.Slope;
        return p * da * da + 2 * q * da * db + r * db * db;
    }

    private readonly record struct Point(double Signal, double Variance, long Freedom);
}
