using Leafstop.Core.Quantities;

namespace Leafstop.Core.Planning;

/// <summary>What a caution is about.</summary>
public enum CautionCode
{
    /// <summary>There is light to spare: the ISO would lie below base.</summary>
    BelowBase,

    /// <summary>The ISO needed lies beyond the last mark of any dial.</summary>
    BeyondDial,

    /// <summary>Foam near or past the clip, or its place unknown.</summary>
    Foam,

    /// <summary>The limits were converted from another print, or hold for fine grain only.</summary>
    LimitsConverted,

    /// <summary>No limits are known.</summary>
    NoLimits,

    /// <summary>The aperture does not hold the depth that is asked.</summary>
    Depth,

    /// <summary>Diffraction is larger than the eye's finest detail.</summary>
    Diffraction,

    /// <summary>The shutter does not hold the leaves.</summary>
    LeavesMove,

    /// <summary>The water will not look as asked.</summary>
    WaterLook,

    /// <summary>Something was asked that lacks an input.</summary>
    MissingInput,

    /// <summary>Long exposure: dark signal, limits of its own.</summary>
    LongExposure,

    /// <summary>Focus steps and moving leaves.</summary>
    FocusStepsAndLeaves,

    /// <summary>One frame or two.</summary>
    OneFrameOrTwo,

    /// <summary>Averaging and moving water.</summary>
    Averaging,

    /// <summary>Shadows show noise first.</summary>
    Shadows,

    /// <summary>Wet rock and water.</summary>
    WaterSafety,

    /// <summary>Falling branches.</summary>
    WoodSafety,

    /// <summary>Sun through a lens.</summary>
    SunSafety,
}

/// <summary>Something to mind, in one or two sentences.</summary>
/// <param name="Code">What it is about.</param>
/// <param name="Text">The sentences.</param>
/// <param name="How">How its numbers are known; null when it holds none.</param>
public sealed record Caution(CautionCode Code, string Text, HowKnown? How = null);
