using System.CommandLine;

namespace Leafstop.Cli.CommandLine;

/// <summary>A verb with the examples that its help shows.</summary>
internal sealed class Verb(string name, string description, params string[] examples) : Command(name, description)
{
    /// <summary>Calls that work as they stand.</summary>
    public IReadOnlyList<string> Examples => examples;
}
