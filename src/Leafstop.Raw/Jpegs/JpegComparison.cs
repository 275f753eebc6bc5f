using Leafstop.Core.Quantities;
using Leafstop.Core.Sensor;
using Leafstop.Raw.Crops;
using Leafstop.Raw.Decoding;
using Leafstop.Raw.Measurement;

namespace Leafstop.Raw.Jpegs;

/// <summary>What there is to look at in a folder that holds JPEGs alone: the same places at every ISO. Nothing is measured from it, and no limit comes of it.</summary>
public sealed record JpegComparison
{
    private static readonly JpegComparison None = new() { Pictures = [] };

    /// <summary>Pictures by subject, then by ISO, one a subject and ISO; none when there is nothing to compare.</summary>
    public required IReadOnlyList<JpegPicture> Pictures { get; init; }

    /// <summary>Why there is nothing to compare, in a sentence; null when there is, and for a folder that this is not for.</summary>
    public string? Why { get; init; }

    /// <summary>JPEGs that could not be shown, and why, in the order of the answer.</summary>
    public IReadOnlyList<UnreadFile> LeftOut { get; init; } = [];

    /// <summary>Decodes the first readable JPEG of each ISO in child processes and cuts the same three places out of it. Files are only ever read.</summary>
    /// <remarks>Places are looked for on the lowest ISO. ISO is what the file states; a file that states none, or has another size than most, is left out.</remarks>
    /// <param name="answer">The answer of the folder; anything but a refusal for JPEGs alone gives an empty comparison.</param>
    /// <param name="worker">How to start a decoding process.</param>
    /// <param name="progress">Told after each file is read.</param>
    /// <param name="cancel">Kills the children and ends the job.</param>
    /// <exception cref="InvalidOperationException">Workers can not work on this machine, or have a fault of their own.</exception>
    /// <exception cref="OperationCanceledException">The job was cancelled.</exception>
    public static async Task<JpegComparison> MakeAsync(
        BenchAnswer answer, WorkerCommand worker, IProgress<DecodingProgress>? progress = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(answer);
        ArgumentNullException.ThrowIfNull(worker);
        string[] files = FilesOf(answer);
        if (files.Length == 0) return None;
        var leftOut = new Dictionary<string, string>(StringComparer.Ordinal);
        await using var pool = new DecodingPool(worker);

        IReadOnlyDictionary<string, JpegReply> facts = (await pool.LookAsync([new WorkerJob(JobKind.JpegFacts, files)], progress: null, cancel).ConfigureAwait(false))[0];
        (Iso Iso, string[] Files)[] levels = Levels(files, facts, leftOut, out var size);
        if (levels.Length < 2) return Nothing(WhyNothing(files.Length, levels));

        int total = levels.Sum(l => l.Files.Length), done = 0;
        var request = new JpegRequest { Width = size.Width, Height = size.Height };
        var pictures = new List<JpegPicture>();
        while (request.Places is null && levels is [var first, ..])
        {
            Gather([first], await Cut([first]).ConfigureAwait(false));
            levels = levels[1..];
        }

        if (request.Places is { Length: 0 }) return Nothing("The picture of the lowest ISO shows no tone between black and white, so nothing can be compared in it.");
        Gather(levels, await Cut(levels).ConfigureAwait(false));
        bool compared = pictures.Select(p => p.Iso).Distinct().Count() > 1;
        return !compared ? Nothing("Fewer than two ISOs could be read, so there is nothing to compare.") : new JpegComparison
        {
            Pictures = [.. pictures.OrderBy(p => p.Subject).ThenBy(p => p.Iso)],
            LeftOut = Told(),
        };

        async Task<IReadOnlyDictionary<string, JpegReply>[]> Cut((Iso Iso, string[] Files)[] wanted)
        {
            var answers = await pool.LookAsync(
                [.. wanted.Select(l => new WorkerJob(JobKind.JpegCrops, l.Files) { Jpegs = request })],
                progress is null ? null : new ProgressOnward(progress, done, total), cancel).ConfigureAwait(false);
            done += wanted.Sum(l => l.Files.Length);
            return answers;
        }

        void Gather((Iso Iso, string[] Files)[] wanted, IReadOnlyDictionary<string, JpegReply>[] answers)
        {
            foreach (var ((iso, _), replies) in wanted.Zip(answers))
            {
                foreach (var (file, reply) in replies)
                {
                    if (reply.Why is { } why)
                    {
                        leftOut[file] = why;
                        continue;
                    }

                    request = request with { Places = request.Places ?? reply.Places };
                    pictures.AddRange(reply.Crops.Select(c => new JpegPicture(iso, file, c.Subject, c.Png, EnlargedPng.SizeOf(c.Png)!.Value.Width)));
                }
            }
        }

        JpegComparison Nothing(string why) => new() { Pictures = [], Why = why, LeftOut = Told() };

        UnreadFile[] Told() => [.. files.Where(leftOut.ContainsKey).Select(f => new UnreadFile(f, leftOut[f]))];
    }

    /// <summary>The JPEGs of a folder that was refused because it holds nothing else; empty for any other.</summary>
    private static string[] FilesOf(BenchAnswer answer) => !answer.Findings.Any(f => f.Code == FindingCode.JpegOnly)
        ? []
        : [.. answer.Findings.Where(f => f.Code == FindingCode.NotRaw).SelectMany(f => f.Frames).Where(FolderContents.IsNamedJpeg).Distinct(StringComparer.Ordinal)];

    /// <summary>Files by the ISO that they state, all of the size that most have.</summary>
    private static (Iso Iso, string[] Files)[] Levels(
        string[] files, IReadOnlyDictionary<string, JpegReply> facts, Dictionary<string, string> leftOut, out (int Width, int Height) size)
    {
        var stated = new List<(string File, Iso Iso, (int Width, int Height) Size)>();
        foreach (string file in files)
        {
            JpegReply said = facts.GetValueOrDefault(file) ?? new JpegReply { Why = "It could not be read." };
            if (said.Why is { } why)
                leftOut[file] = why;
            else if (said.Iso is not { } iso)
                leftOut[file] = "It does not state its ISO.";
            else
                stated.Add((file, Iso.FromSpeed(iso), (said.Width, said.Height)));
        }

        (int Width, int Height) most = size = stated.GroupBy(s => s.Size).OrderByDescending(g => g.Count()).Select(g => g.Key).FirstOrDefault();
        foreach (var other in stated.Where(s => s.Size != most))
            leftOut[other.File] = FormattableString.Invariant($"It has {other.Size.Width} × {other.Size.Height} pixels, most others {most.Width} × {most.Height}.");
        return [.. stated.Where(s => s.Size == most).GroupBy(s => s.Iso).OrderBy(g => g.Key).Select(g => (g.Key, g.Select(s => s.File).ToArray()))];
    }

    private static string WhyNothing(int files, (Iso Iso, string[] Files)[] levels) => levels.Length == 1
        ? "The JPEGs that state an ISO all state the same one, so there is nothing to compare."
        : files == 1 ? "One JPEG alone cannot be compared with another." : "None of the JPEGs states its ISO and can be read, so they cannot be put side by side by ISO.";
}
