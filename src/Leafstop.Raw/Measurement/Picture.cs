using Leafstop.Raw.Frames;

namespace Leafstop.Raw.Measurement;

/// <summary>A small grey picture: brightness of blocks of a frame.</summary>
internal sealed class Picture(int width, int height, float[] values)
{
    public int Width { get; } = width;

    public int Height { get; } = height;

    public float this[int x, int y] => values[y * Width + x];

    /// <summary>Mean of all samples of each block, DN; blocks are whole mosaic cells, so every block holds the same mix of colours.</summary>
    public static Picture OfBlocks(MosaicFrame frame, int blockWidth, int blockHeight)
    {
        int columns = frame.Width / blockWidth, rows = frame.Height / blockHeight;
        var values = new float[columns * rows];
        var sums = new int[columns];
        for (int by = 0; by < rows; by++)
        {
            Array.Clear(sums);
            for (int y = by * blockHeight; y < (by + 1) * blockHeight; y++)
            {
                ReadOnlySpan<ushort> row = frame.Row(y);
                for (int bx = 0, x = 0; bx < columns; bx++)
                {
                    int sum = 0;
                    for (int end = x + blockWidth; x < end; x++) sum += row[x];
                    sums[bx] += sum;
                }
            }

            for (int bx = 0; bx < columns; bx++) values[by * columns + bx] = sums[bx] / (float)(blockWidth * blockHeight);
        }

        return new Picture(columns, rows, values);
    }

    /// <summary>Smoothed by the binomial 1 4 6 4 1 in both directions; the outermost two samples are copied.</summary>
    public Picture Smoothed() => Pass(horizontal: true).Pass(horizontal: false);

    /// <summary>Every second sample of the smoothed picture.</summary>
    public Picture Halved()
    {
        Picture smooth = Smoothed();
        int w = Width / 2, h = Height / 2;
        var half = new float[w * h];
        for (int y = 0; y < h; y++)
            for (int x = 0; x < w; x++) half[y * w + x] = smooth[2 * x, 2 * y];
        return new Picture(w, h, half);
    }

    /// <summary>The picture seen from a shifted place: result(x, y) = this(x + shiftX, y + shiftY), by the cubic of Keys (1981, from memory) with a = −1/2; edges repeat.</summary>
    public Picture Shifted(double shiftX, double shiftY) => Slid(shiftX, horizontal: true).Slid(shiftY, horizontal: false);

    private Picture Slid(double shift, bool horizontal)
    {
        int whole = (int)Math.Floor(shift), step = horizontal ? 1 : Width, last = (horizontal ? Width : Height) - 1;
        float f = (float)(shift - whole);
        if (whole == 0 && f == 0) return this;
        float w0 = 0.5f * f * (-1 + f * (2 - f)), w1 = 1 + 0.5f * f * f * (3 * f - 5), w2 = 0.5f * f * (1 + f * (4 - 3 * f)), w3 = 0.5f * f * f * (f - 1);
        var result = new float[values.Length];
        for (int y = 0; y < Height; y++)
        {
            for (int x = 0; x < Width; x++)
            {
                int place = horizontal ? x : y, line = horizontal ? y * Width : x, from = place + whole;
                result[y * Width + x] = from >= 1 && from + 2 <= last
                    ? Sum(line + from * step)
                    : values[line + Math.Clamp(from, 0, last) * step];
            }
        }

        return new Picture(Width, Height, result);

        float Sum(int at) => w0 * values[at - step] + w1 * values[at] + w2 * values[at + step] + w3 * values[at + 2 * step];
    }

    private Picture Pass(bool horizontal)
    {
        int step = horizontal ? 1 : Width;
        var result = new float[values.Length];
        for (int y = 0; y < Height; y++)
        {
            for (int x = 0; x < Width; x++)
            {
                int i = y * Width + x, place = horizontal ? x : y, last = horizontal ? Width : Height;
                result[i] = place < 2 || place >= last - 2
                    ? values[i]
                    : (values[i - 2 * step] + values[i + 2 * step] + 4 * (values[i - step] + values[i + step]) + 6 * values[i]) / 16;
            }
        }

        return new Picture(Width, Height, result);
    }
}
