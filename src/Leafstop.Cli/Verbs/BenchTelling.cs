using Leafstop.Cli.CommandLine;
using Leafstop.Cli.Telling;
using Leafstop.Core.Sensor;
using Leafstop.Raw.Crops;
using Leafstop.Raw.Decoding;
using Leafstop.Raw.Jpegs;
using Leafstop.Raw.Measurement;
using Leafstop.Report;
using Spectre.Console;

namespace Leafstop.Cli.Verbs;

/// <summary>Where a verb meets the measuring and the telling of a bench test.</summary>
internal static class BenchTelling
{
    /// <summary>Measures a folder in child processes, which are this program once more; progress and findings go to stderr as they come.</summary>
    /// <param name="folder">Folder of raw files.</param>
    /// <param name="print">The print that predicted limits are asked for.</param>
    /// <param name="isQuiet">True to say nothing on the way.</param>
    /// <param name="say">Where to write, and when to stop.</param>
    /// <exception cref="Refusal">The folder cannot be listed.</exception>
    public static BenchAnswer MeasureFolder(string folder, PrintCondition print, bool isQuiet, Surroundings say)
    {
        ProgressLine? line = isQuiet ? null : new ProgressLine(say.Error, say.ErrorWidth);
        var vanished = new VanishedFiles(folder);
        try
        {
            BenchAnswer answer = FolderMeasurement.MeasureAsync(
                folder,
                DecodeWorker.Command,
                print,
                Steps(line),
                found =>
                {
                    if (vanished.IsNews(found))
                        line?.Say(BenchText.Line(found));
                },
                say.Stop).GetAwaiter().GetResult();
            return vanished.Gathered(answer);
        }
        catch (DirectoryNotFoundException)
        {
            throw Refusal.NoAnswer(FolderWords.Gone(folder));
        }
        catch (Exception denied) when (denied is UnauthorizedAccessException or IOException)
        {
            throw Refusal.NoAnswer(FolderWords.Shut(folder, denied.Message));
        }
        finally
        {
            line?.Finish();
        }
    }

    /// <summary>One printable page with pictures of the bench scene, for which two frames of each level are decoded once more; of JPEGs alone, pictures to look at.</summary>
    public static string Page(BenchAnswer answer, string title, bool isQuiet, Surroundings say)
    {
        ProgressLine? line = isQuiet ? null : new ProgressLine(say.Error, say.ErrorWidth);
        try
        {
            var pictures = BenchPictures.MakeAsync(answer, DecodeWorker.Command, Steps(line), say.Stop).GetAwaiter().GetResult();
            var jpegs = JpegComparison.MakeAsync(answer, DecodeWorker.Command, Steps(line), say.Stop).GetAwaiter().GetResult();
            return BenchReport.Html(answer, CropWords.Of(pictures), title, jpegs);
        }
        finally
        {
            line?.Finish();
        }
    }

    /// <summary>Steps of decoding on a line of progress; null where nothing is to be said.</summary>
    public static IProgress<DecodingProgress>? Steps(ProgressLine? line) => line is null ? null : new ProgressSteps(line);

    /// <summary>The answer in words: with weights on a terminal, plain in a pipe.</summary>
    /// <param name="say">Where to write.</param>
    /// <param name="answer">The answer.</param>
    /// <param name="allPairs">True for every pair of lift or dial.</param>
    public static void WriteText(Surroundings say, BenchAnswer answer, bool allPairs = false) => BenchText.Write(Console(say), answer, allPairs);

    /// <summary>What was found on the way to a refusal that stderr is going to say.</summary>
    public static void WriteBeside(Surroundings say, BenchAnswer answer, string refusal) => BenchText.WriteBeside(Console(say), answer, refusal);

    private static IAnsiConsole Console(Surroundings say)
    {
        bool isTerminal = say.OutWidth is not null;
        IAnsiConsole console = AnsiConsole.Create(new AnsiConsoleSettings
        {
            Ansi = isTerminal ? AnsiSupport.Yes : AnsiSupport.No,
            // Weight only: no meaning hangs on a colour.
            ColorSystem = ColorSystemSupport.NoColors,
            Interactive = InteractionSupport.No,
            Out = new AnsiConsoleOutput(say.Out),
        });
        console.Profile.Width = say.OutWidth ?? PipeWidth;
        return console;
    }

    private const int PipeWidth = 100;

    private sealed class ProgressSteps(ProgressLine line) : IProgress<DecodingProgress>
    {
        public void Report(DecodingProgress value) => line.Report(value.Done, value.Total, value.File);
    }
}
