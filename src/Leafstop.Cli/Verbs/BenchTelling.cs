using Leafstop.Cli.CommandLine;
using Leafstop.Cli.Telling;
using Leafstop.Cli.Telling.Report;
using Leafstop.Core.Sensor;
using Leafstop.Raw.Crops;
using Leafstop.Raw.Decoding;
using Leafstop.Raw.Measurement;
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
        try
        {
            return FolderMeasurement.MeasureAsync(
                folder,
                DecodeWorker.Command,
                print,
                line is null ? null : new ProgressSteps(line),
                found => line?.Say(BenchText.Line(found)),
                say.Stop).GetAwaiter().GetResult();
        }
        catch (DirectoryNotFoundException)
        {
            throw Refusal.NoAnswer($"the folder '{folder}' is no longer there. Put it back, or name the folder where it is now.");
        }
        catch (Exception denied) when (denied is UnauthorizedAccessException or IOException)
        {
            throw Refusal.NoAnswer($"the folder '{folder}' cannot be listed ({denied.Message.TrimEnd('.')}). Copy the raw files to a folder that you may read.");
        }
        finally
        {
            line?.Finish();
        }
    }

    /// <summary>One printable page with pictures of the bench scene, for which two frames of each level are decoded once more.</summary>
    public static string Page(BenchAnswer answer, string title, bool isQuiet, Surroundings say)
    {
        ProgressLine? line = isQuiet ? null : new ProgressLine(say.Error, say.ErrorWidth);
        try
        {
            var pictures = BenchPictures.MakeAsync(answer, DecodeWorker.Command, line is null ? null : new ProgressSteps(line), say.Stop).GetAwaiter().GetResult();
            return BenchReport.Html(answer, CropWords.Of(pictures), title);
        }
        finally
        {
            line?.Finish();
        }
    }

    /// <summary>The answer in words: with weights on a terminal, plain in a pipe.</summary>
    public static void WriteText(Surroundings say, BenchAnswer answer)
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
        BenchText.Write(console, answer);
    }

    private const int PipeWidth = 100;

    private sealed class ProgressSteps(ProgressLine line) : IProgress<DecodingProgress>
    {
        public void Report(DecodingProgress value) => line.Report(value.Done, value.Total, value.File);
    }
}
