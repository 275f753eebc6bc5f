using Leafstop.Core.Viewing;

namespace Leafstop.Core.Developing;

/// <summary>From the pixels of a sensor to the pixels of a print of a stated size.</summary>
/// <remarks>
/// <para>Every pixel of the outcome is the mean of the light that falls on its square, sensor pixels being squares side by side (area averaging, in linear light), whether the picture gets smaller or larger.
/// Made smaller by whole m, m × m pixels become one and the variance of white noise falls by m². Made larger, pixels stay squares and grain keeps its strength. Nothing is sharpened.</para>
/// <para>Known error: the square lets some detail finer than the new pixels through as coarser waves (a sharper cut would ring).</para>
/// </remarks>
public sealed record PrintScale
{
    private PrintScale(double ratio, double? pixelsPerCentimetre) => (Ratio, PixelsPerCentimetre) = (ratio, pixelsPerCentimetre);

    /// <summary>One pixel of the outcome for one of the sensor.</summary>
    public static PrintScale PixelForPixel { get; } = new(1, null);

    /// <summary>Pixels of the outcome for one of the sensor, along a side.</summary>
    public double Ratio { get; }

    /// <summary>Pixels of the outcome on a centimetre of the print; null when no print is meant.</summary>
    public double? PixelsPerCentimetre { get; }

    /// <summary>Takes a print and how finely it is drawn.</summary>
    /// <param name="view">The print and its viewing; the width of the print is that of the whole frame.</param>
    /// <param name="pixelsAcross">Pixels of the sensor along the print's width.</param>
    /// <param name="pixelsPerCentimetre">Pixels of the outcome on a centimetre: of the page, or of the screen.</param>
    /// <exception cref="ArgumentOutOfRangeException">The outcome would have fewer than 1/64 or more than 8 pixels for one of the sensor.</exception>
    public static PrintScale Of(ViewingCondition view, int pixelsAcross, double pixelsPerCentimetre)
    {
        ArgumentNullException.ThrowIfNull(view);
        double ratio = pixelsPerCentimetre / view.PixelsPerCentimetre(pixelsAcross);
        return ratio is >= 1.0 / 64 and <= 8
            ? new PrintScale(ratio, pixelsPerCentimetre)
            : throw new ArgumentOutOfRangeException(nameof(pixelsPerCentimetre), pixelsPerCentimetre, "Between 1/64 and 8 pixels are drawn for one of the sensor.");
    }

    /// <summary>Whole pixels of the outcome along a side.</summary>
    /// <param name="pixels">Sensor pixels along it.</param>
    public int SizeOf(int pixels) => Math.Max(1, (int)Math.Floor(pixels * Ratio + 1e-9));

    /// <summary>Draws a picture at this scale.</summary>
    /// <remarks>What is left over beyond the last whole pixel is cut off at the right and the bottom.</remarks>
    public LinearPicture Apply(LinearPicture picture)
    {
        ArgumentNullException.ThrowIfNull(picture);
        if (Ratio == 1) return picture;
        int width = SizeOf(picture.Width), height = SizeOf(picture.Height);
        (int From, float[] Weights)[] columns = Shares(width, picture.Width), rows = Shares(height, picture.Height);
        return new LinearPicture(width, height, [.. picture.Channels.Select(Drawn)]);

        float[] Drawn(float[] channel)
        {
            // Columns first: rows are then summed over fewer values.
            var narrow = new float[width * picture.Height];
            for (int y = 0; y < picture.Height; y++)
            {
                ReadOnlySpan<float> row = channel.AsSpan(y * picture.Width, picture.Width);
                for (int x = 0; x < width; x++)
                {
                    var (from, weights) = columns[x];
                    float sum = 0;
                    for (int i = 0; i < weights.Length; i++) sum += weights[i] * row[from + i];
                    narrow[y * width + x] = sum;
                }
            }

            var drawn = new float[width * height];
            for (int y = 0; y < height; y++)
            {
                var (from, weights) = rows[y];
                Span<float> row = drawn.AsSpan(y * width, width);
                for (int i = 0; i < weights.Length; i++)
                {
                    ReadOnlySpan<float> source = narrow.AsSpan((from + i) * width, width);
                    for (int x = 0; x < width; x++) row[x] += weights[i] * source[x];
                }
            }

            return drawn;
        }
    }

    private (int, float[])[] Shares(int count, int size) =>
    [
        .. Enumerable.Range(0, count).Select(i =>
        {
            double start = i / Ratio, end = Math.Min(size, (i + 1) / Ratio);
            int first = (int)Math.Floor(start + 1e-9), last = Math.Min(size, Math.Max(first + 1, (int)Math.Ceiling(end - 1e-9)));
            float[] weights = [.. Enumerable.Range(first, last - first).Select(p => (float)((Math.Min(end, p + 1) - Math.Max(start, p)) / (end - start)))];
            return (first, weights);
        }),
    ];
}
