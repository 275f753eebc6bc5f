using System.Buffers.Binary;
using System.Text;

namespace Leafstop.Raw.Tests.Decoding;

/// <summary>Writes small uncompressed DNG files whose every sample is known, independently of the product's own writer.</summary>
internal sealed class PlainDng
{
    public int RawWidth { get; init; } = 96;

    public int RawHeight { get; init; } = 64;

    /// <summary>Top, left, bottom, right; the whole frame when null.</summary>
    public uint[]? ActiveArea { get; init; }

    /// <summary>Top, left, bottom, right of each shielded area, one after another.</summary>
    public uint[] MaskedAreas { get; init; } = [];

    public int CellRows { get; init; } = 2;

    public int CellColumns { get; init; } = 2;

    /// <summary>0 red, 1 green, 2 blue, row by row from the active area's top left; empty for a sensor without filters.</summary>
    public byte[] Cell { get; init; } = [0, 1, 1, 2];

    public int SamplesPerPixel { get; init; } = 1;

    public int SampleFormat { get; init; } = 1;

    public int BitsPerSample { get; init; } = 16;

    public int Compression { get; init; } = 1;

    public int BlackRows { get; init; } = 1;

    public int BlackColumns { get; init; } = 1;

    /// <summary>In 256ths of a DN, one a site of the black cell; no tag when empty.</summary>
    public uint[] Black256 { get; init; } = [512 * 256];

    public uint White { get; init; } = 16383;

    public string BodyNumber { get; init; } = "";

    /// <summary>Further entries of the EXIF directory: tag, type (3 short, 4 long, 5 fraction, 10 signed fraction, 2 text), values or text.</summary>
    public List<(int Tag, int Type, object Value)> Exif { get; init; } =
    [
        (33434, 5, new uint[] { 1, 60 }), (33437, 5, new uint[] { 80, 10 }), (34855, 3, new uint[] { 400 }), (36867, 2, "2026:11:25 05:30:07"),
        (37386, 5, new uint[] { 350, 10 }),
    ];

    /// <summary>The sample at a place of the whole frame.</summary>
    public static ushort SampleAt(int x, int y) => (ushort)(600 + (y * 131 + x * 17 + x * y % 7) % 12000);

    public byte[] ToBytes()
    {
        bool mosaic = Cell.Length > 0;
        var entries = new List<(int Tag, int Type, object Value)>
        {
            (254, 4, new uint[] { 0 }), (256, 4, new[] { (uint)RawWidth }), (257, 4, new[] { (uint)RawHeight }),
            (258, 3, Enumerable.Repeat((uint)BitsPerSample, SamplesPerPixel).ToArray()), (259, 3, new[] { (uint)Compression }),
            (262, 3, new uint[] { mosaic ? 32803u : 34892u }), (271, 2, "Invented"), (272, 2, "Body T"), (273, 4, new uint[] { 0 }),
            (274, 3, new uint[] { 1 }), (277, 3, new[] { (uint)SamplesPerPixel }), (278, 4, new[] { (uint)RawHeight }),
            (279, 4, new[] { (uint)SampleBytes }), (284, 3, new uint[] { 1 }), (339, 3, Enumerable.Repeat((uint)SampleFormat, SamplesPerPixel).ToArray()),
            (34665, 4, new uint[] { 0 }), (50706, 1, new byte[] { 1, 4, 0, 0 }), (50707, 1, new byte[] { 1, 1, 0, 0 }), (50708, 2, "Invented Body T"),
            (50717, 4, Enumerable.Repeat(White, SamplesPerPixel).ToArray()),
            (50721, 10, new uint[] { 1, 1, 0, 1, 0, 1, 0, 1, 1, 1, 0, 1, 0, 1, 0, 1, 1, 1 }), (50728, 5, new uint[] { 1, 2, 1, 1, 5, 8 }),
            (50778, 3, new uint[] { 21 }),
        };
        if (mosaic)
        {
            entries.Add((33421, 3, new[] { (uint)CellRows, (uint)CellColumns }));
            entries.Add((33422, 1, Cell));
        }
        if (Black256.Length > 0)
        {
            entries.Add((50713, 3, new[] { (uint)BlackRows, (uint)BlackColumns }));
            entries.Add((50714, 5, Black256.SelectMany(b => new[] { b, 256u }).ToArray()));
        }
        if (ActiveArea is not null)
            entries.Add((50829, 4, ActiveArea));
        if (MaskedAreas.Length > 0)
            entries.Add((50830, 4, MaskedAreas));
        if (BodyNumber.Length > 0)
            entries.Add((50735, 2, BodyNumber));

        // Twice: the first pass tells how long the directories are, the second knows where things lie.
        int exifAt = 0, samplesAt = 0;
        byte[] head = [];
        for (int pass = 0; pass < 2; pass++)
        {
            Replace(entries, 273, samplesAt);
            Replace(entries, 34665, exifAt);
            byte[] main = Directory(entries, 8);
            exifAt = 8 + main.Length;
            byte[] exif = Directory(Exif, exifAt);
            samplesAt = exifAt + exif.Length;
            head = [(byte)'I', (byte)'I', 42, 0, 8, 0, 0, 0, .. main, .. exif];
        }
        return [.. head, .. Samples()];
    }

    private int SampleBytes => RawWidth * RawHeight * SamplesPerPixel * BitsPerSample / 8;

    private byte[] Samples()
    {
        var bytes = new byte[SampleBytes];
        if (BitsPerSample != 16)
            return bytes;
        for (int y = 0; y < RawHeight; y++)
            for (int x = 0; x < RawWidth; x++)
                for (int s = 0; s < SamplesPerPixel; s++)
                    BinaryPrimitives.WriteUInt16LittleEndian(bytes.AsSpan(2 * ((y * RawWidth + x) * SamplesPerPixel + s)), SampleAt(x, y));
        return bytes;
    }

    private static void Replace(List<(int Tag, int Type, object Value)> entries, int tag, int value)
    {
        int at = entries.FindIndex(e => e.Tag == tag);
        entries[at] = (tag, entries[at].Type, new[] { (uint)value });
    }

    private static byte[] Directory(List<(int Tag, int Type, object Value)> entries, int at)
    {
        var sorted = entries.OrderBy(e => e.Tag).ToList();
        var fixedPart = new byte[2 + 12 * sorted.Count + 4];
        var far = new List<byte>();
        BinaryPrimitives.WriteUInt16LittleEndian(fixedPart, (ushort)sorted.Count);
        for (int i = 0; i < sorted.Count; i++)
        {
            var (tag, type, value) = sorted[i];
            byte[] bytes = Bytes(type, value);
            var entry = fixedPart.AsSpan(2 + 12 * i, 12);
            BinaryPrimitives.WriteUInt16LittleEndian(entry, (ushort)tag);
            BinaryPrimitives.WriteUInt16LittleEndian(entry[2..], (ushort)type);
            BinaryPrimitives.WriteInt32LittleEndian(entry[4..], bytes.Length / (type switch { 3 => 2, 4 => 4, 5 or 10 => 8, _ => 1 }));
            if (bytes.Length <= 4)
            {
                bytes.CopyTo(entry[8..]);
                continue;
            }
            BinaryPrimitives.WriteInt32LittleEndian(entry[8..], at + fixedPart.Length + far.Count);
            far.AddRange(bytes);
            if (far.Count % 2 == 1)
                far.Add(0);
        }
        return [.. fixedPart, .. far];
    }

    private static byte[] Bytes(int type, object value) => value switch
    {
        byte[] bytes => bytes,
        string text => [.. Encoding.UTF8.GetBytes(text), 0],
        uint[] numbers when type == 3 => [.. numbers.SelectMany(n => BitConverter.GetBytes((ushort)n))],
        uint[] numbers => [.. numbers.SelectMany(BitConverter.GetBytes)],
        _ => throw new ArgumentException($"No bytes for {value}.", nameof(value)),
    };
}
