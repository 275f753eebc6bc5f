using System.Buffers.Binary;
using System.Numerics;
using System.Runtime.CompilerServices;

namespace Leafstop.Raw.Dng;

/// <summary>Lossless JPEG (ITU-T T.81, process 14, SOF3): Huffman-coded differences to the sample two places to the left.</summary>
/// <remarks>The row is coded as two interleaved components of half its width, so that predictor 1 looks at the same colour of a 2×2 mosaic.
/// The Huffman table is made for the picture from a sample of its rows.</remarks>
public static class LosslessJpeg
{
    private const int SampledRowStep = 8;

    /// <summary>Codes a picture.</summary>
    /// <param name="samples">Samples row by row, without gaps, each below 2^<paramref name="bits"/>.</param>
    /// <param name="width">Samples a row, even, 2 to 131 070.</param>
    /// <param name="height">Rows, 1 to 65 535.</param>
    /// <param name="bits">Bits a sample, 2 to 15 (16 needs a difference category of its own and is not written here).</param>
    /// <returns>A complete JPEG stream, from SOI to EOI.</returns>
    /// <exception cref="ArgumentException">The sizes do not fit together.</exception>
    public static byte[] Encode(ReadOnlySpan<ushort> samples, int width, int height, int bits)
    {
        if (width < 2 || width % 2 != 0 || width > 131_070 || height is < 1 or > 65_535 || bits is < 2 or > 15 || samples.Length != (long)width * height)
            throw new ArgumentException($"A lossless JPEG of {width} x {height} samples with {bits} bits cannot be written from {samples.Length} samples.");
        var table = HuffmanTable.For(Frequencies(samples, width, height, bits));
        var output = new BitWriter(samples.Length + samples.Length / 2 + 4096);
        WriteHeaders(output, table, width / 2, height, bits);
        var above = ReadOnlySpan<ushort>.Empty;
        for (int y = 0; y < height; y++)
        {
            var row = samples.Slice(y * width, width);
            // At most 31 bits a sample, and every byte may need a stuffed zero behind it.
            output.Reserve(width * 8 + 16);
            int first = above.IsEmpty ? 1 << (bits - 1) : above[0], second = above.IsEmpty ? 1 << (bits - 1) : above[1];
            output.Put(row[0] - first, table);
            output.Put(row[1] - second, table);
            for (int x = 2; x < row.Length; x++)
                output.Put(row[x] - row[x - 2], table);
            above = row;
        }
        return output.Finish();
    }

    /// <summary>How often each category of difference occurs, in a sample of the rows; every possible category counts at least once.</summary>
    private static long[] Frequencies(ReadOnlySpan<ushort> samples, int width, int height, int bits)
    {
        var counts = new long[bits + 1];
        Array.Fill(counts, 1);
        for (int y = 0; y < height; y += SampledRowStep)
        {
            var row = samples.Slice(y * width, width);
            for (int x = 2; x < row.Length; x++)
            {
                int category = Category(row[x] - row[x - 2]);
                if (category > bits)
                    throw new ArgumentException($"A sample has more than {bits} bits.");
                counts[category]++;
            }
        }
        return counts;
    }

    /// <summary>Bits of the absolute difference: 0 for 0, 1 for ±1, 2 for ±2 and ±3… (T.81 table H.2).</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static int Category(int difference) => 32 - BitOperations.LeadingZeroCount((uint)Math.Abs(difference));

    private static void WriteHeaders(BitWriter output, HuffmanTable table, int columns, int rows, int bits)
    {
        output.Raw(
        [
            0xFF, 0xD8,
            0xFF, 0xC3, 0, 14, (byte)bits, (byte)(rows >> 8), (byte)rows, (byte)(columns >> 8), (byte)columns, 2, 0, 0x11, 0, 1, 0x11, 0,
            0xFF, 0xC4, 0, (byte)(19 + table.Symbols.Length), 0,
        ]);
        output.Raw(table.CodesOfLength.AsSpan(1));
        output.Raw(table.Symbols);
        output.Raw([0xFF, 0xDA, 0, 10, 2, 0, 0, 1, 0, 1, 0, 0]);
    }

    /// <summary>A canonical Huffman table; the code of only ones is never used (T.81 annex C and K.2).</summary>
    private sealed class HuffmanTable
    {
        public required byte[] CodesOfLength { get; init; }

        public required byte[] Symbols { get; init; }

        public uint[] Codes { get; } = new uint[17];

        public int[] Lengths { get; } = new int[17];

        public static HuffmanTable For(long[] frequencies)
        {
            // At most 16 symbols and the reserved one: no code is longer than 16 bits, so nothing has to be shortened.
            int count = frequencies.Length;
            var weight = frequencies.Append(0L).ToArray();
            var members = Enumerable.Range(0, count + 1).Select(i => new List<int> { i }).ToList();
            var length = new int[count + 1];
            var live = Enumerable.Range(0, count + 1).ToList();
            while (live.Count > 1)
            {
                // The reserved symbol has weight 0 and so the longest code; among equals the higher index goes first, which makes it the last of its length.
                var two = live.OrderBy(i => weight[i]).ThenByDescending(i => i).Take(2).ToArray();
                members[two[0]].AddRange(members[two[1]]);
                weight[two[0]] += weight[two[1]];
                live.Remove(two[1]);
                foreach (int i in members[two[0]])
                    length[i]++;
            }
            var symbols = Enumerable.Range(0, count).OrderBy(i => length[i]).ThenBy(i => i).ToArray();
            var perLength = new byte[17];
            var table = new HuffmanTable { CodesOfLength = perLength, Symbols = [.. symbols.Select(i => (byte)i)] };
            uint code = 0;
            int at = 0;
            foreach (int symbol in symbols)
            {
                code <<= length[symbol] - at;
                at = length[symbol];
                perLength[at]++;
                table.Lengths[symbol] = at;
                table.Codes[symbol] = code++;
            }
            return table;
        }
    }

    /// <summary>Bits in, bytes out, with the zero that must follow every 0xFF.</summary>
    private sealed class BitWriter(int capacity)
    {
        private byte[] _buffer = new byte[capacity];
        private int _length;
        private ulong _bits;
        private int _held;

        public void Reserve(int bytes)
        {
            if (_buffer.Length - _length < bytes)
                Array.Resize(ref _buffer, Math.Max(_buffer.Length + bytes, _buffer.Length / 4 * 5));
        }

        public void Raw(ReadOnlySpan<byte> bytes)
        {
            bytes.CopyTo(_buffer.AsSpan(_length));
            _length += bytes.Length;
        }

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public void Put(int difference, HuffmanTable table)
        {
            int category = Category(difference);
            // A negative difference d is sent as the low bits of d - 1 (T.81 F.1.2.1).
            uint extra = (uint)(difference + (difference >> 31)) & ((1u << category) - 1);
            int bits = table.Lengths[category] + category;
            _bits = _bits << bits | table.Codes[category] << category | extra;
            _held += bits;
            if (_held >= 32)
                Flush();
        }

        private void Flush()
        {
            _held -= 32;
            uint word = (uint)(_bits >> _held);
            // A byte of only ones shows as a borrow when its complement is tested for zero.
            uint complement = ~word;
            if (((complement - 0x01010101) & ~complement & 0x80808080) == 0)
            {
                BinaryPrimitives.WriteUInt32BigEndian(_buffer.AsSpan(_length), word);
                _length += 4;
                return;
            }
            for (int shift = 24; shift >= 0; shift -= 8)
                Stuffed((byte)(word >> shift));
        }

        private void Stuffed(byte value)
        {
            _buffer[_length++] = value;
            if (value == 0xFF)
                _buffer[_length++] = 0;
        }

        public byte[] Finish()
        {
            Reserve(32);
            while (_held >= 8)
            {
                _held -= 8;
                Stuffed((byte)(_bits >> _held));
            }
            // The rest of the last byte is filled with ones.
            if (_held > 0)
                Stuffed((byte)(_bits << (8 - _held) | (1u << (8 - _held)) - 1));
            Raw([0xFF, 0xD9]);
            return _buffer[.._length];
        }
    }
}
