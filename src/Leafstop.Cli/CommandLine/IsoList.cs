using Leafstop.Core.Quantities;

namespace Leafstop.Cli.CommandLine;

/// <summary>A list of ISOs in one argument, "100 200 400".</summary>
internal static class IsoList
{
    /// <summary>Reads the list as the numbers stand.</summary>
    /// <exception cref="Refusal">An entry is no ISO, or there is none.</exception>
    public static IReadOnlyList<Iso> Read(string option, string text) => IsoWords.TryRead(text, out IReadOnlyList<Iso> isos, out string why) ? isos : throw Refusal.WrongCall($"{option}: {why}");
}
