using System.CommandLine;

namespace Leafstop.Cli.CommandLine;

/// <summary>What a verb works with besides its own arguments: where to write, where data lives, when to stop, what time it is.</summary>
internal sealed class Surroundings
{
    /// <summary>Results, and nothing else.</summary>
    public required TextWriter Out { get; init; }

    /// <summary>Progress, remarks and refusals.</summary>
    public required TextWriter Error { get; init; }

    /// <summary>Columns of the terminal that <see cref="Out"/> goes to; null in a pipe.</summary>
    public required int? OutWidth { get; init; }

    /// <summary>Columns of the terminal that <see cref="Error"/> goes to; null in a pipe.</summary>
    public required int? ErrorWidth { get; init; }

    /// <summary>Answers typed by the person; null where nobody can be asked.</summary>
    public required TextReader? In { get; init; }

    /// <summary>Cancelled by Ctrl-C.</summary>
    public required CancellationToken Stop { get; init; }

    /// <summary>--data DIR, known to every verb.</summary>
    public required Option<string?> DataOption { get; init; }

    /// <summary>--json, for the verbs that take it.</summary>
    public Option<bool> JsonOption { get; } = new("--json") { Description = "Write the result as JSON." };

    /// <summary>--quiet, for the verbs that take it.</summary>
    public Option<bool> QuietOption { get; } = new("--quiet") { Description = "No progress and no remarks; results and refusals only." };

    /// <summary>Tells the time that a measurement is kept under.</summary>
    public TimeProvider Clock { get; } = TimeProvider.System;

    /// <summary>The data folder: --data, then LEAFSTOP_DATA, then XDG_DATA_HOME/leafstop, then ~/.local/share/leafstop. Not made here.</summary>
    public string DataFolder(ParseResult call)
    {
        if (call.GetValue(DataOption) is { } given)
            return Path.GetFullPath(given.Length > 0 ? given : throw Refusal.WrongCall("--data needs the name of a folder."));
        if (Environment.GetEnvironmentVariable("LEAFSTOP_DATA") is { Length: > 0 } set)
            return Path.GetFullPath(set);
        // By the XDG convention a path that is not absolute is ignored.
        if (Environment.GetEnvironmentVariable("XDG_DATA_HOME") is { Length: > 0 } xdg && Path.IsPathRooted(xdg))
            return Path.Combine(xdg, "leafstop");
        string home = Environment.GetFolderPath(Environment.SpecialFolder.UserProfile);
        return home.Length > 0
            ? Path.Combine(home, ".local", "share", "leafstop")
            : throw Refusal.WrongCall("There is no home folder to keep data in: name one with --data DIR.");
    }
}
