using System.Collections.Concurrent;
using System.Collections.Immutable;
using Leafstop.Core.Sensor;
using Leafstop.Raw.Crops;
using Leafstop.Raw.Developed;
using Leafstop.Raw.Jpegs;
using Leafstop.Raw.Measurement;

namespace Leafstop.Raw.Decoding;

/// <summary>Reads raw files in child processes, so that a file that breaks its decoder is lost alone.</summary>
/// <remarks>Children start when there is work, stay for the next job and are killed when the pool is disposed or a job is cancelled. A file that
/// crashes, stalls or bloats its child becomes an <see cref="UnreadFile"/>; what else the child had to do is done again in a new one. Answers come
/// in the order of the question, whatever the timing. Not for use by two callers at once.</remarks>
public sealed class DecodingPool : IAsyncDisposable
{
    /// <summary>Files that a child takes at once when only headers are asked for.</summary>
    private const int HeaderChunk = 16;

    private readonly WorkerCommand _command;
    private readonly DecodingLimits _limits;
    private readonly int _workers;
    private readonly ConcurrentBag<WorkerProcess> _idle = [];

    /// <summary>Prepares a pool; no process starts yet.</summary>
    /// <param name="command">How to start a child.</param>
    /// <param name="limits">What one file may cost; the defaults when null.</param>
    /// <param name="workers">Most children at once; as many as processors when null.</param>
    /// <exception cref="ArgumentOutOfRangeException">Fewer than one worker.</exception>
    public DecodingPool(WorkerCommand command, DecodingLimits? limits = null, int? workers = null)
    {
        ArgumentNullException.ThrowIfNull(command);
        _command = command;
        _limits = limits ?? new DecodingLimits();
        _workers = workers ?? Environment.ProcessorCount;
        ArgumentOutOfRangeException.ThrowIfLessThan(_workers, 1, nameof(workers));
    }

    /// <summary>Reads the headers of many files.</summary>
    /// <param name="files">Paths; the answer keeps their order.</param>
    /// <param name="progress">Told after each file, from any thread, one call at a time.</param>
    /// <param name="cancel">Kills the children and ends the job.</param>
    /// <exception cref="InvalidOperationException">Workers can not work on this machine, or have a fault of their own.</exception>
    /// <exception cref="OperationCanceledException">The job was cancelled.</exception>
    public async Task<HeaderBatch> ReadHeadersAsync(
        IReadOnlyList<string> files, IProgress<DecodingProgress>? progress = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(files);
        var headers = new FrameHeader?[files.Count];
        var unread = new UnreadFile?[files.Count];
        var tally = new ProgressTally(files.Count, progress);
        int chunk = Math.Clamp((files.Count + _workers - 1) / _workers, 1, HeaderChunk);
        await ShareOutAsync((files.Count + chunk - 1) / chunk, async (number, stop) =>
        {
            int next = number * chunk, end = Math.Min(files.Count, next + chunk);
            while (next < end)
            {
                int from = next;
                var (blamed, why) = await TryAsync(new WorkerJob(JobKind.Headers, [.. files.Skip(from).Take(end - from)]), reply =>
                {
                    if (reply.Kind is not (ReplyKind.Header or ReplyKind.Unread))
                        return;
                    headers[next] = reply.Header;
                    unread[next] = reply.Header is null ? new UnreadFile(files[next], reply.Why ?? "") : null;
                    tally.Add(files[next++]);
                }, stop).ConfigureAwait(false);
                // A child that died after its last answer and before the next announcement leaves no file to blame: what is left is simply asked again.
                if (blamed is null || next == end || blamed != files[next])
                    continue;
                unread[next] = new UnreadFile(files[next], why);
                tally.Add(files[next++]);
            }
        }, cancel).ConfigureAwait(false);
        return new HeaderBatch { Headers = [.. headers.OfType<FrameHeader>()], Unread = [.. unread.OfType<UnreadFile>()] };
    }

    /// <summary>Measures groups of files that share their settings; a group is measured in one child, different groups in different ones.</summary>
    /// <param name="groups">Paths by group, in the order of exposure.</param>
    /// <param name="progress">Told after each file, from any thread, one call at a time.</param>
    /// <param name="finished">Told each survey as soon as it is there, from any thread.</param>
    /// <param name="cancel">Kills the children and ends the job.</param>
    /// <returns>One survey a group, in the order of the groups.</returns>
    /// <exception cref="InvalidOperationException">Workers can not work on this machine, or have a fault of their own.</exception>
    /// <exception cref="OperationCanceledException">The job was cancelled.</exception>
    public async Task<ImmutableArray<GroupSurvey>> SurveyAsync(
        IReadOnlyList<IReadOnlyList<string>> groups,
        IProgress<DecodingProgress>? progress = null,
        Action<GroupSurvey>? finished = null,
        CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(groups);
        var surveys = new GroupSurvey[groups.Count];
        var tally = new ProgressTally(groups.Sum(g => g.Count), progress);
        await ShareOutAsync(groups.Count, async (number, stop) =>
        {
            surveys[number] = await SurveyOneAsync(groups[number], IsLeftOver(number, groups.Count), tally, stop).ConfigureAwait(false);
            finished?.Invoke(surveys[number]);
        }, cancel).ConfigureAwait(false);
        return [.. surveys];
    }

    /// <summary>Makes small pictures of levels, each from its one or two files. Finished pictures cross the border, pixels to measure do not.</summary>
    /// <param name="jobs">Files and request of each level.</param>
    /// <param name="progress">Told after each file, from any thread, one call at a time.</param>
    /// <param name="cancel">Kills the children and ends the job.</param>
    /// <returns>One answer a level, in the order of the jobs; null where no file could be shown.</returns>
    /// <exception cref="InvalidOperationException">Workers can not work on this machine, or have a fault of their own: a picture larger than was agreed is one.</exception>
    /// <exception cref="OperationCanceledException">The job was cancelled.</exception>
    internal async Task<CropAnswer?[]> PictureAsync(
        IReadOnlyList<(IReadOnlyList<string> Files, CropRequest Request)> jobs, IProgress<DecodingProgress>? progress = null, CancellationToken cancel = default)
    {
        var answers = new CropAnswer?[jobs.Count];
        var tally = new ProgressTally(jobs.Sum(j => j.Files.Count), progress);
        await ShareOutAsync(jobs.Count, async (number, stop) =>
        {
            var (files, request) = jobs[number];
            await TogetherAsync(new WorkerJob(JobKind.Crops, files) { Crops = request, Ahead = IsLeftOver(number, jobs.Count) }, tally, reply => answers[number] = Bounded(reply.Crops) ?? answers[number], stop).ConfigureAwait(false);
        }, cancel).ConfigureAwait(false);
        return answers;
    }

    /// <summary>Cuts the samples of a few places out of levels, each from its one or two files. At most two frames of three squares of <see cref="CropWish.MostSide"/> cross the border.</summary>
    /// <param name="jobs">Files and request of each level.</param>
    /// <param name="progress">Told after each file, from any thread, one call at a time.</param>
    /// <param name="cancel">Kills the children and ends the job.</param>
    /// <returns>One answer a level, in the order of the jobs; null where no file could be read.</returns>
    /// <exception cref="InvalidOperationException">Workers can not work on this machine, or have a fault of their own: more samples than were agreed are one.</exception>
    /// <exception cref="OperationCanceledException">The job was cancelled.</exception>
    internal async Task<CutAnswer?[]> CutAsync(
        IReadOnlyList<(IReadOnlyList<string> Files, CutRequest Request)> jobs, IProgress<DecodingProgress>? progress = null, CancellationToken cancel = default)
    {
        var answers = new CutAnswer?[jobs.Count];
        var tally = new ProgressTally(jobs.Sum(j => j.Files.Count), progress);
        await ShareOutAsync(jobs.Count, async (number, stop) =>
        {
            var (files, request) = jobs[number];
            await TogetherAsync(new WorkerJob(JobKind.Cuts, files) { Cuts = request, Ahead = IsLeftOver(number, jobs.Count) }, tally, reply => answers[number] = reply.Cuts?.Bounded() ?? answers[number], stop).ConfigureAwait(false);
        }, cancel).ConfigureAwait(false);
        return answers;
    }

    /// <summary>Asks what JPEGs say of themselves, or cuts places out of them. Finished pictures cross the border, other pixels do not.</summary>
    /// <param name="jobs">Files of one ISO, or all files when only facts are asked for.</param>
    /// <param name="progress">Told after each file, from any thread, one call at a time.</param>
    /// <param name="cancel">Kills the children and ends the job.</param>
    /// <returns>What was said of each file that was looked at, by job in the order of the jobs.</returns>
    /// <exception cref="InvalidOperationException">As for <see cref="PictureAsync"/>.</exception>
    /// <exception cref="OperationCanceledException">The job was cancelled.</exception>
    internal async Task<IReadOnlyDictionary<string, JpegReply>[]> LookAsync(
        IReadOnlyList<WorkerJob> jobs, IProgress<DecodingProgress>? progress = null, CancellationToken cancel = default)
    {
        var answers = new IReadOnlyDictionary<string, JpegReply>[jobs.Count];
        var tally = new ProgressTally(jobs.Sum(j => j.Files.Count), progress);
        await ShareOutAsync(jobs.Count, async (number, stop) =>
        {
            var said = new Dictionary<string, JpegReply>(StringComparer.Ordinal);
            var given = await TogetherAsync(jobs[number], tally, reply =>
            {
                if (reply is { Kind: ReplyKind.Jpeg, File: { } file, Jpeg: { } jpeg })
                    said[file] = Bounded(jpeg);
            }, stop).ConfigureAwait(false);
            foreach (UnreadFile file in given)
                said[file.File] = new JpegReply { Why = file.Why };
            answers[number] = said;
        }, cancel).ConfigureAwait(false);
        return answers;
    }

    private static JpegReply Bounded(JpegReply reply)
    {
        foreach (JpegCrop crop in reply.Crops) CheckBounds(crop.Png);
        return reply;
    }

    private static CropAnswer? Bounded(CropAnswer? answer)
    {
        foreach (var picture in answer?.Pictures ?? []) CheckBounds(picture.Png);
        return answer;
    }

    private static void CheckBounds(byte[] png)
    {
        if (EnlargedPng.SizeOf(png) is not { Width: > 0 and <= CropPicture.MostSide, Height: > 0 and <= CropPicture.MostSide })
            throw new InvalidOperationException("A decoding worker sent a picture that is no PNG, or larger than 512 × 512.");
    }

    /// <inheritdoc/>
    public ValueTask DisposeAsync()
    {
        while (_idle.TryTake(out var worker))
            worker.Dispose();
        return ValueTask.CompletedTask;
    }

    /// <summary>True for the last pieces, when they are fewer than the children: some processor would stand idle, so their files may be opened two at a time.</summary>
    private bool IsLeftOver(int number, int pieces) => number >= pieces - pieces % _workers;

    private async Task<GroupSurvey> SurveyOneAsync(IReadOnlyList<string> files, bool ahead, ProgressTally tally, CancellationToken stop)
    {
        var survey = new GroupSurvey { Frames = [], Pairs = [], Unread = [] };
        var given = await TogetherAsync(new WorkerJob(JobKind.Group, files) { Ahead = ahead }, tally, reply => survey = reply.Survey ?? survey, stop).ConfigureAwait(false);
        var order = files.Select((file, i) => (file, i)).DistinctBy(f => f.file).ToDictionary(f => f.file, f => f.i, StringComparer.Ordinal);
        return survey with { Unread = [.. survey.Unread.Concat(given).OrderBy(u => order.GetValueOrDefault(u.File, int.MaxValue))] };
    }

    /// <summary>Gives files to one child together; a file that ends the child is left out and the rest is done again. Returns the files that were given up.</summary>
    private async Task<List<UnreadFile>> TogetherAsync(
        WorkerJob job, ProgressTally tally, Action<WorkerReply> heard, CancellationToken stop)
    {
        var left = job.Files.ToList();
        bool ahead = job.Ahead;
        var counted = new HashSet<string>(StringComparer.Ordinal);
        var given = new List<UnreadFile>();
        while (left.Count > 0)
        {
            var (blamed, why) = await TryAsync(job with { Files = left, Ahead = ahead }, reply =>
            {
                heard(reply);
                if (reply is { Kind: ReplyKind.Opened, File: { } file } && counted.Add(file))
                    tally.Add(file);
            }, stop).ConfigureAwait(false);
            if (blamed is null)
                break;
            if (ahead)
            {
                // Two files were open: one after the other tells which of them it was.
                ahead = false;
                continue;
            }
            left.Remove(blamed);
            given.Add(new UnreadFile(blamed, why));
            if (counted.Add(blamed))
                tally.Add(blamed);
        }
        foreach (string file in job.Files.Where(counted.Add))
            tally.Add(file);
        return given;
    }

    /// <summary>Runs a job in a child, a second time if an old child turns out to be dead; tells the file that ended the child, if one did.</summary>
    private async Task<(string? Blamed, string Why)> TryAsync(WorkerJob job, Action<WorkerReply> heard, CancellationToken stop)
    {
        for (; ; )
        {
            stop.ThrowIfCancellationRequested();
            bool used = _idle.TryTake(out var worker);
            worker ??= WorkerProcess.Start(_command, _limits);
            bool keep = false;
            try
            {
                var end = await worker.RunAsync(job, heard, stop).ConfigureAwait(false);
                keep = end.Finished;
                if (end.Finished || end.Blamed is not null)
                    return (end.Blamed, end.Why);
                if (!used)
                    throw new InvalidOperationException(end.Why);
            }
            finally
            {
                if (keep)
                    _idle.Add(worker);
                else
                    worker.Dispose();
            }
        }
    }

    /// <summary>Lets as many loops as there are workers take pieces until none is left; the first failure stops all.</summary>
    private async Task ShareOutAsync(int pieces, Func<int, CancellationToken, Task> work, CancellationToken cancel)
    {
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(cancel);
        int taken = -1;
        var loops = Enumerable.Range(0, Math.Min(_workers, pieces)).Select(_ => Task.Run(async () =>
        {
            try
            {
                while (Interlocked.Increment(ref taken) is var piece && piece < pieces)
                    await work(piece, stop.Token).ConfigureAwait(false);
            }
            catch
            {
                await stop.CancelAsync().ConfigureAwait(false);
                throw;
            }
        }, CancellationToken.None)).ToArray();
        try
        {
            await Task.WhenAll(loops).ConfigureAwait(false);
        }
        catch (OperationCanceledException) when (!cancel.IsCancellationRequested)
        {
            // One loop failed and stopped the others: its reason is the one to tell.
            throw loops.Select(l => l.Exception?.InnerException).FirstOrDefault(e => e is not null and not OperationCanceledException)
                ?? new InvalidOperationException("Decoding stopped for no stated reason.");
        }
    }
}
