using System.Runtime.InteropServices;
using System.Text;

namespace Leafstop.Raw.Decoding;

/// <summary>What the raw library says of an open file; field for field the structure of Native/leafstop_raw.c.</summary>
[StructLayout(LayoutKind.Sequential)]
internal unsafe struct RawFacts
{
    public const int LayoutNone = 0, LayoutOneSample = 1, LayoutSeveralSamples = 2, LayoutFloating = 3;
    private const int BlackPatternLimit = 256, CellLimit = 64;

    public uint StructSize;
    public int Layout;
    public int RawWidth, RawHeight;
    public int Width, Height;
    public int Left, Top;
    public int PitchBytes;
    public fixed int Masks[8 * 4];
    public int Colours;
    public int CellRows, CellColumns;
    public int Slanted;
    public fixed byte Cell[CellLimit];
    public fixed byte Letters[8];
    public uint BlackCommon;
    public fixed uint BlackOfColour[4];
    public int BlackRows, BlackColumns;
    public fixed uint BlackPattern[BlackPatternLimit];
    public uint Maximum;
    public uint IsDng;
    public uint IsLayered;
    public int LosesBySetting;
    public float Iso, ShutterSeconds, FNumber, FocalMm;
    public fixed float AsShot[3];
    public fixed float XyzToCamera[9];
    public fixed int Clock[6];
    private fixed byte _make[64];
    private fixed byte _model[64];
    private fixed byte _bodyNumber[64];
    private fixed byte _lens[128];
    private fixed byte _decoder[64];

    public readonly string Make { get { fixed (byte* text = _make) return Text(text, 64); } }

    public readonly string Model { get { fixed (byte* text = _model) return Text(text, 64); } }

    public readonly string BodyNumber { get { fixed (byte* text = _bodyNumber) return Text(text, 64); } }

    public readonly string Decoder { get { fixed (byte* text = _decoder) return Text(text, 64); } }

    private static string Text(byte* text, int capacity)
    {
        var bytes = new ReadOnlySpan<byte>(text, capacity);
        int end = bytes.IndexOf((byte)0);
        return Encoding.UTF8.GetString(end < 0 ? bytes : bytes[..end]).Trim();
    }
}
