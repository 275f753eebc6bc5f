using Leafstop.Core.Exposure;
using Leafstop.Core.Quantities;

namespace Leafstop.Core.Planning;

/// <summary>What can be given up, in the fixed order of the table: by what is lost.</summary>
public enum GiveUpKind
{
    /// <summary>Wait for a lull and use the longer shutter that it allows.</summary>
    WaitForLull,

    /// <summary>Take the polariser off.</summary>
    Polariser,

    /// <summary>Take a neutral or other filter off.</summary>
    OtherFilter,

    /// <summary>Open the aperture, lose depth.</summary>
    Aperture,

    /// <summary>Double the shutter, double the streak.</summary>
    Shutter,

    /// <summary>Print smaller.</summary>
    SmallerPrint,

    /// <summary>Average some frames.</summary>
    Average,

    /// <summary>One frame for the water, one for the leaves.</summary>
    TwoFrames,

    /// <summary>Open the aperture and step the focus.</summary>
    FocusSteps,

    /// <summary>Come back, or wait, until there is more light.</summary>
    Later,

    /// <summary>Do not crop.</summary>
    KeepFrame,

    /// <summary>Lift the shadows less.</summary>
    LiftLess,
}

/// <summary>One row of the give-up table.</summary>
public sealed record GiveUpRow
{
    /// <summary>What is given up.</summary>
    public required GiveUpKind What { get; init; }

    /// <summary>The same in a few words, "f/8 instead of f/11".</summary>
    public required string Words { get; init; }

    /// <summary>Stops gained, from the row's own inputs; above zero, or zero for two frames when the asked shutter is the water's.</summary>
    public required Stops Gained { get; init; }

    /// <summary>What it costs, in a sentence.</summary>
    public required string Cost { get; init; }

    /// <summary>How the gain is known.</summary>
    public required HowKnown How { get; init; }

    /// <summary>The scene with the row applied: planning it again gives the numbers of <see cref="Answer"/>.</summary>
    public required Scene After { get; init; }

    /// <summary>The numbers with the row applied.</summary>
    public required GapAnswer Answer { get; init; }

    /// <summary>Clean or stretch when the row alone brings the picture there and it was not there before; else null.</summary>
    public PlanVerdict? Reaches { get; init; }

    /// <summary>The ISO with the row applied, as dialled.</summary>
    public DialledIso Iso => DialledIso.Of(Answer.Iso);
}
