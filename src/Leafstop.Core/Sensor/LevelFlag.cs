namespace Leafstop.Core.Sensor;

/// <summary>What is wrong with, or worth knowing of, one level. Printed in camelCase.</summary>
public enum LevelFlag
{
    /// <summary>Neighbouring pixels agree: noise was smoothed in the camera. Not usable.</summary>
    Smoothed,

    /// <summary>Raw codes are missing in a comb: this ISO is arithmetic on another. Not usable as a sensor level of its own.</summary>
    Arithmetic,

    /// <summary>The clip point lies lower than at the other levels: a pulled ISO.</summary>
    Pulled,

    /// <summary>More than a hundredth of the frame is clipped.</summary>
    Clipped,

    /// <summary>Samples pile up at the bottom: the dark half of the noise is cut off. Not usable.</summary>
    BlackClipped,

    /// <summary>The two frames of the pair are shifted against each other by more than 0.3 px. Not usable.</summary>
    Moved,

    /// <summary>Light differs from the other levels by more than 0.1 stop.</summary>
    LightDrift,

    /// <summary>Row or column offsets stand out of the grain.</summary>
    Banded,

    /// <summary>More hot pixels than a healthy sensor shows; they are counted, not averaged in.</summary>
    HotPixels,

    /// <summary>The raw compression loses information. Not usable.</summary>
    Lossy,

    /// <summary>Measured from single frames: wider interval.</summary>
    SingleFrame,

    /// <summary>Fewer bits than the other levels.</summary>
    BitDepth,

    /// <summary>Noise against signal is not a straight line within its errors; the intervals were widened.</summary>
    NotLinear,

    /// <summary>A file of this level is damaged or disagrees with its twin.</summary>
    Damaged,

    /// <summary>Too little to fit a noise curve. Not usable.</summary>
    NotFitted,
}
