using System.CommandLine;
using System.CommandLine.Parsing;

namespace Leafstop.Cli.CommandLine;

/// <summary>Finds what is wrong with a call and says it in one sentence.</summary>
internal static class Misspelling
{
    /// <summary>A sentence about the call; null when it can be carried out.</summary>
    public static string? Of(ParseResult call)
    {
        Command command = call.CommandResult.Command;
        string help = $"See '{Path(command)} --help'.";
        // An argument that may be left out would swallow a misspelt option, so anything that looks like one is looked at first.
        foreach (Token token in call.Tokens.TakeWhile(t => t.Type != TokenType.DoubleDash))
        {
            if (token.Type == TokenType.Argument && LooksLikeOption(token.Value))
                return $"There is no option '{token.Value}'.{Near(token.Value, Options(command))} {help}";
        }
        if (call.UnmatchedTokens is [string first, ..])
        {
            return command.Subcommands.Count > 0
                ? $"There is no verb '{first}'.{Near(first, command.Subcommands.Select(c => c.Name))} {help}"
                : $"'{first}' is one argument too many. {help}";
        }
        return call.Errors is [ParseError error, ..] ? $"{error.Message.TrimEnd('.')}. {help}" : null;
    }

    private static bool LooksLikeOption(string text) =>
        text.Length > 1 && text[0] == '-' && !char.IsAsciiDigit(text[1]) && text[1] is not ('.' or ' ');

    private static string Path(Command command) =>
        command.Parents.OfType<Command>().FirstOrDefault() is { } parent ? $"{Path(parent)} {command.Name}" : "leafstop";

    private static IEnumerable<string> Options(Command command) =>
        command.Options.Concat(Above(command).SelectMany(c => c.Options).Where(o => o.Recursive))
            .Select(o => o.Name).Where(n => n.StartsWith("--", StringComparison.Ordinal));

    private static IEnumerable<Command> Above(Command command) =>
        command.Parents.OfType<Command>().SelectMany(p => Above(p).Prepend(p));

    private static string Near(string written, IEnumerable<string> known)
    {
        string bare = written.Split('=')[0];
        (string Name, int Distance)[] close =
            [.. known.Select(k => (k, Distance(bare, k))).Where(k => k.Item2 <= 1 + bare.Length / 4).OrderBy(k => k.Item2)];
        return close.Length > 0 ? $" Did you mean '{close[0].Name}'?" : "";
    }

    // Edits (insert, remove, replace) between two short words.
    private static int Distance(string a, string b)
    {
        int[] row = [.. Enumerable.Range(0, b.Length + 1)];
        for (int i = 1; i <= a.Length; i++)
        {
            int diagonal = row[0];
            row[0] = i;
            for (int j = 1; j <= b.Length; j++)
            {
                int above = row[j];
                row[j] = Math.Min(Math.Min(above, row[j - 1]) + 1, diagonal + (a[i - 1] == b[j - 1] ? 0 : 1));
                diagonal = above;
            }
        }
        return row[^1];
    }
}
