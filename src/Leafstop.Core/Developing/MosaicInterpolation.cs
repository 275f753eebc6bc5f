using System.Collections.Immutable;
using System.Runtime.Intrinsics;
using Leafstop.Core.Sensor;

namespace Leafstop.Core.Developing;

/// <summary>Works out the two colours that a pixel of a mosaic did not record, as weighted sums of its neighbours with weights that depend on its place in the cell only.</summary>
/// <remarks>
/// <para>Always linear: mixing two frames before or after gives the same picture, and the noise that is left follows from the weights alone. Samples go in with black
/// taken off and the white balance applied, so that a grey is the same number in every colour; noise goes the same way (WB-01).</para>
/// <para>A value that was recorded stays as it is. Flat areas of any colour come out exact, because the weights of a value's own colour add up to 1 and those of another colour to 0.</para>
/// </remarks>
public sealed class MosaicInterpolation
{
    private readonly double[][] _weights;
    private readonly int[] _planeOfSite;

    internal MosaicInterpolation(MosaicPattern mosaic, int margin, Func<int, int, int, double[]> weightsAt)
    {
        (Mosaic, Margin, ChannelOfSite) = (mosaic, margin, ChannelsOf(mosaic));
        Channels = ChannelOfSite.Max() + 1;
        _planeOfSite = [.. mosaic.PlaneOfSite()];
        _weights = new double[mosaic.Rows * mosaic.Columns * Channels][];
        for (int site = 0; site < mosaic.Rows * mosaic.Columns; site++)
            for (int channel = 0; channel < Channels; channel++)
                _weights[site * Channels + channel] = weightsAt(site / mosaic.Columns, site % mosaic.Columns, channel);
    }

    /// <summary>The pattern that it is for.</summary>
    public MosaicPattern Mosaic { get; }

    /// <summary>Samples that are needed on every side of the pixels that come out.</summary>
    public int Margin { get; }

    /// <summary>Channels that come out: 3 (red, green, blue), or 1 when the mosaic lacks red or blue.</summary>
    public int Channels { get; }

    /// <summary>Channel of each site of the cell, row by row.</summary>
    public ImmutableArray<int> ChannelOfSite { get; }

    /// <summary>The mean of the nearest samples of a colour: smooth and coloured at edges, kept because its noise is known (SEN-48).</summary>
    /// <param name="mosaic">The pattern.</param>
    public static MosaicInterpolation Bilinear(MosaicPattern mosaic)
    {
        ArgumentNullException.ThrowIfNull(mosaic);
        return NearestMean.Of(mosaic);
    }

    /// <summary>The weights with the least expected error for detail that the colours share: what crops to be judged are made with.</summary>
    /// <remarks>See <see cref="SharedDetailWeights"/> and docs/decisions/0011-linear-interpolation-for-judged-crops.md.</remarks>
    /// <param name="mosaic">The pattern.</param>
    public static MosaicInterpolation SharedDetail(MosaicPattern mosaic)
    {
        ArgumentNullException.ThrowIfNull(mosaic);
        return SharedDetailWeights.Of(mosaic);
    }

    /// <summary>The channel of each site of a pattern: 0 red, 1 green (and whatever is neither red nor blue), 2 blue; all 0 when the mosaic lacks red or blue.</summary>
    /// <param name="mosaic">The pattern.</param>
    public static ImmutableArray<int> ChannelsOf(MosaicPattern mosaic)
    {
        ArgumentNullException.ThrowIfNull(mosaic);
        return mosaic.Letters.Contains('R') && mosaic.Letters.Contains('B')
            ? [.. mosaic.Letters.Select(letter => letter switch { 'R' => 0, 'B' => 2, _ => 1 })]
            : [.. mosaic.Letters.Select(_ => 0)];
    }

    /// <summary>What one value is made from.</summary>
    /// <param name="row">Row of the pixel, counted from the top of the active area; any whole number.</param>
    /// <param name="column">Column of the pixel.</param>
    /// <param name="channel">Channel of the value.</param>
    /// <returns>Samples with a weight other than 0.</returns>
    /// <exception cref="ArgumentOutOfRangeException">There is no such channel.</exception>
    public ImmutableArray<InterpolationTap> Kernel(int row, int column, int channel)
    {
        RefuseOtherChannels(channel, nameof(channel));
        double[] weights = WeightsAt(row, column, channel);
        int side = 2 * Margin + 1;
        return
        [
            .. Enumerable.Range(0, weights.Length).Where(i => weights[i] != 0).Select(i =>
            {
                int dx = i % side - Margin, dy = i / side - Margin, site = Site(row + dy, column + dx);
                return new InterpolationTap(dx, dy, ChannelOfSite[site], _planeOfSite[site], weights[i]);
            }),
        ];
    }

    /// <summary>Mean noise variance of a channel over that of a sample, when all samples have the same; 0.5625 for red and blue and 0.625 for green of <see cref="Bilinear"/> on 2×2 (SEN-48).</summary>
    /// <param name="channel">Channel of the values.</param>
    /// <exception cref="ArgumentOutOfRangeException">There is no such channel.</exception>
    public double NoiseShare(int channel) => NoiseCovariance(channel, channel, 0, 0, [.. _planeOfSite.Distinct().Select(_ => 1.0)]);

    /// <summary>Covariance of the noise of two values some pixels apart, mean over the places of the cell.</summary>
    /// <remarks>Σ over the samples that both values are made from: weight × weight × variance of the sample. The noise of different samples is taken as independent. Zero beyond twice <see cref="Margin"/>.</remarks>
    /// <param name="first">Channel of the one value.</param>
    /// <param name="second">Channel of the other.</param>
    /// <param name="dx">Columns from the one to the other.</param>
    /// <param name="dy">Rows from the one to the other.</param>
    /// <param name="planeVariance">Noise variance of a sample by plane, in any unit, after the white balance.</param>
    /// <returns>In the unit of the variances.</returns>
    /// <exception cref="ArgumentOutOfRangeException">There is no such channel.</exception>
    /// <exception cref="ArgumentException">There is not one variance a plane.</exception>
    public double NoiseCovariance(int first, int second, int dx, int dy, IReadOnlyList<double> planeVariance)
    {
        ArgumentNullException.ThrowIfNull(planeVariance);
        RefuseOtherChannels(first, nameof(first));
        RefuseOtherChannels(second, nameof(second));
        if (planeVariance.Count != _planeOfSite.Distinct().Count()) throw new ArgumentException("One variance a plane of the mosaic is needed.", nameof(planeVariance));
        int side = 2 * Margin + 1, sites = Mosaic.Rows * Mosaic.Columns;
        double sum = 0;
        for (int site = 0; site < sites; site++)
        {
            int row = site / Mosaic.Columns, column = site % Mosaic.Columns;
            double[] own = WeightsAt(row, column, first), other = WeightsAt(row + dy, column + dx, second);
            for (int y = Math.Max(0, dy); y < Math.Min(side, side + dy); y++)
                for (int x = Math.Max(0, dx); x < Math.Min(side, side + dx); x++)
                    sum += own[y * side + x] * other[(y - dy) * side + x - dx] * planeVariance[_planeOfSite[Site(row + y - Margin, column + x - Margin)]];
        }

        return sum / sites;
    }

    /// <summary>Works out all channels of a region.</summary>
    /// <param name="mosaic">Samples row by row, black taken off and balanced, <see cref="Margin"/> more on every side than come out.</param>
    /// <param name="width">Columns of <paramref name="mosaic"/>.</param>
    /// <param name="firstRow">Row of its first sample, counted from the top of the active area.</param>
    /// <param name="firstColumn">Column of its first sample.</param>
    /// <returns>[channel]: values row by row, <c>width − 2 · Margin</c> a row.</returns>
    /// <exception cref="ArgumentException">The region is not a rectangle, or holds nothing inside its margin.</exception>
    public float[][] Apply(ReadOnlySpan<float> mosaic, int width, int firstRow, int firstColumn)
    {
        int side = 2 * Margin + 1;
        if (width < side || mosaic.Length % width != 0 || mosaic.Length / width < side)
            throw new ArgumentException($"A region of whole rows, at least {side} × {side} samples, is needed.", nameof(mosaic));
        int across = width - 2 * Margin, down = mosaic.Length / width - 2 * Margin;
        float[][] channels = [.. Enumerable.Range(0, Channels).Select(_ => new float[across * down])];
        for (int phase = 0; phase < Math.Min(Mosaic.Rows, down); phase++)
        {
            for (int channel = 0; channel < Channels; channel++)
            {
                var row = RowKernel.Of(this, firstRow + Margin + phase, firstColumn + Margin, channel, width);
                for (int y = phase; y < down; y += Mosaic.Rows) row.Apply(mosaic[(y * width)..], channels[channel].AsSpan(y * across, across));
            }
        }

        return channels;
    }

    /// <summary>The weights of one channel along a row of pixels. Tap by tap, so that neighbours are worked out side by side; the columns of the cell take turns.</summary>
    private sealed class RowKernel
    {
        private readonly int[] _offsets;
        private readonly float[][] _weights;

        private RowKernel(int[] offsets, float[][] weights) => (_offsets, _weights) = (offsets, weights);

        /// <summary>Every tap that any column of the cell uses, weights repeated until they fill whole vectors.</summary>
        public static RowKernel Of(MosaicInterpolation of, int row, int firstColumn, int channel, int width)
        {
            int side = 2 * of.Margin + 1, columns = of.Mosaic.Columns, period = columns;
            while (period % Vector256<float>.Count != 0) period += columns;
            double[][] byColumn = [.. Enumerable.Range(0, columns).Select(x => of.WeightsAt(row, firstColumn + x, channel))];
            int[] taps = [.. Enumerable.Range(0, side * side).Where(t => byColumn.Any(w => w[t] != 0))];
            return new RowKernel(
                [.. taps.Select(t => t / side * width + t % side)],
                [.. taps.Select(t => Enumerable.Range(0, period).Select(x => (float)byColumn[x % columns][t]).ToArray())]);
        }

        public void Apply(ReadOnlySpan<float> from, Span<float> into)
        {
            int period = _weights[0].Length, x = 0;
            for (; x + period <= into.Length; x += period)
            {
                for (int part = 0; part < period; part += Vector256<float>.Count)
                {
                    Vector256<float> sum = Vector256<float>.Zero;
                    for (int tap = 0; tap < _offsets.Length; tap++)
                        sum += Vector256.Create(_weights[tap].AsSpan(part)) * Vector256.Create(from[(x + part + _offsets[tap])..]);
                    sum.CopyTo(into[(x + part)..]);
                }
            }

            for (int left = 0; x < into.Length; x++, left++)
            {
                float sum = 0;
                for (int tap = 0; tap < _offsets.Length; tap++) sum += _weights[tap][left] * from[x + _offsets[tap]];
                into[x] = sum;
            }
        }
    }

    private double[] WeightsAt(int row, int column, int channel) => _weights[Site(row, column) * Channels + channel];

    private int Site(int row, int column) => Mod(row, Mosaic.Rows) * Mosaic.Columns + Mod(column, Mosaic.Columns);

    private static int Mod(int value, int size) => (value % size + size) % size;

    private void RefuseOtherChannels(int channel, string name)
    {
        if (channel < 0 || channel >= Channels) throw new ArgumentOutOfRangeException(name, channel, $"This mosaic has the channels 0 to {Channels - 1}.");
    }
}
