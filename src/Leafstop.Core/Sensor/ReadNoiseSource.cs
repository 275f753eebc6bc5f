namespace Leafstop.Core.Sensor;

/// <summary>What the read noise of a level was taken from.</summary>
public enum ReadNoiseSource
{
    /// <summary>A pair of cap frames at this ISO.</summary>
    CapFrames,

    /// <summary>The noise curve of the scene, extended to no light.</summary>
    Fit,
}
