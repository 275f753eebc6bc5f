using Leafstop.Core.Sensor;
using Leafstop.Raw.Decoding;

namespace Leafstop.Raw.Measurement;

/// <summary>Measures a camera from a folder of raw files.</summary>
public static class FolderMeasurement
{
    /// <summary>Reads, pairs and measures every raw in the folder, subfolders left alone. Files are only ever read.</summary>
    /// <param name="directory">The folder.</param>
    /// <param name="worker">How to start a decoding process.</param>
    /// <param name="print">The print that predicted limits are asked for.</param>
    /// <param name="progress">Told after each file is read.</param>
    /// <param name="finding">Told what is wrong with a file as soon as it is known, from any thread.</param>
    /// <param name="cancel">Stops at once and leaves nothing behind.</param>
    /// <returns>The answer; it holds no usable level when the folder cannot answer, and its findings say why.</returns>
    /// <exception cref="DirectoryNotFoundException">There is no such folder.</exception>
    /// <exception cref="UnauthorizedAccessException">The folder may not be listed.</exception>
    public static async Task<BenchAnswer> MeasureAsync(
        string directory,
        WorkerCommand worker,
        PrintCondition print,
        IProgress<DecodingProgress>? progress = null,
        Action<Finding>? finding = null,
        CancellationToken cancel = default)
    {
        FolderContents contents = FolderContents.Of(directory);
        var early = new List<Finding>();
        await using var pool = new DecodingPool(worker);

        HeaderBatch batch = await pool.ReadHeadersAsync(contents.Files, progress: null, cancel).ConfigureAwait(false);
        contents.Sort(batch.Unread, Tell);
        IReadOnlyList<IReadOnlyList<string>> groups = Groups(batch.Headers);
        var surveys = await pool.SurveyAsync(groups, progress, TellUnread, cancel).ConfigureAwait(false);

        // Told already, in the order of the clock; kept in the order of the files, so that the same folder gives the same answer.
        early.AddRange(surveys.SelectMany(s => s.Unread).Select(FolderContents.Unreadable));
        FrameSurvey[] frames = [.. surveys.SelectMany(s => s.Frames)];
        contents.Conclude(frames.Length, early.Add);
        return BenchAnalysis.Of(frames, [.. surveys.SelectMany(s => s.Pairs)], early, print);

        void TellUnread(GroupSurvey survey)
        {
            foreach (UnreadFile file in survey.Unread) finding?.Invoke(FolderContents.Unreadable(file));
        }

        void Tell(Finding found)
        {
            early.Add(found);
            finding?.Invoke(found);
        }
    }

    /// <summary>Files with equal settings of one body, in the order of exposure; the groups by ISO.</summary>
    private static IReadOnlyList<IReadOnlyList<string>> Groups(IEnumerable<FrameHeader> headers) =>
    [
        .. headers
            .GroupBy(h => (h.Make, h.Model, h.BodyFingerprint, h.Width, h.Height, h.Mosaic, h.Iso, h.ShutterSeconds, h.FNumber, h.IsLossy))
            .OrderBy(g => g.Key.Iso)
            .ThenBy(g => g.Key.ShutterSeconds)
            .Select(g => (IReadOnlyList<string>)[.. g.OrderBy(h => h.TakenAt).ThenBy(h => h.File, StringComparer.Ordinal).Select(h => h.File)]),
    ];
}
