using System.Collections.Immutable;
using Leafstop.Core.Judging;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;
using Leafstop.Raw.Crops;

namespace Leafstop.Raw.Developed;

/// <summary>Which levels of a ladder can be judged by eye, on the screen and on paper alike.</summary>
/// <remarks>A level can be judged when it is usable, when it had the light of the others, when every place that is judged or shown is there, and when each is as bright as at the reference level.</remarks>
public sealed record JudgedLevels
{
    private JudgedLevels(ImmutableArray<LadderIso> isos, ImmutableArray<(Level, string?)> leftOut) => (Isos, LeftOut) = (isos, leftOut);

    /// <summary>What can be judged, lowest first, and whether both frames are there to be mixed.</summary>
    public ImmutableArray<LadderIso> Isos { get; }

    /// <summary>Levels that cannot, with the sentence that says why; null where the level itself says it (<see cref="Level.Usable"/>).</summary>
    public ImmutableArray<(Level Level, string? Why)> LeftOut { get; }

    /// <summary>Decides.</summary>
    /// <param name="crops">The crops of the ladder.</param>
    /// <param name="tone">The tone that the answers will hold for.</param>
    /// <param name="shown">All places that are shown; those of the tone are among them, whether named or not.</param>
    public static JudgedLevels Of(DevelopedCrops crops, ToneKind tone, IEnumerable<CropSubject>? shown = null)
    {
        ArgumentNullException.ThrowIfNull(crops);
        CropSubject[] judged = [.. CropRegions.For(tone).Select(SubjectOf)], looked = [.. judged.Union(shown ?? [])];
        // A place that the scene has not is shown at no level; one that only this level lacks would give it away.
        CropSubject[] needed = [.. looked.Where(s => judged.Contains(s) || crops.Places.Any(p => p.Subject == s))];
        List<LadderIso> isos = [];
        List<(Level, string?)> leftOut = [];
        foreach (IGrouping<Level, DevelopedCrop> level in crops.Crops.Where(c => looked.Contains(c.Subject)).GroupBy(c => c.Level).OrderBy(g => g.Key.Iso))
        {
            if (!level.Key.Usable)
                leftOut.Add((level.Key, null));
            else if (level.FirstOrDefault(c => !c.IsMatched) is { } dissimilar)
                leftOut.Add((level.Key, dissimilar.Refusal));
            else if (level.Key.Flags.Contains(LevelFlag.LightDrift))
                leftOut.Add((level.Key, Drifted(level.Key)));
            else if (needed.Except(level.Select(c => c.Subject)).Any())
                leftOut.Add((level.Key, "one of the places that are judged is missing."));
            else
                isos.Add(new LadderIso(level.Key.Iso, level.All(c => c.HasPair)));
        }
        return new JudgedLevels([.. isos], [.. leftOut]);
    }

    /// <summary>Why no limit can be judged from a measured folder at all, in a sentence; null when one can.</summary>
    /// <param name="answer">The answer of the bench test.</param>
    public static string? Refusal(BenchAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        if (!answer.HasAnswer || answer.Camera is null)
            return answer.Findings.FirstOrDefault(f => f.Code == FindingCode.JpegOnly)?.Text ?? "Measuring it says why.";
        return answer.Levels.All(l => l.Ladder != LadderKind.Metered) && answer.Levels.Any(l => l.Ladder == LadderKind.SameLight)
            ? "This ladder was shot in the same light: it tells dial or lift, not how high you can go. Shoot a metered ladder, whose light falls as the ISO rises, and judge that."
            : null;
    }

    /// <summary>What the bench test noticed that whoever judges should know: what is wrong with files, light and places. Left out is what concerns measured numbers alone, and flags of levels that are left off anyway.</summary>
    /// <param name="answer">The answer of the bench test.</param>
    public static IEnumerable<Finding> Told(BenchAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        return answer.Findings.Where(f => f.Code is not (
            FindingCode.MissingLevel or FindingCode.NoDeepTone or FindingCode.NotLinear or FindingCode.HotPixels or FindingCode.SlightlySmoothed or FindingCode.GapsThroughout
            or FindingCode.ClipNotAtTag or FindingCode.ClipNotSeen or FindingCode.BlackUncertain or FindingCode.NotRaw or FindingCode.Clock or FindingCode.Duplicate
            or FindingCode.Smoothed or FindingCode.Arithmetic or FindingCode.Pulled or FindingCode.BlackClipped or FindingCode.Lossy or FindingCode.BitDepth));
    }

    // Brightness is made equal, noise is not: with more light it is that of a lower ISO.
    private static string Drifted(Level level) => level.LightErrorStops is { } stops && double.IsFinite(stops)
        ? FormattableString.Invariant($"it had {Math.Abs(stops):0.0#} stop {(stops > 0 ? "more" : "less")} light than the others, so that its noise is that of {(stops > 0 ? "a lower" : "a higher")} ISO. Shoot it again in their light.")
        : "it had another light than the others, so that its noise is that of another ISO. Shoot it again in their light.";

    /// <summary>The place of the scene that stands for a region of a trial.</summary>
    public static CropSubject SubjectOf(CropRegion region) => region switch
    {
        CropRegion.Dark => CropSubject.Dark,
        CropRegion.Mid => CropSubject.MidTone,
        _ => CropSubject.Texture,
    };

    /// <summary>The ladder that can be judged.</summary>
    /// <exception cref="ArgumentException">There are too few levels; the message is for the person.</exception>
    public JudgingLadder ToLadder() => JudgingLadder.Of(Isos);
}
