using System.Collections.Immutable;
using Leafstop.Core.Colour;
using Leafstop.Core.Developing;

namespace Leafstop.Core.Sensor;

/// <summary>What is left of a raw pixel's noise in the luminance of the developed picture.</summary>
/// <remarks>
/// <para>Interpolation makes neighbours and channels alike: averaged over the places of the mosaic's cell two values d pixels apart have the covariance
/// <see cref="MosaicInterpolation.NoiseCovariance"/>. Merging m × m pixels leaves Σ C(d) (1 − |dx|/m)(1 − |dy|/m) / m², not C(0) / m²: interpolation
/// invents no light.</para>
/// <para>Luminance weighs the channels with the middle row of PER-35 (0.2126, 0.7152, 0.0722). Assumed: after white balance all samples have equal signal and equal
/// noise, and no colour matrix mixes them. A real matrix and a starved blue plane give more noise than this.</para>
/// </remarks>
public sealed class LuminanceNoise
{
    private static readonly OnceEach Known = new();

    private readonly int _reach;
    private readonly ImmutableArray<double>[] _channels;
    private readonly ImmutableArray<double> _luminance;

    private LuminanceNoise(int reach, ImmutableArray<double>[] channels, ImmutableArray<double> luminance) => (_reach, _channels, _luminance) = (reach, channels, luminance);

    /// <summary>For an interpolation.</summary>
    public static LuminanceNoise Of(MosaicInterpolation interpolation)
    {
        ArgumentNullException.ThrowIfNull(interpolation);
        int reach = 2 * interpolation.Margin, side = 2 * reach + 1, channels = interpolation.Channels;
        double[] equal = [.. interpolation.Mosaic.PlaneNames().Select(_ => 1.0)];
        ColourMatrix rows = RgbSpace.Srgb.MatrixToXyz;
        double[] weights = channels == 1 ? [1] : [rows.M21, rows.M22, rows.M23];
        var own = new double[channels][];
        var luminance = new double[side * side];
        for (int c = 0; c < channels; c++)
        {
            own[c] = new double[side * side];
            for (int d = 0; d < channels; d++)
            {
                for (int at = 0; at < luminance.Length; at++)
                {
                    double covariance = interpolation.NoiseCovariance(c, d, at % side - reach, at / side - reach, equal);
                    luminance[at] += weights[c] * weights[d] * covariance;
                    if (c == d) own[c][at] = covariance;
                }
            }
        }
        return new LuminanceNoise(reach, [.. own.Select(o => o.ToImmutableArray())], [.. luminance]);
    }

    /// <summary>For the interpolation that crops are judged with, <see cref="MosaicInterpolation.SharedDetail"/>, on a mosaic as people write it.</summary>
    /// <param name="mosaic">"2x2", "6x6" or "1x1", see <see cref="MosaicPattern.Name"/>. Others are taken for 2×2; where in the cell a colour sits changes nothing.</param>
    public static LuminanceNoise For(string mosaic)
    {
        ArgumentNullException.ThrowIfNull(mosaic);
        return mosaic switch
        {
            "6x6" => Known.SixBySix.Value,
            "1x1" => Known.Unfiltered.Value,
            _ => Known.TwoByTwo.Value,
        };
    }

    /// <summary>Share of the noise variance of a raw pixel that is left in a channel when squares of a given side are merged after interpolation.</summary>
    /// <remarks>Plain bilinear on 2×2, single pixels: 0.625 in green, 0.5625 in red and blue (SEN-48).</remarks>
    /// <param name="channel">0 red, 1 green, 2 blue; 0 without filters.</param>
    /// <param name="mergedSide">Side of the square in pixels, 1 or more, need not be whole.</param>
    /// <exception cref="ArgumentOutOfRangeException">No such channel, or a square of less than a pixel.</exception>
    public double VarianceShare(int channel, double mergedSide) => channel >= 0 && channel < _channels.Length
        ? Merged(_channels[channel], mergedSide)
        : throw new ArgumentOutOfRangeException(nameof(channel), channel, $"There are the channels 0 to {_channels.Length - 1}.");

    /// <summary>Luminance signal-to-noise of the merged square over the signal-to-noise of one raw pixel.</summary>
    /// <param name="mergedSide">Side of the square in pixels, 1 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">A square of less than a pixel.</exception>
    public double SignalToNoiseGain(double mergedSide) => 1 / Math.Sqrt(Merged(_luminance, mergedSide));

    private double Merged(ImmutableArray<double> covariances, double side)
    {
        if (!(side >= 1)) throw new ArgumentOutOfRangeException(nameof(side), side, "A merged square is at least one pixel wide.");
        double sum = 0;
        for (int dy = -_reach; dy <= _reach; dy++)
            for (int dx = -_reach; dx <= _reach; dx++)
                sum += covariances[(dy + _reach) * (2 * _reach + 1) + dx + _reach] * Math.Max(0, 1 - Math.Abs(dx) / side) * Math.Max(0, 1 - Math.Abs(dy) / side);
        return sum / (side * side);
    }

    /// <summary>Worked out once each, when first asked for.</summary>
    private sealed class OnceEach
    {
        public readonly Lazy<LuminanceNoise> TwoByTwo = Of(2, "RGGB");

        public readonly Lazy<LuminanceNoise> SixBySix = Of(6, "GGRGGBGGBGGRBRGRBGGGBGGRGGRGGBRBGBRG");

        public readonly Lazy<LuminanceNoise> Unfiltered = Of(1, "M");

        private static Lazy<LuminanceNoise> Of(int side, string letters) =>
            new(() => LuminanceNoise.Of(MosaicInterpolation.SharedDetail(new MosaicPattern { Rows = side, Columns = side, Letters = letters })));
    }
}
