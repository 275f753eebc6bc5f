using System.Collections.Immutable;
using Leafstop.Cli.CommandLine;
using Leafstop.Core.Sensor;
using Leafstop.Raw.Decoding;
using Leafstop.Raw.Measurement;

namespace Leafstop.Cli.Verbs;

/// <summary>Where a verb meets the measuring and the telling of a bench test: one method each.</summary>
internal static class BenchTelling
{
    /// <summary>Measures a folder in child processes, which are this program once more.</summary>
    /// <param name="folder">Folder of raw files.</param>
    /// <param name="print">The print that predicted limits are asked for.</param>
    /// <param name="progress">Where progress goes; null for none.</param>
    /// <param name="stop">Ends the job.</param>
    public static BenchAnswer MeasureFolder(string folder, PrintCondition print, TextWriter? progress, CancellationToken stop)
    {
        string[] files = [.. Directory.EnumerateFiles(folder).Order(StringComparer.Ordinal)];
        return MeasureAsync(files, print, progress, stop).GetAwaiter().GetResult();
    }

    private static async Task<BenchAnswer> MeasureAsync(string[] files, PrintCondition print, TextWriter? progress, CancellationToken stop)
    {
        DecodingPool pool = new(DecodeWorker.Command);
        await using (pool.ConfigureAwait(false))
        {
            HeaderBatch batch = await pool.ReadHeadersAsync(files, cancel: stop).ConfigureAwait(false);
            List<string>[] groups =
            [
                .. batch.Headers.GroupBy(h => (h.Iso, h.ShutterSeconds, h.FNumber)).Select(g => g.OrderBy(h => h.TakenAt).Select(h => h.File).ToList()),
            ];
            LineProgress? lines = progress is null ? null : new LineProgress(progress);
            ImmutableArray<GroupSurvey> surveys = await pool.SurveyAsync(groups, lines, stop).ConfigureAwait(false);
            Finding[] unread =
            [
                .. batch.Unread.Concat(surveys.SelectMany(s => s.Unread))
                    .Select(u => new Finding(FindingCode.Unreadable, [u.File], $"{Path.GetFileName(u.File)}: {u.Why}")),
            ];
            return BenchAnalysis.Of([.. surveys.SelectMany(s => s.Frames)], [.. surveys.SelectMany(s => s.Pairs)], unread, print);
        }
    }

    private sealed class LineProgress(TextWriter writer) : IProgress<DecodingProgress>
    {
        public void Report(DecodingProgress value) => writer.WriteLine($"{value.Done} of {value.Total}  {Path.GetFileName(value.File)}");
    }

    /// <summary>The answer in words.</summary>
    public static void WriteText(TextWriter output, BenchAnswer answer) =>
        throw new Refusal(ExitCode.OurFault, "the words for a bench test are not part of this build.");

    /// <summary>The answer as JSON.</summary>
    public static string Json(BenchAnswer answer) =>
        throw new Refusal(ExitCode.OurFault, "the JSON of a bench test is not part of this build.");

    /// <summary>The answer as one printable page.</summary>
    public static string ReportPage(BenchAnswer answer) =>
        throw new Refusal(ExitCode.OurFault, "the page of a bench test is not part of this build.");
}
