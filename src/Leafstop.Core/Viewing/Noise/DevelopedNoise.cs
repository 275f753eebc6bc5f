using System.Collections.Immutable;
using Leafstop.Core.Colour;
using Leafstop.Core.Developing;

namespace Leafstop.Core.Viewing;

/// <summary>Noise of a developed tone worked out from the sensor: how pixels of the picture stray together, before any eye.</summary>
/// <remarks>
/// <para>Samples stray on their own, planes by their own model. The interpolation spreads that over neighbours and, where colours help one another, over channels; the colour matrix mixes the
/// channels; the tone curve bends them. Through a curve f the covariance c of two normal numbers becomes Σ aₖ bₖ (c / (s t))ᵏ, k from 1, with s and t
/// their standard deviations and aₖ = E[f(m + s z) Heₖ(z)] / √k! (Mehler's formula), so a curve that is steep, bent or cut off at black is followed as far as eight terms reach.</para>
/// <para>Assumed: an even tone, no fixed pattern, no banding, no smoothing in camera, normal noise also where few electrons make it lopsided. Interpolation leaves pixels of unlike noise
/// side by side; the curve is taken at their mean noise.</para>
/// </remarks>
public sealed class DevelopedNoise
{
    private const int Terms = 8;

    private static readonly ImmutableArray<(double Z, double Weight)> Spread = NormalMean.Points(601);

    private readonly int _reach;
    private readonly double[,][] _covariances; // linear sRGB: [first, second][lag]

    private DevelopedNoise(LinearRgb mean, int reach, double[,][] covariances) => (Mean, _reach, _covariances) = (mean, reach, covariances);

    /// <summary>The tone as it is shown, 1 for white. Where the curve bends within the noise it differs from the curve of the mean.</summary>
    public LinearRgb Mean { get; }

    /// <summary>Works out the noise of a tone.</summary>
    /// <param name="interpolation">The interpolation really used.</param>
    /// <param name="planes">The tone in each plane of its mosaic, in the order of <see cref="Sensor.MosaicPattern.PlaneNames"/>.</param>
    /// <param name="cameraToSrgb">From balanced camera colours to linear sRGB; rows that add up to 1 keep greys grey.</param>
    /// <param name="toneCurve">From scene light to shown light, both linear and 1 for white, per channel; also asked a little below 0 and above 1.</param>
    /// <exception cref="ArgumentException">There is not one tone a plane.</exception>
    public static DevelopedNoise Of(MosaicInterpolation interpolation, IReadOnlyList<PlaneTone> planes, ColourMatrix cameraToSrgb, Func<double, double> toneCurve)
    {
        ArgumentNullException.ThrowIfNull(interpolation);
        ArgumentNullException.ThrowIfNull(planes);
        ArgumentNullException.ThrowIfNull(toneCurve);
        if (planes.Count != interpolation.Mosaic.PlaneNames().Count)
            throw new ArgumentException($"One tone for each of the {interpolation.Mosaic.PlaneNames().Count} planes is needed.", nameof(planes));
        int reach = 2 * interpolation.Margin;
        double[,][] scene = Mixed(CameraCovariances(interpolation, planes, reach), cameraToSrgb);
        var (red, green, blue) = cameraToSrgb.Apply(ChannelMean(interpolation, planes, 0), ChannelMean(interpolation, planes, 1), ChannelMean(interpolation, planes, 2));
        int still = reach * (2 * reach + 1) + reach;
        BentCurve[] curves = [.. new[] { red, green, blue }.Select((mean, c) => new BentCurve(toneCurve, mean, Math.Sqrt(Math.Max(0, scene[c, c][still]))))];
        var shown = new double[3, 3][];
        for (int i = 0; i < 3; i++)
            for (int j = 0; j < 3; j++)
                shown[i, j] = [.. scene[i, j].Select(c => curves[i].Covariance(curves[j], c))];
        return new DevelopedNoise(new LinearRgb(curves[0].Mean, curves[1].Mean, curves[2].Mean), reach, shown);
    }

    /// <summary>Covariance of two channels some pixels apart, mean over the places of the mosaic's cell; zero where nothing is shared.</summary>
    /// <param name="first">0 red, 1 green, 2 blue of linear sRGB.</param>
    /// <param name="second">The other channel.</param>
    /// <param name="dx">Columns from the first to the second.</param>
    /// <param name="dy">Rows from the first to the second.</param>
    /// <exception cref="ArgumentOutOfRangeException">There is no such channel.</exception>
    public double Covariance(int first, int second, int dx, int dy)
    {
        if (first is < 0 or > 2 || second is < 0 or > 2)
            throw new ArgumentOutOfRangeException(nameof(first), (first, second), "Channels are 0 red, 1 green and 2 blue.");
        return Math.Abs(dx) > _reach || Math.Abs(dy) > _reach ? 0 : _covariances[first, second][(dy + _reach) * (2 * _reach + 1) + dx + _reach];
    }

    /// <summary>The noise as it is seen at some pixels per degree.</summary>
    /// <param name="pixelsPerDegree">See <see cref="ViewingCondition.PixelsPerDegree"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not above zero.</exception>
    public VisibleNoise Seen(double pixelsPerDegree)
    {
        double[,][] opponent = Mixed(_covariances, OpponentColour.FromLinearRgb);
        return LabSpread.Of(OpponentColour.Of(Mean), SeenCovariance.Of(opponent, _reach, new SeenFrequencies(pixelsPerDegree)));
    }

    private static double ChannelMean(MosaicInterpolation interpolation, IReadOnlyList<PlaneTone> planes, int channel)
    {
        IReadOnlyList<int> planeOfSite = interpolation.Mosaic.PlaneOfSite();
        int wanted = interpolation.Channels == 1 ? 0 : channel;
        return Enumerable.Range(0, planeOfSite.Count).Where(s => interpolation.ChannelOfSite[s] == wanted).Average(s => planes[planeOfSite[s]].Mean);
    }

    private static double[,][] CameraCovariances(MosaicInterpolation interpolation, IReadOnlyList<PlaneTone> planes, int reach)
    {
        double[] variances = [.. planes.Select(p => p.Variance)];
        int side = 2 * reach + 1;
        var all = new double[3, 3][];
        for (int i = 0; i < interpolation.Channels; i++)
            for (int j = 0; j < interpolation.Channels; j++)
                all[i, j] = [.. Enumerable.Range(0, side * side).Select(at => interpolation.NoiseCovariance(i, j, at % side - reach, at / side - reach, variances))];
        if (interpolation.Channels == 1)
        {
            // Without filters the three channels are one and the same.
            for (int i = 0; i < 3; i++)
                for (int j = 0; j < 3; j++)
                    all[i, j] = all[0, 0];
        }
        return all;
    }

    private static double[,][] Mixed(double[,][] from, ColourMatrix matrix)
    {
        var mixed = new double[3, 3][];
        for (int i = 0; i < 3; i++)
        {
            for (int j = 0; j < 3; j++)
            {
                var sum = new double[from[0, 0].Length];
                for (int c = 0; c < 3; c++)
                    for (int d = 0; d < 3; d++)
                        for (int at = 0; at < sum.Length; at++)
                            sum[at] += matrix[i, c] * matrix[j, d] * from[c, d][at];
                mixed[i, j] = sum;
            }
        }
        return mixed;
    }

    /// <summary>A curve seen through normal noise, as a series of Hermite polynomials.</summary>
    private sealed class BentCurve
    {
        private readonly double _sd;
        private readonly double[] _terms = new double[Terms + 1];

        public BentCurve(Func<double, double> curve, double mean, double sd)
        {
            _sd = sd;
            foreach ((double z, double weight) in Spread)
            {
                double value = weight * curve(mean + sd * z), before = 0, polynomial = 1; // normalised: Heₖ / √k!
                for (int k = 0; k <= Terms; k++)
                {
                    _terms[k] += value * polynomial;
                    (before, polynomial) = (polynomial, (z * polynomial - Math.Sqrt(k) * before) / Math.Sqrt(k + 1));
                }
            }
        }

        public double Mean => _terms[0];

        public double Covariance(BentCurve other, double covariance)
        {
            if (_sd <= 0 || other._sd <= 0) return 0;
            double ratio = covariance / (_sd * other._sd), power = 1, sum = 0;
            for (int k = 1; k <= Terms; k++)
            {
                power *= ratio;
                sum += _terms[k] * other._terms[k] * power;
            }
            return sum;
        }
    }
}
