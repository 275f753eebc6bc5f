using System.Collections.Immutable;

namespace Leafstop.Core.Sensor;

/// <summary>Turns the statistics of a folder into the answer of a bench test.</summary>
public static class BenchAnalysis
{
    /// <summary>Reads the ladder, fits each level, runs the honesty tests and works out what follows.</summary>
    /// <param name="frames">Every frame that could be read.</param>
    /// <param name="pairs">Every pair that was formed of them.</param>
    /// <param name="earlier">Findings of the reading itself (unreadable files, strays), which the answer repeats.</param>
    /// <param name="print">The print that predicted limits are asked for.</param>
    public static BenchAnswer Of(
        IReadOnlyList<FrameSurvey> frames,
        IReadOnlyList<PairSurvey> pairs,
        IReadOnlyList<Finding> earlier,
        PrintCondition print)
    {
        ArgumentNullException.ThrowIfNull(frames);
        ArgumentNullException.ThrowIfNull(pairs);
        ArgumentNullException.ThrowIfNull(earlier);
        ArgumentNullException.ThrowIfNull(print);
        BodyChoice body = BodyChoice.Of(frames, pairs);
        List<Finding> findings = [.. body.Findings];
        ImmutableArray<LevelShots> shots = LevelGrouping.Of(body.Frames, body.Pairs);
        ImmutableArray<LevelShots> undamaged = [.. shots.Select(RecordTest.WithoutDamage).Where(l => l.Frames.All(f => f.DataErrors == 0))];
        findings.AddRange(RecordTest.SetAside(shots));
        shots = [.. shots.Select(RecordTest.WithoutDamage)];
        MeasuredLight light = MeasuredLight.Of(undamaged);
        LadderReading reading = LadderReading.Of(shots, light);
        ImmutableArray<LevelDraft> drafts = [.. reading.Levels.Select(l => new LevelDraft(l.Shots, l.Ladder))];

        foreach (LevelDraft draft in drafts) draft.Fit = LevelFit.Of(draft.Shots, Framing.GoodPairs(draft.Shots), undamaged);
        // What spoils a level comes before what compares levels with each other.
        findings.AddRange(RecordTest.Apply(drafts));
        // Samples that are not the sensor's tell nothing of the camera, the lamp or the tripod.
        ImmutableArray<LevelDraft> kept = [.. drafts.Where(d => !d.Has(LevelFlag.Lossy) && !d.Has(LevelFlag.Damaged))];
        findings.AddRange(Framing.WithinPairs(kept));
        findings.AddRange(PatternTest.Apply(kept));
        findings.AddRange(SmoothingTest.Apply(kept));
        findings.AddRange(CodeTest.Apply(kept));
        findings.AddRange(Coverage.Check(kept));
        findings.AddRange(Coverage.Gaps(drafts));
        findings.AddRange(ClipTest.Apply(kept));
        LightErrors.Set(kept, light, reading.FromSettings);
        findings.AddRange(LightDrift.Apply(kept));
        findings.AddRange(Framing.BetweenLevels(kept));
        findings.AddRange(Framing.Focus(kept));
        findings.AddRange(CameraClock.Check(drafts));
        findings.AddRange(LadderFindings.Of(reading, body.Frames.Length > 0));
        findings.AddRange(LadderFindings.Blacks(drafts));

        ImmutableArray<Level> levels = [.. drafts.Select(d => d.ToLevel())];
        ImmutableArray<GainStep> steps = GainStepSearch.Of(levels);
        ModelCurve? curve = ModelCurve.Of(levels, steps);
        // Frames of one light do not show how high one can go, and a limit beside them would say they do. One level reaches no limit.
        bool tellsLimits = curve is not null && body.Camera is not null && reading.Kind != LadderKind.SameLight && levels.Count(l => l.Usable) > 1;
        return new BenchAnswer
        {
            Camera = body.Camera,
            Ladder = reading.Kind,
            Levels = levels,
            GainSteps = steps,
            StopAt = curve is null ? null : LiftTable.StopAt(curve, steps),
            LiftOrDial = curve is null ? [] : LiftTable.Of(curve, steps),
            PredictedLimits = tellsLimits ? LimitPrediction.Of(curve!, body.Camera!, print) : [],
            Findings = [.. Findings.Sorted(earlier, findings)],
        };
    }
}
