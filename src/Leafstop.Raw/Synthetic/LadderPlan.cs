using System.Collections.Immutable;
using System.Globalization;
using Leafstop.Core.Sensor;

namespace Leafstop.Raw.Synthetic;

/// <summary>Turns options into the list of frames, in the order of exposure: level by level, the caps at the end.</summary>
internal static class LadderPlan
{
    private const double MeteredIso100Seconds = 8;
    private const double SameLightSeconds = 1.0 / 32;
    private const double SameLightMeteredIso = 800;

    public static ImmutableArray<PlannedFrame> Of(SampleOptions options)
    {
        options.Validate();
        var frames = ImmutableArray.CreateBuilder<PlannedFrame>();
        var truths = options.Isos.Select((_, i) => Truth(options, i)).ToArray();
        DateTime clock = options.Start;
        double dx = 0, dy = 0;
        foreach (var role in new[] { FrameRole.Scene, FrameRole.Cap })
        {
            foreach (var truth in truths)
            {
                int count = role == FrameRole.Scene ? options.FramesPerLevel : options.CapFramesPerLevel;
                double seconds = options.Ladder == LadderKind.Metered ? MeteredIso100Seconds * 100 / truth.ExactIso : SameLightSeconds;
                for (int n = 0; n < count; n++)
                {
                    if (role == FrameRole.Scene && n == 1 && truth.Iso == options.Faults.MovedIso)
                        (dx, dy) = (options.Faults.MovedXPx, options.Faults.MovedYPx);
                    frames.Add(new()
                    {
                        Index = frames.Count,
                        FileName = string.Create(CultureInfo.InvariantCulture, $"LS_{frames.Count + 1:0000}.DNG"),
                        Role = role,
                        Iso = truth.Iso,
                        ShutterSeconds = seconds,
                        ShutterMarkSeconds = CameraMarks.Shutter(seconds),
                        TakenAt = clock,
                        LightScale = role == FrameRole.Cap ? 0 : Light(options, truth),
                        ShiftXPx = dx,
                        ShiftYPx = dy,
                        Truth = truth,
                    });
                    // Two seconds of delay, the exposure, two more to write; cameras keep whole seconds.
                    clock = clock.AddSeconds(Math.Ceiling(seconds) + 4);
                }
                clock = clock.AddSeconds(5);
            }
            clock = clock.AddSeconds(60);
        }
        return frames.ToImmutable();
    }

    private static double Light(SampleOptions options, LevelTruth truth) =>
        Math.Pow(2, truth.LampDriftStops) * 100 / (options.Ladder == LadderKind.Metered ? truth.ExactIso : SameLightMeteredIso);

    private static LevelTruth Truth(SampleOptions options, int index)
    {
        var faults = options.Faults;
        double iso = options.Isos[index];
        bool arithmetic = iso == faults.ArithmeticIso;
        double? source = arithmetic ? LowerNeighbour(options, iso) : null;
        bool smoothed = iso >= faults.SmoothingFromIso;
        bool cut = iso >= faults.ClippedBlackFromIso;
        double readNoise = BodyA.ReadNoiseElectrons(source ?? iso);
        double gain = BodyA.GainElectronsPerDn(iso);
        int blackTaken = cut ? (int)Math.Round(BodyA.BlackDn) : 0;
        return new()
        {
            Iso = iso,
            ExactIso = BodyA.ExactIso(iso),
            GainElectronsPerDn = gain,
            ReadNoiseElectrons = readNoise,
            SaturationElectrons = BodyA.SaturationElectrons(iso),
            BlackDn = cut ? 0 : BodyA.BlackDn,
            ClipDn = BodyA.ClipDn - blackTaken,
            LampDriftStops = iso == faults.LampDriftIso ? faults.LampDriftStops : 0,
            SmoothingCorrelation = smoothed ? faults.SmoothingCorrelation : 0,
            SmoothingSdRatio = smoothed ? Math.Sqrt(SmoothingKernel.ForCorrelation(faults.SmoothingCorrelation).VarianceRatio) : 1,
            ArithmeticFromIso = source,
            RowOffsetElectrons = faults.RowBanding * readNoise,
            BlackClipped = cut,
        };
    }

    /// <summary>The next lower level of the ladder; one stop lower when the ladder has none.</summary>
    private static double LowerNeighbour(SampleOptions options, double iso)
    {
        double lower = options.Isos.Where(i => i < iso).DefaultIfEmpty(iso / 2).Max();
        return lower;
    }
}
