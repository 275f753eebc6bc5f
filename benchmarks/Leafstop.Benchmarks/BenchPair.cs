using Leafstop.Core.Sensor;
using Leafstop.Raw.Frames;
using Leafstop.Raw.Measurement;
using Leafstop.Raw.Synthetic;

namespace Leafstop.Benchmarks;

/// <summary>Two frames of Body A at one ISO, in memory, with what is known of each alone.</summary>
internal sealed class BenchPair : IDisposable
{
    private BenchPair(MosaicFrame first, MosaicFrame second)
    {
        First = first;
        Second = second;
        FirstInHand = new FrameInHand(first);
        SecondInHand = new FrameInHand(second);
    }

    public MosaicFrame First { get; }

    public MosaicFrame Second { get; }

    public FrameInHand FirstInHand { get; }

    public FrameInHand SecondInHand { get; }

    /// <summary>Black level of the pair by plane, DN.</summary>
    public double[] BlackDn => [.. FirstInHand.BlackDn.Zip(SecondInHand.BlackDn, (x, y) => (x + y) / 2)];

    /// <summary>Clip level of the pair by plane, DN.</summary>
    public int[] ClipDn => [.. FirstInHand.ClipDn.Zip(SecondInHand.ClipDn, Math.Min)];

    /// <summary>Floor of the pair by plane, DN; −1 where nothing is cut off.</summary>
    public int[] FloorDn => [.. FirstInHand.FloorDn.Zip(SecondInHand.FloorDn, Math.Max)];

    public int Largest => Math.Max(FirstInHand.Largest, SecondInHand.Largest);

    public static BenchPair Render(MosaicPattern mosaic, int width, int height, double iso = 400)
    {
        var bench = new SyntheticBench(new SampleOptions
        {
            Mosaic = mosaic,
            Width = width,
            Height = height,
            Seed = 71,
            Isos = [iso],
            CapFramesPerLevel = 0,
            Faults = new SampleFaults { HotPixelShare = 0.0002 },
        });
        return new BenchPair(bench.Render(0), bench.Render(1));
    }

    public void Dispose()
    {
        First.Dispose();
        Second.Dispose();
    }
}
