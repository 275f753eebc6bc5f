using Leafstop.Cli.CommandLine;
using Leafstop.Core.Card;
using Leafstop.Core.Judging;
using Leafstop.Core.Planning;
using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;
using Leafstop.Storage;
using Leafstop.Storage.Cameras;
using Leafstop.Storage.Judgements;

namespace Leafstop.Cli.Verbs;

/// <summary>Limits and base ISO of a kept camera.</summary>
internal static class PlanLimits
{
    /// <summary>The camera that is meant: the named one, else the only one kept; null when none is kept, or several and none is named.</summary>
    /// <exception cref="Refusal">The named camera is not kept, or the data file cannot be read.</exception>
    public static (KeptCamera? Camera, string? Remark) Find(string? name, string dataFolder)
    {
        try
        {
            CameraStore store = new(new DataFile(dataFolder));
            KeptCamera[] all = [.. store.List()];
            if (name is not null)
            {
                string wanted = CameraStore.TidyName(name);
                KeptCamera? found = all.FirstOrDefault(c => c.Name.Equals(wanted, StringComparison.OrdinalIgnoreCase)) ?? store.Find(wanted);
                return found is not null ? (found, null) : throw Refusal.NoAnswer(all.Length == 0
                    ? $"no camera is kept yet, so '{wanted}' is not: measure one with leafstop measure DIR --save \"{wanted}\", or give --clean and --stretch."
                    : $"no camera '{wanted}' is kept. There is {string.Join(", ", all.Select(c => $"'{c.Name}'"))}.");
            }
            return all switch
            {
                [] => (null, null),
                [KeptCamera only] => (only, null),
                _ => (null, $"Several cameras are kept, so none was used: name one with --camera ({string.Join(", ", all.Select(c => $"'{c.Name}'"))})."),
            };
        }
        catch (ArgumentException wrong)
        {
            throw Refusal.WrongCall($"--camera: {Refusal.Sentence(wrong)}");
        }
    }

    /// <summary>What a plan needs to know of a kept camera.</summary>
    public static PlanCamera ForPlan(KeptCamera camera, string dataFolder) => camera.ForPlan(new JudgementStore(new DataFile(dataFolder)).Speaking(camera.Name));

    /// <summary>The camera's limits, worked out for a print by the published criterion; null when its levels cannot tell.</summary>
    /// <param name="camera">The camera.</param>
    /// <param name="print">The print that is asked.</param>
    /// <param name="tone">Mid-grey or three stops below.</param>
    public static WorkedOutLimits? Of(KeptCamera camera, PrintCondition print, LimitTone tone) => camera.ForPlan([]).WorkedOut(print, tone);

    /// <summary>Base ISO: the lowest that was measured and is usable, else the card's, as an exact power; null when there is none.</summary>
    public static Iso? BaseIso(KeptCamera camera) => camera.LowestUsable is { } lowest ? Iso.FromMarking(lowest.Speed) : camera.NewestCard?.Card.BaseIso;

    /// <summary>What limits of a camera are asked for: those of its body and raw setting as last measured.</summary>
    public static LimitUse UseOf(KeptCamera camera, PrintCondition? print, ToneKind? tone = null) => new() { Body = camera.Body.ToWords(), Print = print, Tone = tone };

    /// <summary>The person's own limits for a use: by their judging, else those of a card that was read back; see <see cref="PlanCamera.Own"/>.</summary>
    /// <returns>The limits, for the print of their own tags, and the reason why others were refused; null for what there is not.</returns>
    public static (OwnLimits? Own, string? Refusal) Own(KeptCamera camera, LimitUse use, string dataFolder)
    {
        KeptJudging? judging = LimitChoice.Nearest(new JudgementStore(new DataFile(dataFolder)).Speaking(camera.Name), j => j.Result.Tags, j => j.Result.HasBothLimits, use);
        OwnLimits? carried = camera.NewestCard?.Card is { Limits: { Origin: not LimitOrigin.WorkedOut } limits } card
            ? new OwnLimits(limits, card.JudgedOn, card.CleanRange, card.StretchRange) { IsFromCard = true }
            : null;
        return LimitChoice.Own([judging is null ? null : OwnLimits.Of(judging), carried], o => o.Limits, use);
    }
}

/// <summary>Limits of the person's own and how they were come by.</summary>
/// <param name="Limits">As judged or given, for the print of their own tags.</param>
/// <param name="JudgedOn">The day; null when it is not known.</param>
/// <param name="CleanRange">How sure the clean limit is; null when that is not known.</param>
/// <param name="StretchRange">How sure the stretch limit is; null when that is not known.</param>
internal sealed record OwnLimits(NoiseLimits Limits, DateOnly? JudgedOn, LimitRange? CleanRange, LimitRange? StretchRange)
{
    /// <summary>True when a card carried them here.</summary>
    public bool IsFromCard { get; init; }

    /// <summary>The judging behind them; null when it was not done here.</summary>
    public KeptJudging? Judging { get; private init; }

    /// <summary>Those of a judging that speaks.</summary>
    public static OwnLimits Of(KeptJudging judging) =>
        new(judging.ToLimits()!, DateOnly.FromDateTime(judging.JudgedAt.UtcDateTime), Range(judging.Result.Clean), Range(judging.Result.Stretch)) { Judging = judging };

    private static LimitRange? Range(QuestionReading reading) => reading is { Low: { } low, High: { } high } ? new LimitRange(low, high) : null;
}
