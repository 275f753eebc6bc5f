using System.Collections.Immutable;
using Leafstop.Core.Quantities;

namespace Leafstop.Core.Sensor;

/// <summary>Finds sudden drops of read noise against ISO.</summary>
/// <remarks>
/// Model: σ² = a² + (b·g)² with σ the read noise (e⁻), g the gain (e⁻/DN), a the noise ahead of the amplifier (e⁻) and b the noise behind it (DN).
/// b is one value for the body; a has one value between two steps. A step is kept when a falls by at least <see cref="LeastRatio"/> and χ² by more
/// than <see cref="LeastDeltaChiSquared"/>. Each level's error is at least <see cref="LeastRelativeError"/> of its read noise, because real
/// curves bend a little more than the model. Our own method; range: three levels and up.
/// </remarks>
public static class GainStepSearch
{
    /// <summary>Least ratio of a before and after.</summary>
    public const double LeastRatio = 1.2;

    /// <summary>Least gain in χ².</summary>
    public const double LeastDeltaChiSquared = 16;

    /// <summary>Least relative error of a read noise.</summary>
    public const double LeastRelativeError = 0.025;

    private const int MostSteps = 4;

    /// <summary>Searches the usable levels that have a gain and a read noise; lowest step first.</summary>
    public static ImmutableArray<GainStep> Of(IEnumerable<Level> levels)
    {
        Point[] points = [.. levels
            .Where(l => l is { Usable: true, GainElectronsPerDn: not null, ReadNoiseElectrons: not null })
            .GroupBy(l => l.Iso.Speed)
            .OrderBy(g => g.Key)
            .Select(g => PointOf(g.MinBy(l => l.ReadNoiseElectrons!.Value.RelativeHalfWidth)!))];
        if (points.Length < 3) return [];

        int[] cuts = [];
        double chiSquared = Fit(points, cuts).ChiSquared;
        while (cuts.Length < MostSteps)
        {
            int[]? best = null;
            double bestChi = chiSquared - LeastDeltaChiSquared;
            for (int cut = 1; cut < points.Length; cut++)
            {
                if (cuts.Contains(cut)) continue;
                int[] tried = [.. cuts.Append(cut).Order()];
                double chi = Fit(points, tried).ChiSquared;
                if (chi < bestChi && Steps(points, tried).Length == tried.Length) (best, bestChi) = (tried, chi);
            }

            if (best is null) break;
            (cuts, chiSquared) = (best, bestChi);
        }

        return Steps(points, cuts);
    }

    /// <summary>The cuts that are steps: a falls enough, both in the fit and between the two neighbours themselves.</summary>
    private static ImmutableArray<GainStep> Steps(Point[] points, int[] cuts)
    {
        Solution whole = Fit(points, cuts);
        var steps = ImmutableArray.CreateBuilder<GainStep>();
        for (int i = 0; i < cuts.Length; i++)
        {
            double ratio = Math.Sqrt(whole.SquaredA[i] / whole.SquaredA[i + 1]);
            Point below = points[cuts[i] - 1], above = points[cuts[i]];
            double neighbours = Math.Sqrt(
                Math.Max(below.Squared - whole.SquaredB * below.SquaredGain, 0) / Math.Max(above.Squared - whole.SquaredB * above.SquaredGain, 1e-9));
            double delta = Fit(points, [.. cuts.Where(c => c != cuts[i])]).ChiSquared - whole.ChiSquared;
            if (ratio >= LeastRatio && neighbours >= LeastRatio && delta > LeastDeltaChiSquared)
                steps.Add(new GainStep(below.Iso, above.Iso, ratio, delta));
        }

        return steps.ToImmutable();
    }

    /// <summary>Weighted least squares in a² (one a segment) and b², neither below zero.</summary>
    private static Solution Fit(Point[] points, int[] cuts)
    {
        int[] segment = [.. Enumerable.Range(0, points.Length).Select(i => cuts.Count(c => c <= i))];
        int segments = cuts.Length + 1;
        double[] w = new double[segments], x = new double[segments], y = new double[segments];
        for (int i = 0; i < points.Length; i++)
        {
            w[segment[i]] += points[i].Weight;
            x[segment[i]] += points[i].Weight * points[i].SquaredGain;
            y[segment[i]] += points[i].Weight * points[i].Squared;
        }

        double sxx = 0, sxy = 0;
        for (int i = 0; i < points.Length; i++)
        {
            int s = segment[i];
            double dx = points[i].SquaredGain - x[s] / w[s];
            sxx += points[i].Weight * dx * dx;
            sxy += points[i].Weight * dx * (points[i].Squared - y[s] / w[s]);
        }

        double squaredB = sxx > 0 ? Math.Max(0, sxy / sxx) : 0;
        double[] squaredA = [.. Enumerable.Range(0, segments).Select(s => Math.Max(1e-6, (y[s] - squaredB * x[s]) / w[s]))];
        double chiSquared = 0;
        for (int i = 0; i < points.Length; i++)
        {
            double residual = points[i].Squared - squaredA[segment[i]] - squaredB * points[i].SquaredGain;
            chiSquared += points[i].Weight * residual * residual;
        }

        return new Solution(squaredA, squaredB, chiSquared);
    }

    private static Point PointOf(Level level)
    {
        Estimate noise = level.ReadNoiseElectrons!.Value;
        double gain = level.GainElectronsPerDn!.Value.Value;
        double relative = Math.Max(noise.RelativeHalfWidth / Estimate.Normal95, LeastRelativeError);
        double squared = noise.Value * noise.Value, error = 2 * relative * squared;
        return new Point(level.Iso, gain * gain, squared, 1 / (error * error));
    }

    private sealed record Point(Iso Iso, double SquaredGain, double Squared, double Weight);

    private sealed record Solution(double[] SquaredA, double SquaredB, double ChiSquared);
}
