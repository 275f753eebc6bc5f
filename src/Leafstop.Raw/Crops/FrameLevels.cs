using Leafstop.Raw.Frames;
using Leafstop.Raw.Measurement;

namespace Leafstop.Raw.Crops;

/// <summary>Where the samples of each plane of a frame begin and end.</summary>
/// <param name="BlackDn">[plane]: black level, DN.</param>
/// <param name="ClipDn">[plane]: samples at or above this are clipped.</param>
/// <param name="FloorDn">[plane]: samples at or below this are cut off; −1 where nothing is.</param>
internal sealed record FrameLevels(double[] BlackDn, int[] ClipDn, int[] FloorDn)
{
    /// <summary>Reads them off a frame.</summary>
    /// <param name="frame">The frame.</param>
    /// <param name="measuredBlackDn">Black by plane name where it was measured; it goes before what the frame says.</param>
    public static FrameLevels Of(MosaicFrame frame, IReadOnlyDictionary<string, double> measuredBlackDn)
    {
        SampleHistogram[] histograms = SampleHistogram.OfPlanes(frame);
        BlackLevel[] black = BlackLevel.OfPlanes(frame);
        int?[] seen = [.. histograms.Select(h => h.ClipCode())];
        int fallback = seen.Where(c => c is not null).Min() ?? (int)Math.Min(frame.Header.WhiteTagDn ?? 65536, 65536);
        return new FrameLevels(
            [.. frame.Header.Mosaic.PlaneNames().Select((name, p) => measuredBlackDn.TryGetValue(name, out double dn) ? dn : black[p].Dn)],
            [.. seen.Select(c => c ?? fallback)],
            [.. histograms.Select(h => h.FloorCount() > 0 ? h.Smallest : -1)]);
    }
}
