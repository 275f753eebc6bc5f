using System.Numerics;

namespace Leafstop.Core.Developing;

/// <summary>A picture in linear light, channel by channel. Values below 0 and above 1 are kept: noise around black is not cut off.</summary>
/// <remarks>Holds the arrays that it was given; whoever reads them leaves them as they are.</remarks>
public sealed class LinearPicture
{
    /// <summary>Share of the mean below which a step does not matter, and steps after which it is left as it is; ten do for noise ten times the light.</summary>
    private const double CloseEnough = 1e-6;

    private const int MostSteps = 60;

    /// <summary>Takes the channels.</summary>
    /// <param name="width">Pixels in a row.</param>
    /// <param name="height">Rows.</param>
    /// <param name="channels">Red, green and blue, or one channel for grey; values row by row.</param>
    /// <exception cref="ArgumentException">A channel has another number of values, or there are not one or three.</exception>
    public LinearPicture(int width, int height, IReadOnlyList<float[]> channels)
    {
        ArgumentNullException.ThrowIfNull(channels);
        if (channels.Count is not (1 or 3) || channels.Any(c => c.Length != width * height))
            throw new ArgumentException("A picture has one or three channels of width × height values.", nameof(channels));
        (Width, Height, Channels) = (width, height, channels);
    }

    /// <summary>Pixels in a row.</summary>
    public int Width { get; }

    /// <summary>Rows.</summary>
    public int Height { get; }

    /// <summary>Values row by row, 1 = white: red, green, blue, or grey alone.</summary>
    public IReadOnlyList<float[]> Channels { get; }

    /// <summary>Through a colour matrix; a grey picture stays as it is.</summary>
    /// <param name="colour">From camera colours to linear sRGB.</param>
    public LinearPicture In(CameraColour colour)
    {
        ArgumentNullException.ThrowIfNull(colour);
        if (Channels.Count == 1) return this;
        float[] red = Channels[0], green = Channels[1], blue = Channels[2];
        return new LinearPicture(Width, Height, [.. Enumerable.Range(0, 3).Select(row =>
        {
            float r = (float)colour.ToSrgb[row, 0], g = (float)colour.ToSrgb[row, 1], b = (float)colour.ToSrgb[row, 2];
            var channel = new float[red.Length];
            for (int i = 0; i < channel.Length; i++) channel[i] = r * red[i] + g * green[i] + b * blue[i];
            return channel;
        })]);
    }

    /// <summary>Mean of each channel, 1 = white.</summary>
    public IReadOnlyList<double> Means => [.. Channels.Select(c => Shifted(c, 0).Mean)];

    /// <summary>As bright once light below black is cut as it is before, or as is asked for: each channel is moved by a constant, so that the mean of what is left is the mean that is wanted.</summary>
    /// <param name="means">Mean of each channel that is wanted, 1 = white; those that the picture has when null.</param>
    /// <remarks>
    /// <para>A display has no light below black. Where noise is as strong as the light of a deep dark, the cut takes its lower half away and the place gets brighter with its noise: pictures that were matched
    /// in linear light would tell their ISO by brightness. A picture without light below black stays as it is.</para>
    /// <para>Known error: the cut makes the grain of such a place weaker than it is in linear light, as it does in every picture that is shown. A mean at or below black becomes black.</para>
    /// </remarks>
    public LinearPicture CutAtBlack(IReadOnlyList<double>? means = null) => new(Width, Height, [.. Channels.Select((c, i) => CutAtBlack(c, means?[i]))]);

    private static float[] CutAtBlack(float[] channel, double? wanted)
    {
        var (own, least, _) = Shifted(channel, 0);
        double mean = wanted ?? own;
        float shift = (float)(mean - own);
        if (least >= 0 && shift == 0) return channel;
        if (!(mean > 0)) return new float[channel.Length];
        // What is left is a convex function of the shift: Newton's steps from above go down to the place in a few passes and never beyond it.
        for (int i = 0; i < MostSteps; i++)
        {
            var (_, _, left) = Shifted(channel, shift);
            if (left.Above == 0) break;
            double step = (left.Sum / channel.Length - mean) / ((double)left.Above / channel.Length);
            if (!(step > CloseEnough * mean)) break;
            shift -= (float)step;
        }

        var shown = new float[channel.Length];
        int at = 0;
        for (Vector<float> by = new(shift); at + Vector<float>.Count <= shown.Length; at += Vector<float>.Count)
            Vector.Max(Vector<float>.Zero, new Vector<float>(channel, at) + by).CopyTo(shown, at);
        for (; at < shown.Length; at++) shown[at] = Math.Max(0, channel[at] + shift);
        return shown;
    }

    /// <summary>Mean and least value of a channel, and the sum and the number of the values above black once all are moved.</summary>
    private static (double Mean, float Least, (double Sum, long Above) Left) Shifted(float[] channel, float shift)
    {
        // Sums of single precision stay short, so that they are as good as double ones.
        const int Stretch = 1024;
        double all = 0, sum = 0;
        long above = 0;
        float least = float.PositiveInfinity;
        for (int from = 0; from < channel.Length; from += Stretch)
        {
            ReadOnlySpan<float> part = channel.AsSpan(from, Math.Min(Stretch, channel.Length - from));
            Vector<float> sums = Vector<float>.Zero, lefts = Vector<float>.Zero, leasts = new(float.PositiveInfinity), by = new(shift);
            Vector<int> counts = Vector<int>.Zero;
            int at = 0;
            for (; at + Vector<float>.Count <= part.Length; at += Vector<float>.Count)
            {
                Vector<float> value = new(part[at..]), moved = value + by;
                sums += value;
                leasts = Vector.Min(leasts, value);
                lefts += Vector.Max(Vector<float>.Zero, moved);
                // A comparison that holds is -1.
                counts -= Vector.GreaterThan(moved, Vector<float>.Zero);
            }

            all += Vector.Sum(sums);
            sum += Vector.Sum(lefts);
            above += Vector.Sum(counts);
            for (int lane = 0; lane < Vector<float>.Count; lane++) least = Math.Min(least, leasts[lane]);
            for (; at < part.Length; at++)
            {
                float moved = part[at] + shift;
                all += part[at];
                least = Math.Min(least, part[at]);
                if (!(moved > 0)) continue;
                sum += moved;
                above++;
            }
        }

        return (all / channel.Length, least, (sum, above));
    }

    /// <summary>For display in 8 bits: sRGB, red, green and blue side by side, row by row; grey three times over. Cut at black and white, rounded, not dithered.</summary>
    public byte[] Bytes()
    {
        byte[] shown = new byte[3 * Width * Height];
        for (int colour = 0; colour < 3; colour++) DisplayCurve.Bytes(Channels[Channels.Count == 1 ? 0 : colour], shown.AsSpan(colour), 3);
        return shown;
    }

    /// <summary>As <see cref="Bytes"/> in 16 bits.</summary>
    public ushort[] Words()
    {
        var shown = new ushort[3 * Width * Height];
        for (int i = 0; i < shown.Length; i++) shown[i] = DisplayCurve.Word(Channels[Channels.Count == 1 ? 0 : i % 3][i / 3]);
        return shown;
    }
}
