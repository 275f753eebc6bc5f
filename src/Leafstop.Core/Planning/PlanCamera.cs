using System.Collections.Immutable;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;

namespace Leafstop.Core.Planning;

/// <summary>What a plan needs to know of a camera.</summary>
public sealed record PlanCamera
{
    /// <summary>As the person named it.</summary>
    public required string Name { get; init; }

    /// <summary>Body and raw setting as last measured, else as a card has them.</summary>
    public required CameraIdentity Body { get; init; }

    /// <summary>The lowest usable ISO that was measured; null when none was.</summary>
    public Iso? LowestMeasured { get; init; }

    /// <summary>The base ISO that a card carries; null without a card.</summary>
    public Iso? CardBase { get; init; }

    /// <summary>Its noise over ISO, from levels of a metered picture or from a card; null when there is none.</summary>
    public ModelCurve? Curve { get; init; }

    /// <summary>The limits that the person judged and that speak, newest first.</summary>
    public ImmutableArray<OwnPair> Judged { get; init; } = [];

    /// <summary>The limits that a card carried here; null when there are none.</summary>
    public OwnPair? Carried { get; init; }

    /// <summary>The limits that the person's own judging, else a card, has for a use, and the reason why others were refused. The criterion speaks where the person has not: another raw setting, a tone that no rule leads to.</summary>
    /// <param name="print">The print that is asked; null for that of the limits.</param>
    /// <param name="tone">The tone that is asked; null for that of the limits.</param>
    public (OwnPair? Own, string? Refusal) Own(PrintCondition? print, ToneKind? tone)
    {
        LimitUse use = new() { Body = Body.ToWords(), Print = print, Tone = tone };
        return LimitChoice.Own([LimitChoice.Nearest(Judged, p => p.Limits.Tags, p => p.Limits is { Clean: not null, Stretch: not null }, use), Carried], p => p.Limits, use);
    }

    /// <summary>The limits that the published criterion gives for a print; null when its levels cannot tell.</summary>
    /// <param name="print">The print that is asked.</param>
    /// <param name="tone">Mid-grey or three stops below.</param>
    public WorkedOutLimits? WorkedOut(PrintCondition print, LimitTone tone) => Curve is null ? null : WorkedOutLimits.Of(Name, Curve, Body, print, tone);

    /// <summary>Why <see cref="WorkedOut"/> gives none, a sentence for the person.</summary>
    public string WhyNoneWorkedOut => Curve is { Isos: [double lowest, _, ..] }
        ? $"By the criterion even ISO {Iso.FromSpeed(lowest).ToDisplay()}, the lowest measured on {Name}, is past stretch for this print."
        : $"Fewer than two levels of {Name} are kept, so no limit can be worked out.";
}

/// <summary>Limits of the person's own.</summary>
/// <param name="Limits">As judged or carried, for the print of their own tags.</param>
/// <param name="JudgedOn">The day; null when it is not known.</param>
public sealed record OwnPair(NoiseLimits Limits, DateOnly? JudgedOn)
{
    /// <summary>The limit of the pair that an older judging found ("clean", "stretch"), and its day; null when both are of one judging.</summary>
    public (string Limit, DateOnly JudgedOn)? Borrowed { get; init; }
}

/// <summary>Which of a person's limits a plan starts from.</summary>
public static class LimitChoice
{
    /// <summary>The judged limits nearest to a use: of the body and raw setting before others, of the tone that is asked or else of one that a rule leads from, of that print or else of the print whose grain looks most
    /// like it. No tone asked: smooth before others, because it shows noise first. Of equals the lift nearest to the one asked, if one is, and those that have both limits before those that leave one open. Null when nothing was judged.</summary>
    /// <param name="judged">Those that speak, the first of equals first.</param>
    /// <param name="tags">What they hold for.</param>
    /// <param name="hasBoth">True when neither limit is left open.</param>
    /// <param name="use">What limits are asked for.</param>
    public static T? Nearest<T>(IEnumerable<T> judged, Func<T, LimitTags> tags, Func<T, bool> hasBoth, LimitUse use) where T : class => judged
        .OrderByDescending(j => use.Body is null || tags(j).Body.Equals(use.Body, StringComparison.OrdinalIgnoreCase))
        .ThenByDescending(j => tags(j).Tone == (use.Tone ?? ToneKind.Smooth))
        .ThenByDescending(j => LimitScaling.Tone(tags(j).Tone, use.Tone ?? ToneKind.Smooth) is not null)
        .ThenBy(j => use.Print is null ? 0 : Math.Round(Math.Abs(LimitScaling.Print(tags(j).Print, use.Print).Stops.Value), 9))
        .ThenBy(j => use.Lift == default ? 0 : Math.Abs((tags(j).Lift ?? default).Value - use.Lift.Value))
        .ThenByDescending(hasBoth)
        .FirstOrDefault();

    /// <summary>The first that answers for the use, and why the first before it did not; null for what there is not.</summary>
    public static (T? Own, string? Refusal) Own<T>(IEnumerable<T?> inOrder, Func<T, NoiseLimits> limits, LimitUse use) where T : class
    {
        string? refusal = null;
        foreach (T own in inOrder.OfType<T>())
        {
            if (limits(own).ForUse(use).Refusal is not { } why)
                return (own, refusal);
            refusal ??= why;
        }
        return (null, refusal);
    }
}
