using System.Runtime.InteropServices;
using Leafstop.Core.Colour;
using Leafstop.Raw.Crops;
using Leafstop.Raw.Frames;
using Leafstop.Raw.Measurement;

namespace Leafstop.Raw.Developed;

/// <summary>Finds places and cuts samples out of open frames; runs in the decoding process.</summary>
internal static class FrameCutting
{
    /// <summary>Cuts the same places out of one or two frames.</summary>
    /// <param name="frames">Frames of one level.</param>
    /// <param name="request">What is asked for.</param>
    /// <returns>Frames too small for the crop, or of another size than the first, are left out.</returns>
    public static CutAnswer Of(IReadOnlyList<MosaicFrame> frames, CutRequest request)
    {
        MosaicFrame first = frames[0];
        CropPosition[] places = request.Places;
        if (request.Search && places.Length < 3) places = [.. places.Concat(Found(first, frames.Count > 1 && IsLike(frames[1], first) ? frames[1] : first, request).Where(f => places.All(p => p.Subject != f.Subject)))];
        places = [.. places.OrderBy(p => p.Subject)];
        return new CutAnswer { Places = places, Frames = [.. frames.Where(f => IsLike(f, first)).Select(f => Cut(f, places, request))] };
    }

    private static bool IsLike(MosaicFrame frame, MosaicFrame first) =>
        (frame.Width, frame.Height, frame.Header.Mosaic.Letters) == (first.Width, first.Height, first.Header.Mosaic.Letters);

    private static IEnumerable<CropPosition> Found(MosaicFrame first, MosaicFrame second, CutRequest request)
    {
        // The samples around a crop colour its edge too.
        if (CropGrid.Covering(first.Header.Mosaic, first.Width, first.Height, request.Side + 2 * CutRequest.Margin) is not { } grid) return [];
        var found = PlaceSearch.In(first, second, grid, Levels(first, request), request.MidStops);
        int beside = (request.Side - grid.SensorSide) / 2;
        return found.Select(f => new CropPosition(f.Subject, Inside(f.Left - beside, first.Width, request.Side), Inside(f.Top - beside, first.Height, request.Side)));
    }

    private static int Inside(int at, int size, int side) => Math.Clamp(at, CutRequest.Margin, size - side - CutRequest.Margin);

    // What was measured is taken; only a level without a fit has its frame counted once more.
    private static FrameLevels Levels(MosaicFrame frame, CutRequest request)
    {
        IReadOnlyList<string> names = frame.Header.Mosaic.PlaneNames();
        return names.All(n => request.BlackDn.ContainsKey(n) && request.ClipDn.ContainsKey(n))
            ? new FrameLevels([.. names.Select(n => request.BlackDn[n])], [.. names.Select(n => (int)Math.Ceiling(request.ClipDn[n]))], [.. names.Select(_ => 0)])
            : FrameLevels.Of(frame, request.BlackDn);
    }

    private static FrameCut Cut(MosaicFrame frame, CropPosition[] places, CutRequest request)
    {
        IReadOnlyList<string> names = frame.Header.Mosaic.PlaneNames();
        double[] black = names.All(request.BlackDn.ContainsKey)
            ? [.. names.Select(n => request.BlackDn[n])]
            : [.. BlackLevel.OfPlanes(frame).Zip(names, (own, n) => request.BlackDn.GetValueOrDefault(n, own.Dn))];
        int side = request.Side + 2 * CutRequest.Margin;
        return new FrameCut
        {
            File = frame.Header.File,
            Mosaic = frame.Header.Mosaic,
            Width = frame.Width,
            Height = frame.Height,
            BlackDn = black,
            Neutral = [.. frame.AsShotNeutral],
            XyzToCamera = frame.XyzToCamera is { } matrix ? Rows(matrix) : [],
            ColourLight = [frame.ColourLight.X, frame.ColourLight.Y],
            Areas =
            [
                .. places.Where(p => Holds(frame, p, request.Side)).Select(p =>
                {
                    byte[] samples = new byte[2 * side * side];
                    for (int y = 0; y < side; y++)
                        MemoryMarshal.AsBytes(frame.Row(p.Top - CutRequest.Margin + y).Slice(p.Left - CutRequest.Margin, side)).CopyTo(samples.AsSpan(2 * side * y));
                    return new CutArea(p.Subject, p.Left - CutRequest.Margin, p.Top - CutRequest.Margin, side, samples);
                }),
            ],
        };
    }

    /// <summary>True when a crop and its margin lie inside a frame.</summary>
    private static bool Holds(MosaicFrame frame, CropPosition place, int side) =>
        place.Left >= CutRequest.Margin && place.Top >= CutRequest.Margin && place.Left + side + CutRequest.Margin <= frame.Width && place.Top + side + CutRequest.Margin <= frame.Height;

    private static double[] Rows(ColourMatrix matrix) => [.. Enumerable.Range(0, 9).Select(i => matrix[i / 3, i % 3])];
}
