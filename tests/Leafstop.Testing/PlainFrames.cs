using Leafstop.Core.Sensor;
using Leafstop.Raw.Frames;

namespace Leafstop.Testing;

/// <summary>Frames straight from arrays.</summary>
public static class PlainFrames
{
    /// <summary>Red at the top left, two greens, blue.</summary>
    public static readonly MosaicPattern TwoByTwo = new() { Rows = 2, Columns = 2, Letters = "RGGB" };

    /// <summary>A 6×6 cell with 20 greens, 8 reds and 8 blues.</summary>
    public static readonly MosaicPattern SixBySix = new() { Rows = 6, Columns = 6, Letters = "GGRGGBGGBGGRBRGRBGGGBGGRGGRGGBRBGBRG" };

    /// <summary>No filters.</summary>
    public static readonly MosaicPattern Mono = new() { Rows = 1, Columns = 1, Letters = "M" };

    /// <summary>A frame without borders.</summary>
    public static MosaicFrame Of(ushort[] samples, int width, MosaicPattern mosaic, double blackDn = 0, double? whiteDn = null, string file = "frame") => new()
    {
        Header = new FrameHeader { File = file, Make = "", Model = "", Width = width, Height = samples.Length / width, Mosaic = mosaic, WhiteTagDn = whiteDn },
        Samples = samples,
        Stride = width,
        Left = 0,
        Top = 0,
        LibraryBlackDn = [.. Enumerable.Repeat(blackDn, mosaic.Rows * mosaic.Columns)],
    };
}
