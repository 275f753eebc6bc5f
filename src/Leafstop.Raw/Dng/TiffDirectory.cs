using System.Buffers.Binary;
using System.Text;

namespace Leafstop.Raw.Dng;

/// <summary>One image file directory, little-endian: fields sorted by tag, values that do not fit into four bytes behind it. Source: TIFF 6.0, section 2.</summary>
internal sealed class TiffDirectory
{
    private const int FieldBytes = 12;
    private readonly SortedDictionary<ushort, (ushort Type, uint Count, byte[] Value)> _fields = [];

    public TiffDirectory Bytes(ushort tag, params ReadOnlySpan<byte> values) => Add(tag, 1, values.Length, values.ToArray());

    public TiffDirectory Undefined(ushort tag, ReadOnlySpan<byte> values) => Add(tag, 7, values.Length, values.ToArray());

    public TiffDirectory Text(ushort tag, string value)
    {
        byte[] ascii = [.. Encoding.ASCII.GetBytes(value), 0];
        return Add(tag, 2, ascii.Length, ascii);
    }

    public TiffDirectory Shorts(ushort tag, params ReadOnlySpan<ushort> values)
    {
        var bytes = new byte[2 * values.Length];
        for (int i = 0; i < values.Length; i++)
            BinaryPrimitives.WriteUInt16LittleEndian(bytes.AsSpan(2 * i), values[i]);
        return Add(tag, 3, values.Length, bytes);
    }

    public TiffDirectory Longs(ushort tag, params ReadOnlySpan<uint> values) => Add(tag, 4, values.Length, Pack(values));

    /// <summary>Fractions above or equal to zero.</summary>
    public TiffDirectory Rationals(ushort tag, params ReadOnlySpan<(uint Over, uint Under)> values)
    {
        var flat = new uint[2 * values.Length];
        for (int i = 0; i < values.Length; i++)
            (flat[2 * i], flat[2 * i + 1]) = values[i];
        return Add(tag, 5, values.Length, Pack(flat));
    }

    /// <summary>Signed fractions in ten-thousandths.</summary>
    public TiffDirectory SignedRationals(ushort tag, params ReadOnlySpan<double> values)
    {
        var flat = new uint[2 * values.Length];
        for (int i = 0; i < values.Length; i++)
            (flat[2 * i], flat[2 * i + 1]) = ((uint)(int)Math.Round(values[i] * 10_000), 10_000);
        return Add(tag, 10, values.Length, Pack(flat));
    }

    public TiffDirectory Doubles(ushort tag, params ReadOnlySpan<double> values)
    {
        var bytes = new byte[8 * values.Length];
        for (int i = 0; i < values.Length; i++)
            BinaryPrimitives.WriteDoubleLittleEndian(bytes.AsSpan(8 * i), values[i]);
        return Add(tag, 12, values.Length, bytes);
    }

    /// <summary>Bytes that the directory takes with its values; independent of where it lies.</summary>
    public int Length => 2 + FieldBytes * _fields.Count + 4 + _fields.Values.Sum(f => f.Value.Length <= 4 ? 0 : f.Value.Length + (f.Value.Length & 1));

    /// <summary>The directory as it must stand at a position of the file; no further directory follows it.</summary>
    public byte[] At(uint position)
    {
        var bytes = new byte[Length];
        BinaryPrimitives.WriteUInt16LittleEndian(bytes, (ushort)_fields.Count);
        int field = 2, value = 2 + FieldBytes * _fields.Count + 4;
        foreach (var (tag, entry) in _fields)
        {
            BinaryPrimitives.WriteUInt16LittleEndian(bytes.AsSpan(field), tag);
            BinaryPrimitives.WriteUInt16LittleEndian(bytes.AsSpan(field + 2), entry.Type);
            BinaryPrimitives.WriteUInt32LittleEndian(bytes.AsSpan(field + 4), entry.Count);
            if (entry.Value.Length <= 4)
            {
                entry.Value.CopyTo(bytes, field + 8);
            }
            else
            {
                BinaryPrimitives.WriteUInt32LittleEndian(bytes.AsSpan(field + 8), position + (uint)value);
                entry.Value.CopyTo(bytes, value);
                value += entry.Value.Length + (entry.Value.Length & 1);
            }
            field += FieldBytes;
        }
        return bytes;
    }

    private TiffDirectory Add(ushort tag, ushort type, int count, byte[] value)
    {
        _fields[tag] = (type, (uint)count, value);
        return this;
    }

    private static byte[] Pack(ReadOnlySpan<uint> values)
    {
        var bytes = new byte[4 * values.Length];
        for (int i = 0; i < values.Length; i++)
            BinaryPrimitives.WriteUInt32LittleEndian(bytes.AsSpan(4 * i), values[i]);
        return bytes;
    }
}
