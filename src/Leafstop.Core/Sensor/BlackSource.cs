namespace Leafstop.Core.Sensor;

/// <summary>Where a black level comes from, best first.</summary>
public enum BlackSource
{
    /// <summary>The mean of the ladder's own cap frames at the same ISO.</summary>
    CapFrames,

    /// <summary>The mean of the masked border of the frame itself.</summary>
    MaskedPixels,

    /// <summary>The tag of the file, fractions kept.</summary>
    ExactTag,

    /// <summary>The raw library's whole number, which may be truncated by up to 1 DN.</summary>
    LibraryInteger,
}
