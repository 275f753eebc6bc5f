using Leafstop.Core.Sensor;
using Leafstop.Raw.Crops;
using Leafstop.Raw.Decoding;
using Leafstop.Raw.Frames;

namespace Leafstop.Raw.Jpegs;

/// <summary>Cuts the same places out of JPEGs; runs in the decoding process. Pixels are shown as the camera made them.</summary>
internal static class JpegCrops
{
    /// <summary>Linear light of mid-grey in a finished picture, white being 1.</summary>
    private const double MidGrey = 0.18;

    /// <summary>The dark place, stops from mid-grey: the deep tone that limits are given for. Deeper ones, unlifted, can hardly be seen on a page.</summary>
    private const double DarkStops = -3;

    /// <summary>A pixel this light is white, and one this dark black, on the scale of <see cref="JpegFile.Luminance"/>: codes 254 and 1 of 255.</summary>
    private const int WhiteFrom = 65_000, BlackTo = 20;

    /// <summary>Opens a picture and cuts.</summary>
    /// <exception cref="UnreadableRawException">It can not be read, is of another size than was asked for, or too small.</exception>
    public static JpegReply Of(string path, JpegRequest request)
    {
        using JpegFile file = JpegFile.Open(path);
        if ((file.Width, file.Height) != (request.Width, request.Height))
            throw new UnreadableRawException(path, "The file changed while it was being read. Measure again.");
        using MosaicFrame frame = file.Luminance();
        if (CropGrid.Of(frame.Header.Mosaic, file.Width, file.Height) is not { } grid)
            throw new UnreadableRawException(path, "The picture is too small to show anything of it.");
        JpegPlace[] places = request.Places ?? Places(frame, grid);
        return new JpegReply
        {
            Width = file.Width,
            Height = file.Height,
            Places = places,
            Crops = [.. places.Select(p => new JpegCrop(p.Subject, EnlargedPng.Of(file.Square(p.Left, p.Top, grid.SensorSide), grid.SensorSide, 3)))],
        };
    }

    /// <summary>As in a raw frame; without a partner noise counts as detail, of which the lowest ISO has least.</summary>
    private static JpegPlace[] Places(MosaicFrame frame, CropGrid grid)
    {
        var levels = new FrameLevels([0], [WhiteFrom], [BlackTo]);
        double midStops = Math.Log2(MidGrey * JpegFile.White / (MeteredTone.MidGreyShare * WhiteFrom));
        return [.. PlaceSearch.In(frame, frame, grid, levels, midStops, DarkStops).Select(p => new JpegPlace(p.Subject, p.Left, p.Top))];
    }
}
