using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Storage.Cameras;
using Leafstop.Testing;

namespace Leafstop.Storage.Tests.Cameras;

/// <summary>Bench answers in the invented Body A of the job, with the numbers of its table.</summary>
internal static class Measurements
{
    public static readonly DateTimeOffset Morning = new(2026, 3, 1, 6, 50, 12, TimeSpan.Zero);

    public static BenchAnswer Answer(string model = "Body A", string? fingerprint = "3f2a") => new()
    {
        Camera = new CameraIdentity { Make = "Invented", Model = model, BodyFingerprint = fingerprint, Width = 8256, Height = 5504, Mosaic = "2x2", Bits = 14 },
        Ladder = LadderKind.Metered,
        Levels =
        [
            BodyALevels.Level(100, 3.052, 3.6, 50000),
            BodyALevels.Level(500, 0.605, 1.6, 9921),
            BodyALevels.Level(6400, 0.0477, 1.25, 781) with
            {
                Usable = false,
                Flags = [LevelFlag.Smoothed, LevelFlag.HotPixels],
                Reason = "Noise was smoothed in the camera.",
            },
            new Level { Iso = Iso.FromSpeed(102400), Ladder = LadderKind.None, Frames = [], Usable = false, Flags = [LevelFlag.NotFitted], Reason = "One frame, fully clipped." },
        ],
        GainSteps = [new GainStep(Iso.FromSpeed(400), Iso.FromSpeed(500), 1.94, 512)],
        Findings = [],
    };

    public static KeptMeasurement At(DateTimeOffset time, string model = "Body A", string? fingerprint = "3f2a") =>
        KeptMeasurement.Of(Answer(model, fingerprint), time);
}
