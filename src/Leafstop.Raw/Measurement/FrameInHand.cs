using System.Collections.Immutable;
using System.IO.Hashing;
using System.Runtime.InteropServices;
using Leafstop.Core.Sensor;
using Leafstop.Raw.Frames;

namespace Leafstop.Raw.Measurement;

/// <summary>A frame that is open, with everything that it says by itself.</summary>
internal sealed class FrameInHand : IDisposable
{
    /// <summary>Rows of tiles that tell how calm a frame is.</summary>
    private const int EnoughTileRows = 64;

    private readonly SampleHistogram[] _histograms;
    private readonly BlackLevel[] _black;
    private TileSums? _sums;

    public FrameInHand(MosaicFrame frame)
    {
        Frame = frame;
        _histograms = SampleHistogram.OfPlanes(frame);
        Largest = _histograms.Max(h => h.Largest);
        Layout = new TileLayout(frame.Header.Mosaic, frame.Width, frame.Height);
        Offsets = BorderOffsets.Of(frame);
        _black = BlackLevel.OfPlanes(frame);
        // Row offsets are taken off the tiles; the border's mean must lose them too.
        for (int p = 0; p < _black.Length; p++)
            if (Offsets is not null && _black[p].Source == BlackSource.MaskedPixels) _black[p] = _black[p] with { Dn = _black[p].Dn - Offsets.InPlane(Layout, p) };
        int?[] clips = [.. _histograms.Select(h => h.ClipCode())];
        // A plane that never clips (red under a blue sky) shares the converter of those that do.
        int fallback = clips.Where(c => c is not null).Min() ?? (int)Math.Min(frame.Header.WhiteTagDn ?? 65536, 65536);
        ClipSeen = [.. clips];
        ClipDn = [.. clips.Select(c => c ?? fallback)];
        FloorDn = [.. _histograms.Select(h => h.FloorCount() > 0 ? h.Smallest : -1)];
        IsCap = HoldsNoLight();
        if (IsCap)
            for (int p = 0; p < _black.Length; p++) _black[p] = CapLevel(p);
        Digest = XxHash3.HashToUInt64(MemoryMarshal.AsBytes(frame.Samples.Span));
    }

    public MosaicFrame Frame { get; }

    /// <summary>How the frame is cut into tiles.</summary>
    public TileLayout Layout { get; }

    /// <summary>Sums of the frame with itself: its tile means and its texture. A frame that finds a partner never needs them.</summary>
    public TileSums Sums => _sums ??= TileSummation.Of(Frame, Frame, Largest);

    /// <summary>The largest sample of all planes.</summary>
    public int Largest { get; }

    /// <summary>[plane]: the clip code seen; null where no pile is.</summary>
    public int?[] ClipSeen { get; }

    /// <summary>[plane]: samples at or above this are clipped.</summary>
    public int[] ClipDn { get; }

    /// <summary>[plane]: samples at or below this are cut off; −1 where nothing is.</summary>
    public int[] FloorDn { get; }

    /// <summary>[plane].</summary>
    public double[] BlackDn => [.. _black.Select(b => b.Dn)];

    /// <summary>Mean of all planes above black, DN.</summary>
    public double MeanSignalDn => _histograms.Zip(_black, (h, b) => h.MeanDn - b.Dn).Average();

    public bool IsCap { get; }

    /// <summary>Row offsets that the masked border shows; null for none.</summary>
    public BorderOffsets? Offsets { get; }

    public ulong Digest { get; }

    public void Dispose() => Frame.Dispose();

    /// <summary>The statistics that leave the process.</summary>
    /// <param name="hot">Hot pixels found with its partner.</param>
    /// <param name="singleFrameCurves">What the frame tells without a partner; null when it has one.</param>
    /// <param name="tiles">Tile sums of its pair, or of itself.</param>
    /// <param name="side">1 when it is the first of that pair, −1 when the second, 0 for sums of itself.</param>
    public FrameSurvey Survey(HotPixels hot, ImmutableArray<PairPlane>? singleFrameCurves, TileSums tiles, int side) => new()
    {
        Header = Frame.Header,
        Planes = [.. _histograms.Select((h, p) => PlaneOf(h, p))],
        Map = MapOf(tiles, side),
        IsCap = IsCap,
        HotPixels = hot.Found,
        HotPixelsSearched = hot.Searched,
        DataErrors = Frame.DataErrors,
        SampleDigest = Digest,
        SingleFrameCurves = singleFrameCurves,
    };

    /// <summary>No structure, and a level within a fiftieth of the range above black.</summary>
    /// <remarks>The yardstick is the noise inside calm tiles; rows that are offset against each other may spread a cap frame to two or three times that.</remarks>
    private bool HoldsNoLight()
    {
        int plane = Layout.BrightPlane, every = Math.Max(1, Layout.Rows / EnoughTileRows);
        TileSums some = TileSummation.Of(Frame, Frame, Largest, every);
        double[] variances =
        [
            .. Enumerable.Range(0, (Layout.Rows + every - 1) / every).SelectMany(row => some.SS[plane].Skip(row * every * Layout.Columns).Take(Layout.Columns))
                .Select(ss => ss / (4.0 * Layout.RowScale[plane] * Layout.FreedomPerTile[plane])),
        ];
        if (variances.Length == 0) return false;
        double calm = Math.Sqrt(Math.Max(OrderStatistic.At(variances, variances.Length / 10), 1.0 / 12));
        SampleHistogram histogram = _histograms[plane];
        int low = histogram.Quantile(0.01), middle = histogram.Quantile(0.5), high = histogram.Quantile(0.99);
        return high - middle < 8 * calm && middle - low < 8 * calm
            && middle - _black[plane].Dn < Math.Max(5 * calm, 0.02 * (ClipDn[plane] - _black[plane].Dn));
    }

    /// <summary>The mean of a cap frame, with the error that its own row offsets leave: they are others in every frame.</summary>
    private BlackLevel CapLevel(int plane)
    {
        var (mean, sd, samples) = _histograms[plane].Hump();
        TileLayout layout = Sums.Layout;
        double[] rows = [.. Enumerable.Range(0, layout.Rows).Select(r => Enumerable.Range(r * layout.Columns, layout.Columns).Average(t => Sums.MeanDn(plane, t)))];
        double centre = rows.Average(), ofRows = rows.Sum(r => (r - centre) * (r - centre)) / Math.Max(1, rows.Length - 1) / rows.Length;
        return _black[plane] with { Dn = mean, Source = BlackSource.CapFrames, ErrorDn = Math.Sqrt(Math.Max(sd * sd / samples, ofRows)) };
    }

    private PlaneSurvey PlaneOf(SampleHistogram histogram, int plane)
    {
        var (asked, gaps) = histogram.MissingCodes(ClipSeen[plane]);
        BlackLevel black = _black[plane];
        return new PlaneSurvey
        {
            Plane = Layout.PlaneNames[plane],
            Samples = histogram.Samples,
            MeanRawDn = histogram.MeanDn,
            BlackDn = black.Dn,
            BlackSource = black.Source,
            BlackErrorDn = black.ErrorDn,
            MaskedSamples = black.MaskedSamples,
            MaskedSdDn = black.MaskedSdDn,
            MinDn = histogram.Smallest,
            MaxDn = histogram.Largest,
            ClipDn = ClipSeen[plane],
            ClippedSamples = ClipSeen[plane] is { } clip ? histogram.CountFrom(clip) : 0,
            FloorSamples = histogram.FloorCount(),
            CodeStep = histogram.CodeStep(),
            GapCandidates = asked,
            Gaps = gaps,
        };
    }

    private LevelMap MapOf(TileSums tiles, int side)
    {
        TileLayout layout = Layout;
        int plane = layout.BrightPlane, merge = 1;
        while (layout.Columns / merge > 128 || layout.Rows / merge > 256) merge++;
        int columns = layout.Columns / merge, rows = layout.Rows / merge;
        var means = new float[columns * rows];
        for (int y = 0; y < rows; y++)
        {
            for (int x = 0; x < columns; x++)
            {
                double mean = 0;
                bool clipped = false;
                for (int ty = y * merge; ty < (y + 1) * merge; ty++)
                {
                    for (int tx = x * merge; tx < (x + 1) * merge; tx++)
                    {
                        int tile = ty * layout.Columns + tx;
                        mean += (tiles.Sum[plane][tile] + side * tiles.Difference[plane][tile]) / (2.0 * layout.PerTile[plane]);
                        clipped |= tiles.Largest[plane][tile] >= ClipDn[plane];
                    }
                }

                means[y * columns + x] = clipped ? -1 : (float)(mean / (merge * merge));
            }
        }

        return new LevelMap { Columns = columns, Rows = rows, BlockWidth = layout.Width * merge, BlockHeight = layout.Height * merge, MeanRawDn = means };
    }
}
