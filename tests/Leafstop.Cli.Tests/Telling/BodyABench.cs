using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;

namespace Leafstop.Cli.Tests.Telling;

/// <summary>Answers of bench tests of Body A, the invented camera: base 100 clips at 50 000 e⁻, 14 bit, a step between ISO 400 and 500.</summary>
internal static class BodyABench
{
    public static readonly (double Iso, double ReadNoise)[] Table =
        [(100, 3.6), (200, 3.3), (400, 3.1), (500, 1.6), (640, 1.55), (800, 1.5), (1600, 1.4), (3200, 1.3), (6400, 1.25)];

    private const double BlackDn = 1024.35;
    private const double ClipDn = 16383;
    private static readonly CameraIdentity BodyA = new() { Make = "Leafstop", Model = "Body A", BodyFingerprint = "5c1e", Width = 8256, Height = 5504, Mosaic = "2x2", Bits = 14 };

    public static Iso Speed(double iso) => Iso.FromSpeed(iso);

    public static string[] Files(double iso) => [$"/bench/kitchen/BENCH_{iso:0}_1.dng", $"/bench/kitchen/BENCH_{iso:0}_2.dng"];

    public static Level Level(double iso, LadderKind ladder = LadderKind.Metered)
    {
        double readNoise = Table.First(t => t.Iso == iso).ReadNoise;
        double stops = Math.Round(3 * Math.Log2(iso / 100)) / 3;
        double saturation = 50_000 / Math.Pow(2, stops);
        double gain = saturation / (ClipDn - BlackDn);
        Estimate Around(double value, double share) => new(value, value * (1 - share), value * (1 + share));
        return new Level
        {
            Iso = Speed(iso),
            Ladder = ladder,
            Frames = [.. Files(iso)],
            CapFrames = [$"/bench/kitchen/CAP_{iso:0}_1.dng", $"/bench/kitchen/CAP_{iso:0}_2.dng"],
            ShutterSeconds = ladder == LadderKind.SameLight ? 1 / 32.0 : 8 / Math.Pow(2, stops),
            FNumber = 8,
            GainElectronsPerDn = Around(gain, 0.004),
            ReadNoiseElectrons = Around(readNoise, 0.039),
            ReadNoiseDn = readNoise / gain,
            ReadNoiseSource = ReadNoiseSource.CapFrames,
            SaturationElectrons = saturation,
            ClipSeen = true,
            LightErrorStops = 0.02 * Math.Sin(iso),
            NeighbourCorrelation = 0.002 + (0.003 * Math.Sin(iso)),
            RowNoiseElectrons = 0.1,
            ColumnNoiseElectrons = 0.1,
            HotPixelsSearched = 1_000_000,
            MeanSignalElectrons = saturation * 0.128,
            Planes = [.. new[] { "R", "G1", "G2", "B" }.Select(p => new PlaneModel
            {
                Plane = p,
                GainElectronsPerDn = Around(gain, 0.01),
                ReadNoiseElectrons = Around(readNoise, 0.08),
                BlackDn = BlackDn,
                BlackSource = BlackSource.CapFrames,
                ClipDn = ClipDn,
                ClipSeen = true,
            })],
            Curve = [.. Curve(gain, readNoise)],
            Usable = true,
        };
    }

    public static BenchAnswer Metered() => new()
    {
        Camera = BodyA,
        Ladder = LadderKind.Metered,
        Levels = [.. Table.Select(t => Level(t.Iso))],
        GainSteps = [new GainStep(Speed(400), Speed(500), 1.94, 912)],
        StopAt = Speed(500),
        LiftOrDial = [Lift(100, 800), Lift(400, 500), Lift(500, 800)],
        PredictedLimits = [Limit(LimitTone.MidGrey, 2150, 8400, null), Limit(LimitTone.Minus3Ev, 260, 1010, 3905)],
        Findings = [],
    };

    /// <summary>ISO 1600 got 0.4 stop more light than the rest, ISO 6400 was smoothed in the camera.</summary>
    public static BenchAnswer DriftingLampAndHelpfulCamera()
    {
        BenchAnswer sound = Metered();
        return sound with
        {
            Levels = [.. sound.Levels.Select(l => l.Iso.Speed switch
            {
                1600 => l with { LightErrorStops = 0.4, Flags = [LevelFlag.LightDrift] },
                6400 => l with
                {
                    NeighbourCorrelation = 0.24,
                    Usable = false,
                    Flags = [LevelFlag.Smoothed],
                    ReadNoiseElectrons = new Estimate(1.01, 0.97, 1.05),
                    ReadNoiseDn = 1.01 / l.GainElectronsPerDn!.Value.Value,
                    Planes = [.. l.Planes.Select(p => p with { ReadNoiseElectrons = new Estimate(1.01, 0.93, 1.09) })],
                    Reason = "Neighbouring pixels agree by 0.24: it was smoothed in the camera, and its gain and read noise cannot be trusted.",
                },
                _ => l,
            })],
            Findings =
            [
                new Finding(FindingCode.LightDrift, [.. Files(1600)], "The frames at ISO 1600 had 0.4 stop more light than the rest. Give the lamp 15 minutes, then shoot them again at 1/2 s.", Reshoot: true),
                new Finding(FindingCode.Smoothed, [.. Files(6400)], "ISO 6400 is smoothed in the camera. It stays off the curve; there is nothing to reshoot."),
            ],
        };
    }

    /// <summary>Aperture and shutter fixed: only dial or lift can be answered.</summary>
    public static BenchAnswer SameLight() => Metered() with
    {
        Ladder = LadderKind.SameLight,
        Levels = [.. new double[] { 100, 400, 500, 800 }.Select(i => Level(i, LadderKind.SameLight))],
        PredictedLimits = [],
        Findings = [new Finding(FindingCode.SameLightOnly, [], "All frames had the same light. For how high you can go, shoot the metered ladder: 8 s at ISO 100, half the time at each stop.")],
    };

    /// <summary>Every level fails.</summary>
    public static BenchAnswer NothingUsable() => new()
    {
        Camera = BodyA,
        Ladder = LadderKind.Metered,
        Levels = [.. new double[] { 100, 200 }.Select(i => Level(i) with
        {
            Usable = false,
            GainElectronsPerDn = null,
            ReadNoiseElectrons = null,
            ReadNoiseDn = null,
            ReadNoiseSource = null,
            SaturationElectrons = null,
            NeighbourCorrelation = null,
            Planes = [],
            Curve = [],
            Flags = [LevelFlag.Moved],
            Reason = "The tripod moved between the two frames by 1.2 px.",
        })],
        Findings = [new Finding(FindingCode.Moved, [.. Files(100), .. Files(200)], "The tripod moved between the frames of each pair. Weight it and shoot them again.", Reshoot: true)],
    };

    /// <summary>Only JPEGs.</summary>
    public static BenchAnswer JpegOnly() => new()
    {
        Ladder = LadderKind.None,
        Levels = [],
        Findings = [new Finding(FindingCode.JpegOnly, ["/bench/kitchen/a.jpg"], "There are only JPEGs here. Copy the raw files too.")],
    };

    /// <summary>Two levels that follow no rule.</summary>
    public static BenchAnswer NoLadder() => Metered() with
    {
        Ladder = LadderKind.None,
        Levels = [Level(100, LadderKind.None), Level(800, LadderKind.None)],
        GainSteps = [],
        StopAt = null,
        LiftOrDial = [],
        PredictedLimits = [],
    };

    /// <summary>Both ladders in one folder.</summary>
    public static BenchAnswer Mixed() => Metered() with { Ladder = LadderKind.Mixed, Levels = [.. Metered().Levels, .. SameLight().Levels] };

    /// <summary>A ladder in thirds up to ISO 102 400, every flag somewhere, neighbours left off, no cap frames and no clip seen.</summary>
    public static BenchAnswer Crowded()
    {
        BenchAnswer sound = Metered();
        double[] isos = [100, 125, 160, 200, 250, 320, 400, 500, 640, 800, 1600, 3200, 6400, 12_800, 25_600, 51_200, 102_400];
        Level Of(double iso, int at)
        {
            Level like = Level(Table.MinBy(t => Math.Abs(Math.Log2(t.Iso / iso))).Iso);
            LevelFlag flag = Enum.GetValues<LevelFlag>()[at % Enum.GetValues<LevelFlag>().Length];
            bool off = iso >= 25_600 || at is 1 or 2;
            return like with
            {
                Iso = Speed(iso),
                Frames = [.. Files(iso)],
                CapFrames = [],
                Flags = [flag],
                Usable = !off,
                Reason = off ? "It fails a test." : null,
                ReadNoiseSource = ReadNoiseSource.Fit,
                ClipSeen = at % 2 == 0,
                HotPixels = 412,
                LightErrorStops = -0.2,
                Planes = [.. like.Planes.Select((p, i) => p with { BlackSource = (BlackSource)((at + i) % 4) })],
            };
        }

        return sound with { Levels = [.. isos.Select(Of)], Findings = [new Finding(FindingCode.Flicker, [.. Files(3200), .. Files(200)], "The lamp flickers.", true)] };
    }

    private static LiftOrDial Lift(double shot, double to)
    {
        (Level a, Level b) = (Level(shot), Level(to));
        double light = 0.128 * b.SaturationElectrons!.Value;
        LiftLoss Loss(double ev)
        {
            double s = light * Math.Pow(2, ev);
            double want = b.Model!.SignalToNoise(s);
            double r2 = Math.Pow(a.Model!.ReadNoiseElectrons, 2);
            // S/√(S + r²) = want, solved for S.
            double needed = ((want * want) + Math.Sqrt(Math.Pow(want, 4) + (4 * want * want * r2))) / 2;
            return new LiftLoss(ev, 1 - (a.Model.SignalToNoise(s) / want), Math.Log2(needed / s));
        }

        return new LiftOrDial(Speed(shot), Speed(to), Math.Log2(a.SaturationElectrons!.Value / b.SaturationElectrons.Value), [Loss(0), Loss(-3), Loss(-5), Loss(-6)]);
    }

    private static PredictedLimit Limit(LimitTone tone, double clean, double? stretch, double? acceptable) => new()
    {
        Tone = tone,
        CleanExact = Speed(clean),
        StretchExact = stretch is { } s ? Speed(s) : null,
        AcceptableExact = acceptable is { } a ? Speed(a) : null,
        Body = "Body A, 14-bit raw",
        Print = new PrintCondition(600, 600),
        Treatment = "none",
    };

    private static IEnumerable<TransferPoint> Curve(double gain, double readNoise)
    {
        // A small seeded wobble; Lehmer's generator, so that every machine draws the same points.
        ulong seed = 20_261_003;
        foreach (string plane in new[] { "R", "G1", "G2", "B" })
        {
            for (double signal = 6; signal < 11_000; signal *= 1.55)
            {
                seed = seed * 48_271 % 2_147_483_647;
                double error = 0.012 * (1 + (8 / signal));
                double noise = Math.Sqrt((readNoise * readNoise / (gain * gain)) + (signal / gain)) * (1 + (error * ((seed / 2_147_483_647.0) - 0.5)));
                yield return new TransferPoint(plane, signal, new Estimate(noise, noise * (1 - error), noise * (1 + error)), (long)(2_000_000 / signal));
            }
        }
    }
}
