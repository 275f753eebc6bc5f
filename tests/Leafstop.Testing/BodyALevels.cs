using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;

namespace Leafstop.Testing;

/// <summary>Levels of the invented Body A of the job, as a bench test would find them.</summary>
public static class BodyALevels
{
    /// <summary>A sound level of the metered ladder: gain to half a per cent, read noise from cap frames to three.</summary>
    public static Level Level(double iso, double gain, double noise, double saturation) => new()
    {
        Iso = Iso.FromSpeed(iso),
        Ladder = LadderKind.Metered,
        Frames = ["a.dng", "b.dng"],
        GainElectronsPerDn = new Estimate(gain, gain * 0.995, gain * 1.005),
        ReadNoiseElectrons = new Estimate(noise, noise * 0.97, noise * 1.03),
        ReadNoiseSource = ReadNoiseSource.CapFrames,
        SaturationElectrons = saturation,
        ClipSeen = true,
        Usable = true,
    };
}
