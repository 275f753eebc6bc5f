using System.Buffers;
using System.Collections.Immutable;
using Leafstop.Core.Sensor;
using Leafstop.Raw.Frames;

namespace Leafstop.Raw.Synthetic;

/// <summary>A bench ladder of Body A, frame by frame in memory: the camera whose truth is known.</summary>
/// <remarks>Any frame can be made at any time, alone or beside others: it depends only on the options and its index, never on the number of threads.</remarks>
public sealed class SyntheticBench
{
    private readonly SensorGeometry _geometry;

    /// <summary>Plans the ladder; nothing is rendered yet.</summary>
    /// <exception cref="ArgumentException">An option makes no sense; the message says which.</exception>
    public SyntheticBench(SampleOptions options)
    {
        Options = options;
        Frames = LadderPlan.Of(options);
        _geometry = SensorGeometry.Of(options.Width, options.Height, options.Mosaic);
    }

    /// <summary>What was asked for.</summary>
    public SampleOptions Options { get; }

    /// <summary>All frames in the order of exposure; caps at the end.</summary>
    public ImmutableArray<PlannedFrame> Frames { get; }

    /// <summary>What is true of each level, in the order of the options.</summary>
    public IEnumerable<LevelTruth> Levels => Frames.Select(f => f.Truth).Distinct();

    /// <summary>Exposes one frame.</summary>
    /// <param name="index">Index in <see cref="Frames"/>.</param>
    /// <param name="threads">Rows exposed at once; 0 means as many as there are cores.</param>
    /// <returns>The frame as a reader would give it; dispose it.</returns>
    public MosaicFrame Render(int index, int threads = 0) => RenderUntilStopped(index, threads, CancellationToken.None);

    /// <summary>Exposes one frame, and stops at the next row when it is asked to.</summary>
    internal MosaicFrame RenderUntilStopped(int index, int threads, CancellationToken cancellation)
    {
        var plan = Frames[index];
        var exposure = new FrameExposure(Options, plan, _geometry);
        int width = _geometry.RawWidth, height = _geometry.RawHeight;
        var owner = MemoryPool<ushort>.Shared.Rent(width * height);
        var samples = owner.Memory[..(width * height)];
        Parallel.For(
            0,
            height,
            new ParallelOptions { MaxDegreeOfParallelism = threads > 0 ? threads : Environment.ProcessorCount, CancellationToken = cancellation },
            () => new double[width],
            (y, _, analogue) =>
            {
                exposure.Expose(y, samples.Span.Slice(y * width, width), analogue);
                return analogue;
            },
            _ => { });
        int sites = Options.Mosaic.Letters.Length;
        return new MosaicFrame(owner)
        {
            Header = Header(plan),
            Samples = samples,
            Stride = width,
            Left = _geometry.Left,
            Top = _geometry.Top,
            MaskedAreas = [.. _geometry.MaskedAreas()],
            TagBlackDn = [.. Enumerable.Repeat(plan.Truth.BlackDn, sites)],
            LibraryBlackDn = [.. Enumerable.Repeat(Math.Floor(plan.Truth.BlackDn), sites)],
        };
    }

    private FrameHeader Header(PlannedFrame plan) => new()
    {
        File = plan.FileName,
        Make = BodyA.Make,
        Model = BodyA.Model,
        BodyFingerprint = BodyA.Serial,
        Iso = plan.Iso,
        ShutterSeconds = plan.ShutterMarkSeconds,
        FNumber = plan.FNumber,
        FocalMm = 50,
        TakenAt = plan.TakenAt,
        Width = Options.Width,
        Height = Options.Height,
        Mosaic = Options.Mosaic,
        WhiteTagDn = BodyA.WhiteTagDn,
        Decoder = "synthetic",
    };
}
