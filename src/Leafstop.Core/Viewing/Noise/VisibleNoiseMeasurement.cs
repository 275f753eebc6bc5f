using System.Numerics;
using Leafstop.Core.Colour;

namespace Leafstop.Core.Viewing;

/// <summary>Noise of a developed patch as it is seen, grain and banding apart.</summary>
/// <remarks>Noise-only image → opponent axes → contrast sensitivity at the print and distance → back on the even tone → CIELAB → standard deviations. Row and
/// column offsets sit on two lines of the spectrum; there the grain is taken to be as strong as on the next lines, and the rest is banding.</remarks>
/// <param name="Grain">What follows the print law.</param>
/// <param name="Banding">What does not.</param>
/// <param name="GrainError">Standard error of the grain's lightness, as a share of it: how much another patch of this size would differ.</param>
/// <param name="AtBlackOrWhite">Share of values cut off or about to be, see <see cref="NoiseImage.AtBlackOrWhite"/>.</param>
public sealed record VisibleNoiseMeasurement(VisibleNoise Grain, VisibleBanding Banding, double GrainError, double AtBlackOrWhite)
{
    private const int NextLines = 3;

    /// <summary>Measures a noise image.</summary>
    /// <param name="image">Noise on an even tone.</param>
    /// <param name="pixelsPerDegree">Pixels of the image in a degree of the eye's view at this print and distance, see <see cref="ViewingCondition.PixelsPerDegree"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">Pixels per degree are not above zero.</exception>
    public static VisibleNoiseMeasurement Of(NoiseImage image, double pixelsPerDegree)
    {
        ArgumentNullException.ThrowIfNull(image);
        SeenFrequencies seen = new(pixelsPerDegree);
        var spectrum = NoiseSpectrum.Of(image);
        double[][] weights = [.. Enumerable.Range(0, 3).Select(c => Weights(c, spectrum, seen))];
        double power = 0, squared = 0;
        double[][] filtered = spectrum.ToPixels((channel, x, y) =>
        {
            Complex bin = GrainBin(spectrum, channel, x, y) * weights[channel][y * spectrum.Width + x];
            if (channel == 0)
            {
                double p = bin.Real * bin.Real + bin.Imaginary * bin.Imaginary;
                power += p;
                squared += p * p;
            }
            return bin;
        });
        // Bins come in pairs and are spread exponentially: the error of the variance is √Σp² / Σp, that of its root half as much.
        double error = power > 0 ? Math.Sqrt(squared) / power / 2 : 0;
        return new VisibleNoiseMeasurement(InLab(filtered, OpponentColour.Of(image.Mean)), Stripes(spectrum, weights[0], image.Mean), error, image.AtBlackOrWhite);
    }

    private static double[] Weights(int channel, NoiseSpectrum spectrum, SeenFrequencies seen)
    {
        var weights = new double[spectrum.Width * spectrum.Height];
        for (int y = 0; y < spectrum.Height; y++)
            for (int x = 0; x < spectrum.Width; x++)
                weights[y * spectrum.Width + x] = seen.Share(channel, NoiseSpectrum.Frequency(x, spectrum.Width), NoiseSpectrum.Frequency(y, spectrum.Height));
        return weights;
    }

    /// <summary>A bin of the grain: on the two lines of banding the bin of the next line stands in, mirrored so that the picture stays real.</summary>
    private static Complex GrainBin(NoiseSpectrum spectrum, int channel, int x, int y)
    {
        if (x == 0 && y == 0) return 0;
        if (x == 0) return StandIn(y, spectrum.Height, along => spectrum.At(channel, 1, along));
        return y == 0 ? StandIn(x, spectrum.Width, along => spectrum.At(channel, along, 1)) : spectrum.At(channel, x, y);
    }

    private static Complex StandIn(int along, int size, Func<int, Complex> next) =>
        2 * along < size ? next(along) : 2 * along == size ? next(along).Magnitude : Complex.Conjugate(next(size - along));

    private static VisibleNoise InLab(double[][] filtered, OpponentColour mean)
    {
        var moments = new LabMoments();
        for (int i = 0; i < filtered[0].Length; i++)
            moments.Add(new OpponentColour(mean.Lightness + filtered[0][i], mean.RedGreen + filtered[1][i], mean.YellowBlue + filtered[2][i]).ToLab(), 1);
        return moments.Seen();
    }

    private static VisibleBanding Stripes(NoiseSpectrum spectrum, double[] weights, LinearRgb mean)
    {
        double perLight = 116 * Lab.CurveSlope(OpponentColour.Of(mean).Lightness);
        (double rows, double rowsFloor) = Line(spectrum.Height, (side, along) => (side, along));
        (double columns, double columnsFloor) = Line(spectrum.Width, (side, along) => (along, side));
        return new VisibleBanding(rows * perLight, columns * perLight, rowsFloor * perLight, columnsFloor * perLight);

        (double Offsets, double Floor) Line(int size, Func<int, int, (int X, int Y)> bin)
        {
            double count = (double)spectrum.Width * spectrum.Height, excess = 0, spread = 0;
            for (int along = 1; along < size; along++)
            {
                var (x0, y0) = bin(0, along);
                double share = weights[y0 * spectrum.Width + x0], grain = 0;
                for (int side = -NextLines; side <= NextLines; side++)
                {
                    var (x, y) = bin(side, along);
                    if (side != 0) grain += Power(x, y) / (2 * NextLines);
                }
                excess += (Power(x0, y0) - grain) * share * share;
                spread += grain * grain * share * share * share * share;
            }
            // Bins come in pairs, hence twice the spread of single ones.
            double error = Math.Sqrt(2 * spread * (1 + 1.0 / (2 * NextLines)));
            return (Math.Sqrt(Math.Max(0, excess)) / count, Math.Sqrt(3 * error) / count);
        }

        double Power(int x, int y)
        {
            Complex bin = spectrum.At(0, x, y);
            return bin.Real * bin.Real + bin.Imaginary * bin.Imaginary;
        }
    }
}
