using System.Collections.Immutable;
using Leafstop.Core.Exposure;
using Leafstop.Core.Quantities;

namespace Leafstop.Core.Planning;

/// <summary>One frame of a recipe.</summary>
/// <param name="For">What it is for, "water", "leaves in a lull".</param>
/// <param name="Aperture">Aperture.</param>
/// <param name="Shutter">Shutter.</param>
/// <param name="Answer">Its numbers.</param>
public sealed record RecipeFrame(string For, FNumber Aperture, ShutterTime Shutter, GapAnswer Answer)
{
    /// <summary>The ISO as dialled.</summary>
    public DialledIso Iso => DialledIso.Of(Answer.Iso);

    /// <summary>"1/4 s f/11 ISO 500".</summary>
    public string ToDisplay() => $"{Shutter.ToDisplay()} {Aperture.ToDisplay()} ISO {Iso.Dial.ToDisplay()}";
}

/// <summary>Two frames to be blended, one for the water and one for the leaves: same aperture, focus, white balance and polariser; only shutter and ISO move.</summary>
/// <remarks>Worked out from the two shutters. From three stops apart on no single frame does both in wind (common practice, no source).</remarks>
public sealed record TwoFrameRecipe
{
    /// <summary>Shutters this far apart need two frames, stops: common practice, no source.</summary>
    public static readonly Stops TwoFramesFrom = Stops.Of(3);

    /// <summary>The water's frame.</summary>
    public required RecipeFrame Water { get; init; }

    /// <summary>The leaves' frame.</summary>
    public required RecipeFrame Leaves { get; init; }

    /// <summary>Stops between the two shutters.</summary>
    public required Stops Apart { get; init; }

    /// <summary>True when both frames stay within stretch, false when one does not, null when the limits cannot tell.</summary>
    public required bool? IsFeasible { get; init; }

    /// <summary>What to do instead when it is not feasible: a longer leaves frame in a lull, both frames wider open, a land frame at base in dead calm.</summary>
    public required ImmutableArray<RecipeFrame> Instead { get; init; }

    /// <summary>True when the shutters lie three stops or more apart.</summary>
    public bool NeedsTwo => Apart.Value >= TwoFramesFrom.Value - Stops.Hair;

    /// <summary>True when a lull holds the leaves at the water's own shutter, so that one frame does both.</summary>
    public required bool IsOneInLull { get; init; }

    /// <summary>Stops of light that the leaves' frame has less, which is what the noise jumps by across the mask.</summary>
    public Stops NoiseMismatch => Leaves.Answer.Effective.Above(Water.Answer.Effective);

    /// <summary>Works out the recipe.</summary>
    /// <param name="scene">The scene; its aperture serves both frames.</param>
    /// <param name="water">Shutter for the water.</param>
    /// <param name="leaves">Shutter that holds the leaves.</param>
    public static TwoFrameRecipe Of(Scene scene, ShutterTime water, ShutterTime leaves)
    {
        RecipeFrame first = Frame("water", scene, scene.Aperture, water), second = Frame("leaves", scene, scene.Aperture, leaves);
        return new TwoFrameRecipe
        {
            Water = first,
            Leaves = second,
            Apart = Stops.FromRatio(water.Seconds / leaves.Seconds),
            IsOneInLull = scene is { Leaves: { } wish, PrintAsked: { } print } && (wish.HoldingInLull(print, scene.WidthKept).Exact is not { } lull || lull.Seconds >= water.Seconds * (1 - Stops.Hair)),
            IsFeasible = Feasible(first, second),
            Instead = Feasible(first, second) == true ? [] : Others(scene, first, second),
        };
    }

    private static bool? Feasible(RecipeFrame water, RecipeFrame leaves) => (water.Answer.Verdict, leaves.Answer.Verdict) switch
    {
        (PlanVerdict.Beyond, _) or (_, PlanVerdict.Beyond) => false,
        (PlanVerdict.Unknown, _) or (_, PlanVerdict.Unknown) => null,
        _ => true,
    };

    private static ImmutableArray<RecipeFrame> Others(Scene scene, RecipeFrame water, RecipeFrame leaves)
    {
        ImmutableArray<RecipeFrame>.Builder others = ImmutableArray.CreateBuilder<RecipeFrame>();
        FNumber wider = FNumber.FromRatio(scene.Aperture.Ratio / Math.Sqrt(2));
        if (Lull(scene, scene.Aperture, water, leaves) is { } lull)
            others.Add(lull);
        if (wider.Ratio >= 1 && Lull(scene, wider, water, leaves) is { } opened)
            others.Add(opened with { For = "leaves in a lull, both frames opened one stop" });
        // At base ISO the land has the least noise there is; it asks for calm as long as that.
        if (water.Answer.Gap.Value > Stops.Hair)
        {
            var calm = ShutterTime.FromSeconds(water.Shutter.Seconds * water.Answer.Gap.Ratio);
            others.Add(Frame("land in dead calm, at base ISO", scene, scene.Aperture, calm));
        }
        return others.ToImmutable();
    }

    /// <summary>The shortest mark at which the leaves' frame stays within stretch, when that lies between the two shutters.</summary>
    private static RecipeFrame? Lull(Scene scene, FNumber aperture, RecipeFrame water, RecipeFrame leaves)
    {
        RecipeFrame asked = Frame("leaves in a lull", scene, aperture, leaves.Shutter);
        if (asked.Answer.SpareToStretch is not { } spare)
            return null;
        // With room to spare at the leaves' own shutter nothing need be longer.
        var exact = ShutterTime.FromSeconds(leaves.Shutter.Seconds * Math.Max(1, (-spare).Ratio));
        foreach (Mark mark in Marks.Shutters(DialStep.Thirds).All)
        {
            if (mark.Exact >= exact.Seconds * (1 - Stops.Hair))
                return mark.Exact < water.Shutter.Seconds ? Frame(asked.For, scene, aperture, ShutterTime.FromSeconds(mark.Exact)) : null;
        }
        return null;
    }

    private static RecipeFrame Frame(string purpose, Scene scene, FNumber aperture, ShutterTime shutter) =>
        new(purpose, aperture, shutter, GapAnswer.Of(scene with { Aperture = aperture, Shutter = shutter }));
}
