using System.CommandLine;
using System.CommandLine.Help;
using System.Text;
using Leafstop.Storage;

namespace Leafstop.Cli.CommandLine;

/// <summary>Reads the call, runs the verb and turns every ending into an exit code and, where there is no result, one sentence on stderr.</summary>
internal static class VerbLine
{
    /// <summary>Runs one call.</summary>
    /// <param name="args">As the shell gives them.</param>
    /// <param name="verbs">Makes the verbs.</param>
    public static int Run(string[] args, Func<Surroundings, IReadOnlyList<Command>> verbs)
    {
        using StopSignal stop = new();
        using StreamWriter output = new(new ResultStream(Console.OpenStandardOutput()), new UTF8Encoding(false));
        using StreamWriter error = new(Console.OpenStandardError(), new UTF8Encoding(false)) { AutoFlush = true };
        Surroundings surroundings = new()
        {
            Out = output,
            Error = error,
            In = Console.IsInputRedirected || Console.IsErrorRedirected ? null : Console.In,
            Stop = stop.Token,
            OutWidth = Terminal(Console.IsOutputRedirected),
            ErrorWidth = Terminal(Console.IsErrorRedirected),
            DataOption = new Option<string?>("--data") { Description = "Folder that cameras, places and judgings are kept in.", HelpName = "DIR", Recursive = true },
        };
        int code;
        try
        {
            code = Run(Root(surroundings, verbs), args, surroundings);
            output.Flush();
        }
        catch (Exception ending) when (ending is Refusal or UnusableDataFileException)
        {
            // What was told on stdout comes first, also where both go to one terminal.
            FlushWhatCanBe(output);
            error.WriteLine($"leafstop: {OneLine.Of(ending.Message)}");
            code = ending is Refusal refusal ? refusal.Code : ExitCode.NoAnswer;
        }
        catch (OperationCanceledException) when (stop.Token.IsCancellationRequested)
        {
            error.WriteLine(StopSignal.Sentence);
            code = ExitCode.Stopped;
        }
        catch (IOException closed) when (closed is not FileNotFoundException && ResultStream.IsClosedPipe(closed))
        {
            // The reader of the pipe has had enough.
            code = ExitCode.Done;
        }
        // The last line of defence: whatever else goes wrong is our fault and is told, never shown as a crash.
#pragma warning disable CA1031
        catch (Exception fault)
#pragma warning restore CA1031
        {
            error.WriteLine($"leafstop: this is a fault of Leafstop itself, not of your call: {fault.Message}");
            error.WriteLine(fault.ToString());
            code = ExitCode.OurFault;
        }
        return code;
    }

    /// <summary>Before a refusal, which says more than that its remarks could not be written.</summary>
    private static void FlushWhatCanBe(StreamWriter output)
    {
        try
        {
            output.Flush();
        }
        catch (Exception full) when (full is Refusal or IOException)
        {
            // The refusal follows.
        }
    }

    private static int Run(RootCommand root, string[] args, Surroundings surroundings)
    {
        // No response files: a folder may be named @dir. No bundling: -abc is a misspelt word, not three options.
        ParserConfiguration rules = new() { ResponseFileTokenReplacer = null, EnablePosixBundling = false };
        ParseResult call = root.Parse(args.Length == 0 ? ["--help"] : args, rules);
        bool isAsking = call.Action is HelpWithExamples;
        if (!isAsking && Misspelling.Of(call) is { } wrong)
            throw Refusal.WrongCall(wrong);
        return call.Invoke(new InvocationConfiguration
        {
            Output = surroundings.Out,
            Error = surroundings.Error,
            EnableDefaultExceptionHandler = false,
            // Stopping is ours, see StopSignal.
            ProcessTerminationTimeout = null,
        });
    }

    // Columns; null in a pipe, and on a terminal that says it can not move its cursor.
    private static int? Terminal(bool isRedirected) =>
        isRedirected || Environment.GetEnvironmentVariable("TERM") is null or "" or "dumb" ? null : Math.Max(20, Console.WindowWidth);

    private static RootCommand Root(Surroundings surroundings, Func<Surroundings, IReadOnlyList<Command>> verbs)
    {
        RootCommand root = new("Tells what ISO a picture can stand: measures your camera and counts in stops.");
        root.Directives.Clear();
        foreach (HelpOption help in root.Options.OfType<HelpOption>())
            help.Action = new HelpWithExamples((HelpAction)help.Action!);
        root.Options.Add(surroundings.DataOption);
        foreach (Command verb in verbs(surroundings))
            root.Subcommands.Add(verb);
        return root;
    }
}
