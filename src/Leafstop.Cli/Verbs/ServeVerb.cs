using System.CommandLine;
using Leafstop.Cli.CommandLine;
using Leafstop.Cli.Serving;

namespace Leafstop.Cli.Verbs;

/// <summary>leafstop serve: the workbench, a page in the browser of this machine.</summary>
internal static class ServeVerb
{
    private static readonly Argument<string[]> Folders = new("DIR") { Description = "Folders that the page may open, with all below them; it opens no other.", Arity = ArgumentArity.ZeroOrMore };
    private static readonly Option<int?> Port = new("--port") { Description = "Port to answer at; a free one when not given.", HelpName = "N" };
    private static readonly Option<bool> NoOpen = new("--no-open") { Description = "Tell the address and open no browser." };
    private static readonly Option<bool> Lan = new("--lan") { Description = "Answer other machines of this network too: whoever has the address sees your frames." };

    public static Command Build(Surroundings say)
    {
        Verb verb = new("serve", "Opens the workbench in the browser of this machine; Ctrl-C ends it.",
            "leafstop serve ~/bench",
            "leafstop serve ~/bench ~/pictures --no-open --port 8100")
        {
            Folders, Port, NoOpen, Lan, say.JsonOption, say.QuietOption,
        };
        verb.SetAction(call => Serve(call, say));
        return verb;
    }

    private static int Serve(ParseResult call, Surroundings say)
    {
        int port = call.GetValue(Port) ?? 0;
        if (port is < 0 or > ushort.MaxValue)
            throw Refusal.WrongCall($"--port: {port} is no port, they go from 1 to 65535. Leave it out to take a free one.");
        return Workbench.Serve(
            new WorkbenchWish(DataFolders.Writable(call, say), call.GetValue(Folders) ?? [])
            {
                Port = port,
                IsForNetwork = call.GetValue(Lan),
                OpensBrowser = !call.GetValue(NoOpen),
                IsJson = call.GetValue(say.JsonOption),
                IsQuiet = call.GetValue(say.QuietOption),
            },
            say);
    }
}
