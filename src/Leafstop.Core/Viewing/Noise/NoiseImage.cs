using System.Collections.Immutable;
using Leafstop.Core.Colour;

namespace Leafstop.Core.Viewing;

/// <summary>An even tone with nothing but noise on it, in linear light of sRGB.</summary>
/// <remarks>Made from two developed frames of the same patch: what differs is noise, what is alike is scene and cancels. The difference over √2 has the
/// noise of one frame. Fixed pattern cancels too and is not in it.</remarks>
public sealed class NoiseImage
{
    /// <summary>The smallest side: 64 pixels tell noise to about a percent (job's trap list), fewer do not.</summary>
    public const int LeastSide = 64;

    private NoiseImage(int width, int height, LinearRgb mean, ImmutableArray<float[]> channels, double atBlackOrWhite) =>
        (Width, Height, Mean, Channels, AtBlackOrWhite) = (width, height, mean, channels, atBlackOrWhite);

    /// <summary>Columns.</summary>
    public int Width { get; }

    /// <summary>Rows.</summary>
    public int Height { get; }

    /// <summary>The even tone, 1 for white.</summary>
    public LinearRgb Mean { get; }

    /// <summary>Share of values that lie at or below black or at or above white in either frame, 0 to 1. Where a screen or paper cuts them off the noise is
    /// told too small.</summary>
    public double AtBlackOrWhite { get; }

    /// <summary>Noise of red, green and blue, row by row, mean taken off.</summary>
    internal ImmutableArray<float[]> Channels { get; }

    /// <summary>Noise of a channel, row by row, mean taken off.</summary>
    /// <param name="channel">0 red, 1 green, 2 blue.</param>
    /// <exception cref="ArgumentOutOfRangeException">There is no such channel.</exception>
    public ReadOnlySpan<float> Channel(int channel) => channel is >= 0 and < 3
        ? Channels[channel]
        : throw new ArgumentOutOfRangeException(nameof(channel), channel, "Channels are 0 red, 1 green and 2 blue.");

    /// <summary>Takes two developed frames of one patch.</summary>
    /// <param name="width">Columns, at least <see cref="LeastSide"/>.</param>
    /// <param name="first">[channel][pixel], red, green, blue in linear light, row by row.</param>
    /// <param name="second">The other frame, of equal brightness.</param>
    /// <exception cref="ArgumentException">The frames are not of one size, too small, or hold a value that is no number.</exception>
    public static NoiseImage FromPair(int width, IReadOnlyList<float[]> first, IReadOnlyList<float[]> second)
    {
        ArgumentNullException.ThrowIfNull(first);
        ArgumentNullException.ThrowIfNull(second);
        int height = Rows(width, first);
        if (Rows(width, second) != height) throw new ArgumentException("Both frames of a pair have the same size.", nameof(second));
        var channels = new float[3][];
        Span<double> means = stackalloc double[3];
        long outside = 0;
        for (int c = 0; c < 3; c++)
        {
            float[] a = first[c], b = second[c];
            double sumA = 0, sumB = 0;
            for (int i = 0; i < a.Length; i++)
            {
                sumA += a[i];
                sumB += b[i];
                if (a[i] is <= 0 or >= 1 || b[i] is <= 0 or >= 1) outside++;
            }
            double difference = (sumA - sumB) / a.Length;
            if (!double.IsFinite(difference)) throw new ArgumentException("A developed frame holds a value that is no number.", nameof(first));
            means[c] = (sumA + sumB) / (2.0 * a.Length);
            var noise = new float[a.Length];
            for (int i = 0; i < a.Length; i++)
                noise[i] = (float)((a[i] - (double)b[i] - difference) / Math.Sqrt(2));
            channels[c] = noise;
        }
        return new NoiseImage(width, height, new LinearRgb(means[0], means[1], means[2]), [.. channels], outside / (3.0 * width * height));
    }

    private static int Rows(int width, IReadOnlyList<float[]> frame)
    {
        if (frame.Count != 3 || frame.Any(c => c.Length != frame[0].Length))
            throw new ArgumentException("A developed frame has red, green and blue of one size.", nameof(frame));
        if (width < LeastSide || frame[0].Length % width != 0 || frame[0].Length / width < LeastSide)
            throw new ArgumentException($"A patch of whole rows, at least {LeastSide} × {LeastSide} pixels, is needed.", nameof(width));
        return frame[0].Length / width;
    }
}
