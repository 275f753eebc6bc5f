using Leafstop.Core.Sensor;

namespace Leafstop.Core.Tests.Sensor;

/// <summary>Surveys of invented Body A without any scatter: bins lie exactly on the line, so that an answer can be checked to the digit.</summary>
internal sealed class ExactBench
{
    public const double BlackDn = 1022.4;
    public const int ClipDn = 16383;
    public const double SaturationAtBase = 50000;
    private const int Columns = 48, Rows = 32, Block = 25;

    /// <summary>ISO and read noise (e⁻) of Body A.</summary>
    public static readonly (double Iso, double ReadNoise)[] BodyA =
    [
        (100, 3.6), (200, 3.3), (400, 3.1), (500, 1.6), (640, 1.55), (800, 1.5), (1600, 1.4), (3200, 1.3), (6400, 1.25), (12800, 1.25), (25600, 1.25),
    ];

    public List<FrameSurvey> Frames { get; private set; } = [];

    public List<PairSurvey> Pairs { get; private set; } = [];

    public static double ReadNoise(double iso) => BodyA.First(b => b.Iso == iso).ReadNoise;

    public static double Saturation(double iso) => SaturationAtBase * 100 / iso;

    public static double Gain(double iso) => Saturation(iso) / (ClipDn - BlackDn);

    public static NoiseModel Model(double iso) => new(Gain(iso), ReadNoise(iso), Saturation(iso));

    /// <summary>Each ISO with a time that halves with it: 8 s at ISO 100, f/8, times as a camera writes them.</summary>
    public static ExactBench Metered(params double[] isos)
    {
        var bench = new ExactBench();
        foreach (double iso in isos) bench.Add(iso, Mark(800 / iso), 8, 0);
        return bench;
    }

    /// <summary>f/8, 1/30 s at every ISO, metered for one of them.</summary>
    public static ExactBench SameLight(double meteredFor, params double[] isos)
    {
        var bench = new ExactBench();
        foreach (double iso in isos) bench.Add(iso, 1 / 30.0, 8, Math.Log2(iso / meteredFor));
        return bench;
    }

    /// <summary>Adds a pair.</summary>
    /// <param name="iso">ISO.</param>
    /// <param name="shutter">Time as the file states it; null for none.</param>
    /// <param name="fNumber">f-number; null for a lens without contacts.</param>
    /// <param name="stops">Stops of raw signal over the metered one.</param>
    /// <param name="minutes">Minutes after noon; null continues one minute after the last.</param>
    public ExactBench Add(double iso, double? shutter, double? fNumber, double stops, double? minutes = null)
    {
        string[] files = [$"/bench/{Frames.Count + 1:000}.dng", $"/bench/{Frames.Count + 2:000}.dng"];
        foreach (string file in files)
        {
            var at = new DateTime(2026, 10, 3, 12, 0, 0, DateTimeKind.Unspecified).AddMinutes(minutes ?? Frames.Count);
            Frames.Add(Frame(file, iso, shutter, fNumber, stops, at));
        }

        Pairs.Add(Pair(files[0], files[1], iso, false));
        return this;
    }

    /// <summary>Adds a pair of cap frames.</summary>
    public ExactBench AddCaps(double iso)
    {
        string[] files = [$"/bench/cap{Frames.Count + 1:000}.dng", $"/bench/cap{Frames.Count + 2:000}.dng"];
        foreach (string file in files)
            Frames.Add(Frame(file, iso, 1 / 30.0, 8, double.NegativeInfinity, new DateTime(2026, 10, 3, 15, 0, 0, DateTimeKind.Unspecified)) with { IsCap = true });
        Pairs.Add(Pair(files[0], files[1], iso, true));
        return this;
    }

    public ExactBench ChangeFrames(double iso, Func<FrameSurvey, FrameSurvey> change)
    {
        Frames = [.. Frames.Select(f => f.Header.Iso == iso ? change(f) : f)];
        return this;
    }

    public ExactBench ChangePlanes(double iso, Func<PlaneSurvey, PlaneSurvey> change) =>
        ChangeFrames(iso, f => f with { Planes = [.. f.Planes.Select(change)] });

    public ExactBench ChangePairs(double iso, Func<PairSurvey, PairSurvey> change)
    {
        HashSet<string> files = [.. Frames.Where(f => f.Header.Iso == iso).Select(f => f.Header.File)];
        Pairs = [.. Pairs.Select(p => files.Contains(p.First) ? change(p) : p)];
        return this;
    }

    public ExactBench ChangePairPlanes(double iso, Func<PairPlane, PairPlane> change) =>
        ChangePairs(iso, p => p with { Planes = [.. p.Planes.Select(change)] });

    public BenchAnswer Answer() => BenchAnalysis.Of(Frames, Pairs, [], new PrintCondition(600, 600));

    /// <summary>The time as a camera shows and writes it.</summary>
    public static double Mark(double exact)
    {
        double[] marks = [30, 15, 8, 4, 2, 1.6, 1.3, 1, 0.5, 1 / 4.0, 1 / 8.0, 1 / 15.0, 1 / 30.0, 1 / 60.0];
        return marks.MinBy(m => Math.Abs(Math.Log2(m / exact)));
    }

    private static FrameSurvey Frame(string file, double iso, double? shutter, double? fNumber, double stops, DateTime at)
    {
        float[] map = [.. Scene(0).Select(light => Raw(light * Math.Pow(2, stops)))];
        long clipped = map.Count(v => v < 0) * 100;
        return new FrameSurvey
        {
            Header = new FrameHeader
            {
                File = file,
                Make = "Invented",
                Model = "Body A",
                Iso = iso,
                ShutterSeconds = shutter,
                FNumber = fNumber,
                TakenAt = at,
                Width = Columns * Block,
                Height = Rows * Block,
                Mosaic = new MosaicPattern { Rows = 2, Columns = 2, Letters = "RGGB" },
                WhiteTagDn = ClipDn,
            },
            Planes = [.. new[] { "R", "G1", "G2", "B" }.Select(name => new PlaneSurvey
            {
                Plane = name,
                Samples = 240000,
                MeanRawDn = map.Average(v => v < 0 ? ClipDn : v),
                BlackDn = BlackDn,
                BlackSource = BlackSource.MaskedPixels,
                MinDn = 1000,
                MaxDn = ClipDn,
                ClipDn = stops < -20 ? null : ClipDn,
                ClippedSamples = clipped,
                GapCandidates = 3000,
            })],
            Map = new LevelMap { Columns = Columns, Rows = Rows, BlockWidth = Block, BlockHeight = Block, MeanRawDn = map },
            IsCap = false,
            HotPixelsSearched = 500000,
            SampleDigest = (ulong)file.GetHashCode(StringComparison.Ordinal),
        };
    }

    /// <summary>The scene as shares of saturation, shifted to the right by some pixels.</summary>
    public static IEnumerable<double> Scene(double shiftPx)
    {
        for (int y = 0; y < Rows; y++)
        {
            for (int x = 0; x < Columns; x++)
            {
                double u = x - shiftPx / Block;
                double stops = -4 + 2 * Math.Sin(u * 0.9) * Math.Cos(y * 0.7) + 1.3 * Math.Sin(u * 0.35 + y * 0.45);
                yield return Math.Pow(2, stops);
            }
        }
    }

    public static float Raw(double share) => share >= 1 ? -1 : (float)(BlackDn + share * (ClipDn - BlackDn));

    private static PairSurvey Pair(string first, string second, double iso, bool isCap)
    {
        double gain = Gain(iso), noise = ReadNoise(iso) / gain;
        SignalBin Bin(double signal, long freedom) => new()
        {
            Samples = freedom + 100,
            DegreesOfFreedom = freedom,
            MeanRawDn = BlackDn + signal,
            VarianceDn2 = noise * noise + signal / gain,
        };
        SignalBin[] bins = isCap
            ? [Bin(0, 230000)]
            : [.. Enumerable.Range(0, 40).Select(i => Bin((ClipDn - BlackDn) * 0.9 * Math.Pow(2, -i / 3.0), 6000))];
        return new PairSurvey
        {
            First = first,
            Second = second,
            IsCap = isCap,
            ShiftXPx = isCap ? null : 0.01,
            ShiftYPx = isCap ? null : 0,
            ShiftErrorPx = isCap ? null : 0.02,
            Detail = isCap ? null : 0.04,
            Planes = [.. new[] { "R", "G1", "G2", "B" }.Select(name => new PairPlane
            {
                Plane = name,
                Bins = [.. bins],
                Tiles = 10000,
                RowNoiseErrorDn2 = 1e-4 * noise * noise,
                CorrelationX = 0.001,
                CorrelationY = -0.001,
                CorrelationSamples = 200000,
            })],
        };
    }
}
