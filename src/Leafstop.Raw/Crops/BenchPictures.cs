using Leafstop.Core.Sensor;
using Leafstop.Raw.Decoding;

namespace Leafstop.Raw.Crops;

/// <summary>Makes the small pictures of the bench scene that stand beside the numbers of a report.</summary>
public static class BenchPictures
{
    /// <summary>Decodes one or two frames of each level once more, in child processes, and shows the same three places of the scene at every level.</summary>
    /// <remarks>Pictures are of one ladder: the metered one where there is one. The places are chosen on the lowest usable level; levels that are not usable
    /// are shown as well. A file that can not be read any more leaves a gap.</remarks>
    /// <param name="answer">The answer of the bench test.</param>
    /// <param name="worker">How to start a decoding process.</param>
    /// <param name="progress">Told after each file is read.</param>
    /// <param name="cancel">Kills the children and ends the job.</param>
    /// <returns>Pictures by subject, then by ISO; none when there is nothing to show.</returns>
    /// <exception cref="InvalidOperationException">Workers can not work on this machine, or have a fault of their own.</exception>
    /// <exception cref="OperationCanceledException">The job was cancelled.</exception>
    public static async Task<IReadOnlyList<BenchPicture>> MakeAsync(
        BenchAnswer answer, WorkerCommand worker, IProgress<DecodingProgress>? progress = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(answer);
        ArgumentNullException.ThrowIfNull(worker);
        Level[] levels = Shown(answer);
        if (levels.Length == 0) return [];
        Level reference = Reference(levels);
        Level[] others = [.. levels.Where(l => l != reference)];
        double middle = MidStops(reference, levels);
        int total = levels.Sum(l => FilesOf(l).Length);

        await using var pool = new DecodingPool(worker);
        CropAnswer? chosen = (await pool.PictureAsync([Job(reference, new CropRequest { BlackDn = BlackOf(reference), MidStops = middle })], Counted(0), cancel).ConfigureAwait(false))[0];
        if (chosen is null) return [];
        CropAnswer?[] made = await pool.PictureAsync(
            [.. others.Select(l => Job(l, new CropRequest { Places = chosen.Places, Balance = chosen.Balance, BlackDn = BlackOf(l), ExplainedStops = Explained(reference, l) }))],
            Counted(FilesOf(reference).Length), cancel).ConfigureAwait(false);

        return
        [
            .. others.Zip(made).Append((reference, chosen))
                .SelectMany(l => (l.Item2?.Pictures ?? []).Select(p => Finished(l.Item1, p)))
                .OrderBy(p => p.Subject)
                .ThenBy(p => Array.IndexOf(levels, p.Level)),
        ];

        ProgressOnward? Counted(int before) => progress is null ? null : new ProgressOnward(progress, before, total);
    }

    /// <summary>The level that places are looked for on and the others are compared with: the lowest usable one, with a pair if there is any, and of those one in the light of the rest.</summary>
    internal static Level Reference(Level[] levels) => levels.FirstOrDefault(l => l.Usable && l.Frames.Length > 1 && !l.Flags.Contains(LevelFlag.LightDrift)) ?? levels.FirstOrDefault(l => l.Usable && l.Frames.Length > 1) ?? levels.FirstOrDefault(l => l.Usable) ?? levels[0];

    /// <summary>Where the mid tone lies at the reference level, stops from metered mid-grey: in one light a tone is mid-grey at one level only, that in the middle of the ladder.</summary>
    internal static double MidStops(Level reference, Level[] levels) =>
        reference.Ladder == LadderKind.SameLight ? Math.Min(0, Explained(reference, levels[levels.Length / 2])) : 0;

    /// <summary>How many stops brighter the raw values of one level are than those of another by ISO, shutter and aperture; 0 when the files do not state a shutter time.</summary>
    internal static double Explained(Level reference, Level level) =>
        reference.ShutterSeconds is { } own && level.ShutterSeconds is { } other
            ? Math.Log2(reference.Iso.Speed / level.Iso.Speed * (own / other)) - 2 * Math.Log2((reference.FNumber ?? 1) / (level.FNumber ?? 1))
            : 0;

    /// <summary>The levels of one ladder, the metered one where there is one, by ISO.</summary>
    internal static Level[] Shown(BenchAnswer answer)
    {
        Level[] lit = [.. answer.Levels.Where(l => l.Frames.Length > 0)];
        LadderKind kind = lit.Any(l => l.Ladder == LadderKind.Metered) ? LadderKind.Metered : lit.Select(l => l.Ladder).FirstOrDefault();
        return [.. lit.Where(l => l.Ladder == kind).OrderBy(l => l.Iso)];
    }

    /// <summary>The files of a level that are shown.</summary>
    internal static string[] FilesOf(Level level) => [.. level.Frames.Take(2)];

    private static (IReadOnlyList<string>, CropRequest) Job(Level level, CropRequest request) => (FilesOf(level), request);

    /// <summary>Black by plane name as measured, DN.</summary>
    internal static Dictionary<string, double> BlackOf(Level level) => level.Planes.ToDictionary(p => p.Plane, p => p.BlackDn, StringComparer.Ordinal);

    private static BenchPicture Finished(Level level, CropPicture picture) => new()
    {
        Level = level,
        Subject = picture.Subject,
        Png = picture.Png,
        Side = EnlargedPng.SizeOf(picture.Png)!.Value.Width,
        LiftStops = picture.LiftStops,
        CorrectionStops = picture.CorrectionStops,
        UnexplainedStops = picture.UnexplainedStops,
        IsMatched = picture.IsMatched,
        ClippedShare = picture.ClippedShare,
    };
}
