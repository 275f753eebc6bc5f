using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;

namespace Leafstop.Cli.CommandLine;

/// <summary>The usual help, and the verb's examples below it.</summary>
internal sealed class HelpWithExamples(HelpAction usual) : SynchronousCommandLineAction
{
    public override int Invoke(ParseResult parseResult)
    {
        int code = usual.Invoke(parseResult);
        TextWriter output = parseResult.InvocationConfiguration.Output;
        Command command = parseResult.CommandResult.Command;
        IEnumerable<string> examples = command is Verb verb
            ? verb.Examples
            : command.Subcommands.OfType<Verb>().Select(v => v.Examples[0]);
        output.WriteLine("Examples:");
        foreach (string example in examples)
            output.WriteLine($"  {example}");
        return code;
    }
}
