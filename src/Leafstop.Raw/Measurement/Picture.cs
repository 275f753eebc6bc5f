using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
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
        var sums = new uint[columns * blockWidth];
        for (int by = 0; by < rows; by++)
        {
            // Down the columns first, which is the long way, then across.
            Array.Clear(sums);
            for (int y = by * blockHeight; y < (by + 1) * blockHeight; y++) Add(frame.Row(y)[..sums.Length], sums);
            for (int bx = 0, x = 0; bx < columns; bx++)
            {
                uint sum = 0;
                for (int end = x + blockWidth; x < end; x++) sum += sums[x];
                values[by * columns + bx] = sum / (float)(blockWidth * blockHeight);
            }
        }

        return new Picture(columns, rows, values);
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Add(ReadOnlySpan<ushort> row, uint[] sums)
    {
        int x = 0;
        for (; x + Vector256<ushort>.Count <= row.Length; x += Vector256<ushort>.Count)
        {
            Vector256<ushort> samples = Vector256.Create(row[x..]);
            (Vector256.Create(sums, x) + Vector256.WidenLower(samples)).CopyTo(sums, x);
            (Vector256.Create(sums, x + Vector256<uint>.Count) + Vector256.WidenUpper(samples)).CopyTo(sums, x + Vector256<uint>.Count);
        }

        for (; x < row.Length; x++) sums[x] += row[x];
    }

    /// <summary>One row.</summary>
    public ReadOnlySpan<float> Row(int y) => values.AsSpan(y * Width, Width);

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
        int whole = (int)Math.Floor(shift), last = (horizontal ? Width : Height) - 1;
        float f = (float)(shift - whole);
        if (whole == 0 && f == 0) return this;
        float w0 = 0.5f * f * (-1 + f * (2 - f)), w1 = 1 + 0.5f * f * f * (3 * f - 5), w2 = 0.5f * f * (1 + f * (4 - 3 * f)), w3 = 0.5f * f * f * (f - 1);
        var result = new float[values.Length];
        for (int y = 0; y < Height; y++)
        {
            Span<float> to = result.AsSpan(y * Width, Width);
            if (horizontal)
            {
                ReadOnlySpan<float> row = Row(y);
                int start = Math.Clamp(1 - whole, 0, Width), end = Math.Clamp(last - 1 - whole, start, Width);
                for (int x = 0; x < start; x++) to[x] = row[Math.Clamp(x + whole, 0, last)];
                if (end > start) Mix(row[(start + whole - 1)..], row[(start + whole)..], row[(start + whole + 1)..], row[(start + whole + 2)..], to[start..end]);
                for (int x = end; x < Width; x++) to[x] = row[Math.Clamp(x + whole, 0, last)];
            }
            else
            {
                int from = y + whole;
                if (from >= 1 && from + 2 <= last) Mix(Row(from - 1), Row(from), Row(from + 1), Row(from + 2), to);
                else Row(Math.Clamp(from, 0, last)).CopyTo(to);
            }
        }

        return new Picture(Width, Height, result);

        [MethodImpl(MethodImplOptions.AggressiveOptimization)]
        void Mix(ReadOnlySpan<float> v0, ReadOnlySpan<float> v1, ReadOnlySpan<float> v2, ReadOnlySpan<float> v3, Span<float> to)
        {
            int x = 0;
            for (; x + Vector256<float>.Count <= to.Length; x += Vector256<float>.Count)
                (w0 * Vector256.Create(v0[x..]) + w1 * Vector256.Create(v1[x..]) + w2 * Vector256.Create(v2[x..]) + w3 * Vector256.Create(v3[x..])).CopyTo(to[x..]);
            for (; x < to.Length; x++) to[x] = w0 * v0[x] + w1 * v1[x] + w2 * v2[x] + w3 * v3[x];
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private Picture Pass(bool horizontal)
    {
        int step = horizontal ? 1 : Width;
        float[] result = [.. values];
        int left = horizontal ? 2 : 0, top = horizontal ? 0 : 2;
        for (int y = top; y < Height - top; y++)
        {
            int from = y * Width + left, count = Width - 2 * left;
            if (count <= 0) continue;
            ReadOnlySpan<float> middle = values.AsSpan(from, count), before = values.AsSpan(from - step, count), after = values.AsSpan(from + step, count);
            ReadOnlySpan<float> first = values.AsSpan(from - 2 * step, count), last = values.AsSpan(from + 2 * step, count);
            Span<float> to = result.AsSpan(from, count);
            int x = 0;
            for (; x + Vector256<float>.Count <= count; x += Vector256<float>.Count)
            {
                Vector256<float> outer = Vector256.Create(first[x..]) + Vector256.Create(last[x..]), inner = Vector256.Create(before[x..]) + Vector256.Create(after[x..]);
                ((outer + 4 * inner + 6 * Vector256.Create(middle[x..])) * (1 / 16f)).CopyTo(to[x..]);
            }

            for (; x < count; x++) to[x] = (first[x] + last[x] + 4 * (before[x] + after[x]) + 6 * middle[x]) / 16;
        }

        return new Picture(Width, Height, result);
    }
}
