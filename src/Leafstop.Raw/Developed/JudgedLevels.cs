using System.Collections.Immutable;
using Leafstop.Core.Judging;
using Leafstop.Core.Sensor;
using Leafstop.Core.Viewing;
using Leafstop.Raw.Crops;

namespace Leafstop.Raw.Developed;

/// <summary>Which levels of a ladder can be judged by eye, on the screen and on paper alike.</summary>
/// <remarks>A level can be judged when it is usable, when every place that is judged or shown is there, and when each is as bright as at the reference level.</remarks>
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
            else if (needed.Except(level.Select(c => c.Subject)).Any())
                leftOut.Add((level.Key, "one of the places that are judged is missing."));
            else
                isos.Add(new LadderIso(level.Key.Iso, level.All(c => c.HasPair)));
        }
        return new JudgedLevels([.. isos], [.. leftOut]);
    }

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
