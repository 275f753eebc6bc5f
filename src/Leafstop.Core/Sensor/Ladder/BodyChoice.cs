using System.Collections.Immutable;
using System.Globalization;

namespace Leafstop.Core.Sensor;

/// <summary>The frames that are measured: one body, one size, each picture once, no damaged cap frame.</summary>
/// <param name="Camera">The body; null without frames.</param>
/// <param name="Frames">Its frames.</param>
/// <param name="Pairs">Pairs of those frames.</param>
/// <param name="Findings">What was set aside.</param>
internal sealed record BodyChoice(
    CameraIdentity? Camera,
    ImmutableArray<FrameSurvey> Frames,
    ImmutableArray<PairSurvey> Pairs,
    ImmutableArray<Finding> Findings)
{
    /// <summary>With so many frames two have to show a code before it counts.</summary>
    private const int LeastToAgree = 3;

    /// <summary>Takes the body with most frames, then its commonest size, and drops second copies of a picture.</summary>
    public static BodyChoice Of(IReadOnlyList<FrameSurvey> frames, IReadOnlyList<PairSurvey> pairs)
    {
        var findings = ImmutableArray.CreateBuilder<Finding>();
        FrameSurvey[] kept = [.. frames.OrderBy(f => f.Header.File, StringComparer.Ordinal)];
        kept = Largest(kept, Bodies(kept), FindingCode.TwoBodies, "bodies", findings);
        kept = Largest(kept, kept.GroupBy(SizeName, StringComparer.Ordinal), FindingCode.TwoSizes, kept.DistinctBy(f => (f.Header.Width, f.Header.Height)).Skip(1).Any() ? "sizes" : "mosaics", findings);
        kept = WithoutCopies(kept, findings);
        kept = WithoutDamagedCaps(kept, findings);
        FrameSurvey[] unlabelled = [.. kept.Where(f => f.Header.Iso is not > 0)];
        if (unlabelled.Length > 0)
        {
            findings.Add(new Finding(
                FindingCode.NoLadder,
                Files(unlabelled),
                $"{Count(unlabelled.Length, "frame states", "frames state")} no ISO and cannot be placed on a ladder. Set aside."));
            kept = [.. kept.Except(unlabelled)];
        }

        HashSet<string> files = [.. kept.Select(f => f.Header.File)];
        return new(Identity(kept), [.. kept], [.. pairs.Where(p => files.Contains(p.First) && files.Contains(p.Second))], findings.ToImmutable());
    }

    private static FrameSurvey[] Largest(FrameSurvey[] all, IEnumerable<IGrouping<string, FrameSurvey>> groups, FindingCode code, string what, ImmutableArray<Finding>.Builder findings)
    {
        IGrouping<string, FrameSurvey>[] ordered = [.. groups.OrderByDescending(g => g.Count()).ThenBy(g => g.Key, StringComparer.Ordinal)];
        if (ordered.Length < 2) return all;
        FrameSurvey[] kept = [.. ordered[0]], aside = [.. ordered.Skip(1).SelectMany(g => g)];
        string others = Say.List(ordered.Skip(1).Select(g => $"{g.Key} ({Count(g.Count(), "frame", "frames")})"));
        string why = ordered[0].Count() == ordered[1].Count()
            ? $"They have equally many frames, so which one you mean cannot be told; measured is the first by name, {ordered[0].Key}."
            : $"Measured is the one with most frames, {ordered[0].Key} ({Count(kept.Length, "frame", "frames")}).";
        findings.Add(new Finding(code, Files(aside), $"Frames of {ordered.Length} {what} in one folder. {why} Set aside: {others}. Give each a folder of its own."));
        return kept;
    }

    /// <summary>Bodies by maker, model and body number; frames without a number join their model when it has only one.</summary>
    private static IEnumerable<IGrouping<string, FrameSurvey>> Bodies(FrameSurvey[] frames)
    {
        ILookup<string, string> numbers = frames
            .Where(f => f.Header.BodyFingerprint is not null)
            .ToLookup(Model, f => f.Header.BodyFingerprint!, StringComparer.Ordinal);
        return frames.GroupBy(
            f =>
            {
                string[] known = [.. numbers[Model(f)].Distinct(StringComparer.Ordinal)];
                return known.Length < 2 ? Model(f) : $"{Model(f)} body mark {f.Header.BodyFingerprint ?? "not stated"}";
            },
            StringComparer.Ordinal);
    }

    private static FrameSurvey[] WithoutCopies(FrameSurvey[] frames, ImmutableArray<Finding>.Builder findings)
    {
        List<FrameSurvey> kept = [];
        foreach (var same in frames.GroupBy(f => f.SampleDigest))
        {
            FrameSurvey[] copies = [.. same];
            kept.Add(copies[0]);
            if (copies.Length > 1)
                findings.Add(new Finding(FindingCode.Duplicate, Files(copies), $"The same picture {copies.Length} times ({Say.Iso(copies[0].Header.Iso ?? 0)}): a copy holds no new noise. One is used."));
        }

        return [.. kept.OrderBy(f => f.Header.File, StringComparer.Ordinal)];
    }

    /// <summary>A damaged frame may be so spoilt that it passes for a cap frame; a damaged frame with light fails its level where levels are tested.</summary>
    private static FrameSurvey[] WithoutDamagedCaps(FrameSurvey[] frames, ImmutableArray<Finding>.Builder findings)
    {
        FrameSurvey[] damaged = [.. frames.Where(f => f is { IsCap: true, DataErrors: > 0 })];
        if (damaged.Length == 0) return frames;
        string text = $"{Count(damaged.Length, "frame is", "frames are")} damaged: the decoder met errors in the data. Set aside. Copy them again from the card, or shoot them again.";
        findings.Add(new Finding(FindingCode.Damaged, Files(damaged), text, true));
        return [.. frames.Except(damaged)];
    }

    private static CameraIdentity? Identity(FrameSurvey[] frames)
    {
        if (frames.Length == 0) return null;
        FrameHeader header = frames[0].Header;
        // A damaged frame holds codes that no sensor gave, and not every damage is seen by its decoder: one frame alone does not settle it.
        FrameSurvey[] sound = [.. frames.Where(f => f.DataErrors == 0)];
        // Cap frames use only the lowest codes; there the tag tells more.
        int[] largest = [.. (sound.Length > 0 ? sound : frames).Select(f => Math.Max(f.Planes.Max(p => p.MaxDn), frames.All(c => c.IsCap) ? (int)Math.Min(f.Header.WhiteTagDn ?? 0, ushort.MaxValue) : 0)).OrderDescending()];
        return new CameraIdentity
        {
            Make = header.Make,
            Model = header.Model,
            BodyFingerprint = frames.Select(f => f.Header.BodyFingerprint).FirstOrDefault(n => n is not null),
            Width = header.Width,
            Height = header.Height,
            Mosaic = header.Mosaic.Name,
            Bits = Math.Max(1, (int)Math.Ceiling(Math.Log2(largest[largest.Length >= LeastToAgree ? 1 : 0] + 1.0))),
        };
    }

    private static string Model(FrameSurvey frame) => $"{frame.Header.Make} {frame.Header.Model}".Trim() is { Length: > 0 } name ? name : "a body without a name";

    private static string SizeName(FrameSurvey frame) => string.Create(
        CultureInfo.InvariantCulture,
        $"{frame.Header.Width} by {frame.Header.Height} pixels, mosaic {frame.Header.Mosaic.Name}");

    private static string Count(int count, string one, string many) => string.Create(CultureInfo.InvariantCulture, $"{count} {(count == 1 ? one : many)}");

    private static ImmutableArray<string> Files(IEnumerable<FrameSurvey> frames) => [.. frames.Select(f => f.Header.File)];
}
