namespace Leafstop.Core.Sensor;

/// <summary>What a finding is about. Printed in camelCase; part of the JSON contract.</summary>
public enum FindingCode
{
    /// <summary>The frames of a level had more or less light than their settings promise.</summary>
    LightDrift,

    /// <summary>The two frames of a pair had different light.</summary>
    Flicker,

    /// <summary>The tripod moved.</summary>
    Moved,

    /// <summary>Same settings, different picture: not a pair.</summary>
    FalsePair,

    /// <summary>The focus changed between levels.</summary>
    FocusChanged,

    /// <summary>Noise smoothed in the camera.</summary>
    Smoothed,

    /// <summary>A trace of neighbour correlation, below the limit for "smoothed".</summary>
    SlightlySmoothed,

    /// <summary>This ISO is arithmetic on another.</summary>
    Arithmetic,

    /// <summary>Every level has missing codes: a tone curve or a lower bit depth, at all ISOs.</summary>
    GapsThroughout,

    /// <summary>A pulled ISO.</summary>
    Pulled,

    /// <summary>Whites are clipped.</summary>
    Clipped,

    /// <summary>Blacks are cut off.</summary>
    BlackClipped,

    /// <summary>Row or column banding.</summary>
    Banded,

    /// <summary>Hot pixels.</summary>
    HotPixels,

    /// <summary>Lossy raw.</summary>
    Lossy,

    /// <summary>Fewer bits than the other levels.</summary>
    BitDepth,

    /// <summary>Noise against signal is not a straight line.</summary>
    NotLinear,

    /// <summary>The scene has no deep tone: read noise is uncertain.</summary>
    NoDeepTone,

    /// <summary>A part of the scene moved between the frames of a pair.</summary>
    SceneMoved,

    /// <summary>Only one frame at this level.</summary>
    SingleFrame,

    /// <summary>A level that the ladder lacks.</summary>
    MissingLevel,

    /// <summary>The camera clock jumps.</summary>
    Clock,

    /// <summary>Frames of more than one body.</summary>
    TwoBodies,

    /// <summary>Frames of more than one size or mosaic.</summary>
    TwoSizes,

    /// <summary>The same picture twice.</summary>
    Duplicate,

    /// <summary>A file that could not be read.</summary>
    Unreadable,

    /// <summary>The folder went away while it was read, and files with it.</summary>
    FolderGone,

    /// <summary>A file that was read, with damage.</summary>
    Damaged,

    /// <summary>Pictures that hold no raw samples (JPEG twins, sidecars, films): set aside.</summary>
    NotRaw,

    /// <summary>Only JPEGs: no limit can be set from them.</summary>
    JpegOnly,

    /// <summary>Both kinds of ladder in one folder.</summary>
    MixedLadders,

    /// <summary>The same light in all: this does not answer how high one can go.</summary>
    SameLightOnly,

    /// <summary>Settings that follow no rule.</summary>
    NoLadder,

    /// <summary>The clip level seen differs from the file's tag.</summary>
    ClipNotAtTag,

    /// <summary>No clip was seen, so saturation rests on the tag.</summary>
    ClipNotSeen,

    /// <summary>Black was taken from the raw library's whole number.</summary>
    BlackUncertain,
}
