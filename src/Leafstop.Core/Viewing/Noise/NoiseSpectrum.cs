using System.Numerics;
using Leafstop.Core.Colour;
using MathNet.Numerics.IntegralTransforms;

namespace Leafstop.Core.Viewing;

/// <summary>The three opponent channels of a noise image by frequency, and back to pixels.</summary>
/// <remarks>The Fourier transform takes the patch as if it went round: its left edge touches the right one. Noise is alike everywhere, so this joins noise to noise; only the
/// likeness of neighbours across that seam is lost, which a patch of 64 pixels feels by less than its own sampling error. No window is used, because it would throw
/// noise away. Frequencies below one cycle a patch are not in it.</remarks>
internal sealed class NoiseSpectrum
{
    private readonly Complex[][] _bins;

    private NoiseSpectrum(int width, int height, Complex[][] bins) => (Width, Height, _bins) = (width, height, bins);

    public int Width { get; }

    public int Height { get; }

    public static NoiseSpectrum Of(NoiseImage image)
    {
        int count = image.Width * image.Height;
        Complex[][] bins = [new Complex[count], new Complex[count], new Complex[count]];
        ColourMatrix matrix = OpponentColour.FromLinearRgb;
        ReadOnlySpan<float> red = image.Channel(0), green = image.Channel(1), blue = image.Channel(2);
        for (int i = 0; i < count; i++)
            (bins[0][i], bins[1][i], bins[2][i]) = matrix.Apply(red[i], green[i], blue[i]);
        foreach (Complex[] channel in bins)
            Both(channel, image.Width, image.Height, forward: true);
        return new NoiseSpectrum(image.Width, image.Height, bins);
    }

    /// <summary>One channel at a whole number of cycles across and down; any whole numbers.</summary>
    public Complex At(int channel, int across, int down) => _bins[channel][Mod(down, Height) * Width + Mod(across, Width)];

    /// <summary>Cycles per pixel of a bin, never above one half.</summary>
    public static double Frequency(int bin, int size) => (double)Math.Min(bin, size - bin) / size;

    /// <summary>The channels in pixels after each bin was multiplied.</summary>
    /// <param name="factor">Channel, cycles across and down (bins) → what replaces the bin.</param>
    public double[][] ToPixels(Func<int, int, int, Complex> factor)
    {
        var pixels = new double[3][];
        for (int c = 0; c < 3; c++)
        {
            var work = new Complex[Width * Height];
            for (int y = 0; y < Height; y++)
                for (int x = 0; x < Width; x++)
                    work[y * Width + x] = factor(c, x, y);
            Both(work, Width, Height, forward: false);
            pixels[c] = [.. work.Select(v => v.Real)];
        }
        return pixels;
    }

    /// <summary>Rows first, then columns; backwards it divides by the number of pixels.</summary>
    private static void Both(Complex[] values, int width, int height, bool forward)
    {
        var row = new Complex[width];
        for (int y = 0; y < height; y++)
        {
            Array.Copy(values, y * width, row, 0, width);
            One(row, forward);
            Array.Copy(row, 0, values, y * width, width);
        }
        var column = new Complex[height];
        for (int x = 0; x < width; x++)
        {
            for (int y = 0; y < height; y++) column[y] = values[y * width + x];
            One(column, forward);
            for (int y = 0; y < height; y++) values[y * width + x] = column[y];
        }
    }

    private static void One(Complex[] line, bool forward)
    {
        // No native provider is referenced, so this is the managed one on every machine.
        if (forward) Fourier.Forward(line, FourierOptions.AsymmetricScaling);
        else Fourier.Inverse(line, FourierOptions.AsymmetricScaling);
    }

    private static int Mod(int value, int size) => (value % size + size) % size;
}
