using Leafstop.Core.Quantities;

namespace Leafstop.Core.Viewing;

/// <summary>What moves a limit.</summary>
public enum LimitShiftKind
{
    /// <summary>Another print size or viewing distance.</summary>
    Print,

    /// <summary>Part of the frame cut away.</summary>
    Crop,

    /// <summary>Shadows opened at home.</summary>
    Lift,

    /// <summary>Smooth against textured tones.</summary>
    Tone,

    /// <summary>Another sensor format.</summary>
    Format,

    /// <summary>Several frames averaged.</summary>
    Averaging,
}

/// <summary>A step by which a limit moves from one use to another.</summary>
/// <param name="What">What moves it.</param>
/// <param name="Stops">By how much; positive = the limit rises, more noise is allowed.</param>
/// <param name="Reason">One line that says why.</param>
/// <param name="How">How the step is known.</param>
public sealed record LimitShift(LimitShiftKind What, Stops Stops, string Reason, HowKnown How);
