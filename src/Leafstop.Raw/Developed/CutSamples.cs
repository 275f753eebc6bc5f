using System.Globalization;
using System.IO.Hashing;
using System.Runtime.InteropServices;
using System.Text;
using Leafstop.Core.Developing;

namespace Leafstop.Raw.Developed;

/// <summary>The samples of one crop of one frame.</summary>
internal sealed class CutSamples
{
    private readonly FrameCut _frame;
    private readonly CutArea _area;
    private readonly int[] _planeOfSite;
    private readonly int[] _channelOfSite;

    private readonly double[]? _offsetsDn;

    /// <param name="frame">The frame.</param>
    /// <param name="area">What was cut from it.</param>
    /// <param name="offsetsDn">[channel]: taken off on top of black; null for nothing.</param>
    public CutSamples(FrameCut frame, CutArea area, double[]? offsetsDn = null)
    {
        (_frame, _area, _offsetsDn) = (frame, area, offsetsDn);
        (_planeOfSite, _channelOfSite) = ([.. frame.Mosaic.PlaneOfSite()], [.. MosaicInterpolation.ChannelsOf(frame.Mosaic)]);
    }

    /// <summary>Pixels along the crop, the margin not counted.</summary>
    public int Side => _area.Side - 2 * CutRequest.Margin;

    public string File => _frame.File;

    /// <summary>First column of the crop in the active area.</summary>
    public int Left => _area.Left + CutRequest.Margin;

    /// <summary>First row.</summary>
    public int Top => _area.Top + CutRequest.Margin;

    /// <summary>Adds place, size and raw values to a hash.</summary>
    public void MarkIn(NonCryptographicHashAlgorithm hash)
    {
        hash.Append(Encoding.UTF8.GetBytes(string.Create(CultureInfo.InvariantCulture, $"{_area.Left} {_area.Top} {_area.Side}\n")));
        hash.Append(_area.Samples);
    }

    /// <summary>The same samples with something taken off on top of black.</summary>
    /// <param name="offsetsDn">[channel].</param>
    public CutSamples Without(double[] offsetsDn) => new(_frame, _area, offsetsDn);

    /// <summary>Mean of each channel above black, DN, the standard error of the least sure of them in stops, and the share of clipped samples; the margin left out.</summary>
    /// <param name="clipDn">[plane]: samples at or above this are clipped.</param>
    public (double[] Means, double ErrorStops, double ClippedShare) Measure(IReadOnlyList<double> clipDn)
    {
        double[] sums = new double[_channelOfSite.Max() + 1], squares = new double[sums.Length];
        var counts = new int[sums.Length];
        int clipped = 0;
        ReadOnlySpan<ushort> samples = MemoryMarshal.Cast<byte, ushort>(_area.Samples);
        for (int y = CutRequest.Margin; y < _area.Side - CutRequest.Margin; y++)
        {
            int line = (_area.Top + y) % _frame.Mosaic.Rows * _frame.Mosaic.Columns;
            for (int x = CutRequest.Margin; x < _area.Side - CutRequest.Margin; x++)
            {
                int site = line + (_area.Left + x) % _frame.Mosaic.Columns, plane = _planeOfSite[site], channel = _channelOfSite[site];
                ushort sample = samples[y * _area.Side + x];
                double above = sample - _frame.BlackDn[plane];
                sums[channel] += above;
                squares[channel] += above * above;
                counts[channel]++;
                if (sample >= clipDn[plane]) clipped++;
            }
        }

        double[] means = [.. sums.Zip(counts, (s, n) => s / n)];
        // A share of the mean is that share of 1/ln 2 stops.
        double error = Enumerable.Range(0, means.Length).Max(c => means[c] > 0 ? Math.Sqrt(Math.Max(0, squares[c] / counts[c] - means[c] * means[c]) / counts[c]) / means[c] / Math.Log(2) : double.PositiveInfinity);
        return (means, error, clipped / (double)(Side * Side));
    }

    /// <summary>The samples in linear light: black off, balanced and matched; as many on every side beyond the crop as an interpolation needs.</summary>
    /// <param name="factors">[channel]: linear light of one DN.</param>
    /// <param name="margin">0 to <see cref="CutRequest.Margin"/>.</param>
    public float[] Light(IReadOnlyList<double> factors, int margin)
    {
        int side = Side + 2 * margin, off = CutRequest.Margin - margin;
        var light = new float[side * side];
        int sites = _planeOfSite.Length, columns = _frame.Mosaic.Columns;
        float[] scale = [.. Enumerable.Range(0, sites).Select(s => (float)factors[_channelOfSite[s]])], black = [.. Enumerable.Range(0, sites).Select(s => (float)(_frame.BlackDn[_planeOfSite[s]] + (_offsetsDn?[_channelOfSite[s]] ?? 0)))];
        ReadOnlySpan<ushort> samples = MemoryMarshal.Cast<byte, ushort>(_area.Samples);
        for (int y = 0; y < side; y++)
        {
            int line = (_area.Top + off + y) % _frame.Mosaic.Rows * columns, column = (_area.Left + off) % columns;
            ReadOnlySpan<ushort> row = samples.Slice((off + y) * _area.Side + off, side);
            for (int x = 0; x < side; x++)
            {
                light[y * side + x] = (row[x] - black[line + column]) * scale[line + column];
                if (++column == columns) column = 0;
            }
        }

        return light;
    }
}
