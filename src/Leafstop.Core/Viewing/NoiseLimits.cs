using System.Collections.Immutable;
using Leafstop.Core.Quantities;

namespace Leafstop.Core.Viewing;

/// <summary>The clean and the stretch limit of one person, body and print, and the steps by which they were brought there.</summary>
/// <remarks>Clean: the highest ISO whose noise is not noticed. Stretch: the highest at which the person would still rather have the picture than not. Either may be
/// unknown. Predicted limits come by <see cref="Of(Sensor.PredictedLimit)"/>, judged ones by <see cref="Judged"/>; for any other use than their tags say, ask <see cref="ForUse"/>.</remarks>
public sealed record NoiseLimits
{
    private NoiseLimits(Iso? clean, Iso? stretch, LimitTags tags, LimitOrigin origin, ImmutableArray<LimitShift> shifts, LimitEvidence? evidence = null) =>
        (Clean, Stretch, Tags, Origin, Shifts, Evidence) = (clean, stretch, tags, origin, shifts, evidence);

    /// <summary>Clean limit, exact; null when unknown.</summary>
    public Iso? Clean { get; }

    /// <summary>Stretch limit, exact; null when unknown.</summary>
    public Iso? Stretch { get; }

    /// <summary>What they hold for.</summary>
    public LimitTags Tags { get; }

    /// <summary>Where they come from.</summary>
    public LimitOrigin Origin { get; }

    /// <summary>The steps that were applied to what was judged, given or worked out; empty when none was.</summary>
    public ImmutableArray<LimitShift> Shifts { get; }

    /// <summary>How judged limits were come by, moved along with them; null unless <see cref="Origin"/> is <see cref="LimitOrigin.Judged"/>.</summary>
    public LimitEvidence? Evidence { get; }

    /// <summary>Clean as it is dialled: the third at or below.</summary>
    public Iso? CleanDial => Clean?.DialAtOrBelow();

    /// <summary>Stretch as it is dialled: the third at or below.</summary>
    public Iso? StretchDial => Stretch?.DialAtOrBelow();

    /// <summary>Takes a pair of limits. A number that is a mark stands for its exact power.</summary>
    /// <param name="clean">Clean, or null.</param>
    /// <param name="stretch">Stretch, or null; not below clean.</param>
    /// <param name="tags">What they hold for.</param>
    /// <param name="origin">Where they come from.</param>
    /// <exception cref="ArgumentException">Stretch lies below clean.</exception>
    public static NoiseLimits Of(Iso? clean, Iso? stretch, LimitTags tags, LimitOrigin origin)
    {
        if (clean is not null && stretch is not null && stretch < clean)
            throw new ArgumentException("A stretch limit is not below the clean limit.", nameof(stretch));
        return new NoiseLimits(Exact(clean), Exact(stretch), tags, origin, []);
    }

    /// <summary>Takes the person's own limits as their blind judging found them.</summary>
    /// <param name="clean">Clean, or null when it was not judged.</param>
    /// <param name="stretch">Stretch, or null when it was not judged; not below clean.</param>
    /// <param name="tags">What they hold for; tone and treatment are stated.</param>
    /// <param name="evidence">When, how sure, by how many answers: for each limit that is told, and around it.</param>
    /// <exception cref="ArgumentException">A tag is missing, evidence is missing or does not fit, or stretch lies below clean.</exception>
    public static NoiseLimits Judged(Iso? clean, Iso? stretch, LimitTags tags, LimitEvidence evidence)
    {
        ArgumentNullException.ThrowIfNull(tags);
        ArgumentNullException.ThrowIfNull(evidence);
        if (clean is null && stretch is null)
            throw new ArgumentException("Judged limits hold at least one limit.", nameof(clean));
        if (string.IsNullOrWhiteSpace(tags.Body) || tags.Tone == ToneKind.NotStated || tags.Treatment == NoiseTreatment.NotStated)
            throw new ArgumentException("A judged limit says its body, tone and treatment.", nameof(tags));
        Fits(clean, evidence.Clean, nameof(clean));
        Fits(stretch, evidence.Stretch, nameof(stretch));
        NoiseLimits limits = Of(clean, stretch, tags, LimitOrigin.Judged);
        return new NoiseLimits(limits.Clean, limits.Stretch, tags, LimitOrigin.Judged, [], evidence);
    }

    /// <summary>Takes limits that were worked out.</summary>
    public static NoiseLimits Of(Sensor.PredictedLimit predicted) =>
        new(predicted.CleanExact, predicted.StretchExact, LimitTags.Of(predicted), LimitOrigin.WorkedOut, []);

    /// <summary>The same limits moved by a step.</summary>
    public NoiseLimits Moved(LimitShift shift) =>
        new(By(Clean, shift.Stops), By(Stretch, shift.Stops), Tags, Origin, Shifts.Add(shift), Evidence?.Moved(shift.Stops));

    /// <summary>The limits for a use: as they are where it is what they hold for, converted with the reasons where a rule leads there, refused where none does.</summary>
    public LimitAnswer ForUse(LimitUse use)
    {
        ArgumentNullException.ThrowIfNull(use);
        if (use.Body is { } body && !body.Equals(Tags.Body, StringComparison.OrdinalIgnoreCase) && use.Format is null)
            return LimitAnswer.Refused($"These limits hold for {Tags.Body}, not for {body}. Another body or raw setting has its own: measure and judge it, or give both sensor formats for an estimate.");
        if (use.Treatment is { } treatment && treatment != Tags.Treatment)
            return LimitAnswer.Refused($"These limits were found with {Words(Tags.Treatment)}, not with {Words(treatment)}. No rule leads from one to the other: judge them again.");
        NoiseLimits limits = this;
        if (use.Tone is { } tone && tone != Tags.Tone)
        {
            if (LimitScaling.Tone(Tags.Tone, tone) is not { } shift)
                return LimitAnswer.Refused($"These limits hold for {Words(Tags.Tone)}, not for {Words(tone)}. No rule leads from one to the other: judge that tone, or ask for the tone they hold for.");
            limits = limits.Moved(shift).With(limits.Tags with { Tone = tone });
        }
        if (use.Format is var (from, to))
        {
            limits = limits.Moved(LimitScaling.Format(from, to));
            if (use.Body is { } other) limits = limits.With(limits.Tags with { Body = other });
        }
        if (use.Print is { } print) limits = limits.For(print);
        if (use.WidthKept != 1) limits = limits.Moved(LimitScaling.Crop(use.WidthKept));
        if (use.Lift != default) limits = limits.Moved(LimitScaling.Lift(use.Lift, Tags.Lift));
        if (use.FramesAveraged != 1) limits = limits.Moved(LimitScaling.Averaging(use.FramesAveraged));
        return LimitAnswer.Given(limits);
    }

    /// <summary>The limits for another print, by <see cref="LimitScaling.Print"/>; the same ones when the print is the same.</summary>
    public NoiseLimits For(Sensor.PrintCondition print)
    {
        if (print == Tags.Print)
            return this;
        LimitShift shift = LimitScaling.Print(Tags.Print, print);
        return Moved(shift).With(Tags with { Print = print });
    }

    /// <summary>Equal in every part.</summary>
    public bool Equals(NoiseLimits? other) => other is not null
        && (Clean, Stretch, Tags, Origin, Evidence) == (other.Clean, other.Stretch, other.Tags, other.Origin, other.Evidence) && Shifts.SequenceEqual(other.Shifts);

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Clean, Stretch, Tags, Origin, Shifts.Length);

    private NoiseLimits With(LimitTags tags) => new(Clean, Stretch, tags, Origin, Shifts, Evidence);

    private static void Fits(Iso? limit, JudgedAnswers? answers, string name)
    {
        if (limit is null != answers is null)
            throw new ArgumentException("Each judged limit comes with its answers, and answers with their limit.", name);
        if (limit is not null && (limit < answers!.Low || limit > answers.High))
            throw new ArgumentException($"ISO {limit.ToDisplay()} lies outside its own interval of {answers.Low.ToDisplay()} to {answers.High.ToDisplay()}.", name);
    }

    private static string Words(ToneKind tone) => tone switch
    {
        ToneKind.MidGrey => "mid-grey",
        ToneKind.Shadows => "shadows three stops under mid-grey",
        ToneKind.Smooth => "smooth tones",
        ToneKind.Textured => "textured tones",
        _ => "a tone that was not stated",
    };

    private static string Words(NoiseTreatment treatment) => treatment switch
    {
        NoiseTreatment.None => "no noise reduction",
        NoiseTreatment.Usual => "the usual treatment",
        _ => "a treatment that was not stated",
    };

    private static Iso? Exact(Iso? limit) => limit is null ? null : Iso.FromMarking(limit.Speed);

    private static Iso? By(Iso? limit, Stops stops) => limit is null ? null : Iso.FromSpeed(limit.Speed * stops.Ratio);
}
