using Leafstop.Core.Sensor;
using Leafstop.Raw.Frames;

namespace Leafstop.Raw.Synthetic;

/// <summary>Where the active area lies: 48 masked columns on the left, 32 masked rows on top (36 on a 6×6 mosaic, so that the pattern keeps its phase).</summary>
internal readonly record struct SensorGeometry(int Width, int Height, int Left, int Top)
{
    public static SensorGeometry Of(int width, int height, MosaicPattern mosaic) =>
        new(width, height, 48, mosaic.Rows == 6 ? 36 : 32);

    public int RawWidth => Left + Width;

    public int RawHeight => Top + Height;

    /// <summary>The masked border as two areas that do not overlap.</summary>
    public MaskedArea[] MaskedAreas() => [new(0, 0, Top, RawWidth), new(Top, 0, RawHeight, Left)];
}
