using Leafstop.Cli.CommandLine;
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
            throw Refusal.WrongCall($"--camera: {wrong.Message.Split(" (Parameter", StringSplitOptions.None)[0]}");
        }
        catch (UnusableDataFileException data)
        {
            throw Refusal.NoAnswer(data.Message);
        }
    }

    /// <summary>The person's own judging that a plan starts from: of the body and raw setting as last measured before others, of the tone that is asked or else of one that a rule leads from, of that print or else of the
    /// print whose grain looks most like it. No tone asked: smooth before others, because it shows noise first. Null when nothing was judged.</summary>
    /// <param name="camera">The camera.</param>
    /// <param name="use">What the limits are asked for.</param>
    /// <param name="dataFolder">Where judgings are kept.</param>
    public static KeptJudging? Judged(KeptCamera camera, LimitUse use, string dataFolder) =>
        new JudgementStore(new DataFile(dataFolder)).Speaking(camera.Name)
            .OrderByDescending(j => use.Body is null || j.Result.Tags.Body.Equals(use.Body, StringComparison.OrdinalIgnoreCase))
            .ThenByDescending(j => j.Result.Tags.Tone == (use.Tone ?? ToneKind.Smooth))
            .ThenByDescending(j => LimitScaling.Tone(j.Result.Tags.Tone, use.Tone ?? ToneKind.Smooth) is not null)
            .ThenBy(j => use.Print is null ? 0 : Math.Round(Math.Abs(LimitScaling.Print(j.Result.Tags.Print, use.Print).Stops.Value), 9))
            .FirstOrDefault();

    /// <summary>The lowest ISO that was measured and is usable; null when there is none.</summary>
    public static Iso? LowestIso(KeptCamera camera) => camera.Newest.Levels.Where(l => l.Usable).MinBy(l => l.Iso)?.Iso;

    /// <summary>The camera's limits, worked out for a print by the published criterion; null when its levels cannot tell.</summary>
    /// <remarks>Where the criterion still holds at the highest ISO that was measured, that ISO stands for the limit: nothing is known above it.</remarks>
    /// <param name="camera">The camera.</param>
    /// <param name="print">The print that is asked.</param>
    /// <param name="tone">Mid-grey or three stops below.</param>
    public static CameraLimits? Of(KeptCamera camera, PrintCondition print, LimitTone tone)
    {
        // Frames of one light say nothing of a metered picture.
        KeptLevel[] levels = [.. camera.Newest.Levels.Where(l => l is { Usable: true, Ladder: LadderKind.Metered, GainElectronsPerDn: not null, ReadNoiseElectrons: not null, SaturationElectrons: not null })];
        if (levels.Length < 2 || ModelCurve.Of(
            levels.Select(l => (l.Iso, new NoiseModel(l.GainElectronsPerDn!.Value.Value, l.ReadNoiseElectrons!.Value.Value, l.SaturationElectrons!.Value))),
            camera.Newest.GainSteps.Select(s => (s.Below, s.Above))) is not { } curve)
        {
            return null;
        }
        CameraIdentity body = camera.Newest.Camera;
        var highest = Iso.FromSpeed(curve.Range.Highest);
        PredictedLimit predicted = LimitPrediction.Of(curve, body, print).Single(l => l.Tone == tone);
        Iso? clean = predicted.CleanExact ?? AtLeast(PrintCriterion.Clean), stretch = predicted.StretchExact ?? AtLeast(PrintCriterion.Stretch);
        if (clean is null && stretch is null)
            return null;
        var tags = LimitTags.Of(predicted);
        string reached = (predicted.CleanExact is null && clean is not null, predicted.StretchExact is null && stretch is not null) switch
        {
            (true, _) => $"By the criterion even ISO {highest.ToDisplay()}, the highest measured on {camera.Name}, is clean for this print; nothing is known above it.",
            (_, true) => $"By the criterion ISO {highest.ToDisplay()}, the highest measured on {camera.Name}, is still within stretch; nothing is known above it.",
            _ => "",
        };
        return new CameraLimits(NoiseLimits.Of(clean, stretch, tags, LimitOrigin.WorkedOut), reached);

        Iso? AtLeast(double level) => LimitPrediction.Holds(curve, body, print, tone, level, highest) ? highest : null;
    }
}

/// <summary>Limits of a kept camera.</summary>
/// <param name="Limits">The limits.</param>
/// <param name="Remark">A sentence where the ladder ends before them; else empty.</param>
internal sealed record CameraLimits(NoiseLimits Limits, string Remark);
