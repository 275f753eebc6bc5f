using System.CommandLine;
using Leafstop.Core.Quantities;

namespace Leafstop.Cli.CommandLine;

/// <summary>Options whose values are written as people write them, read and kept within what can be meant.</summary>
/// <param name="call">The call.</param>
/// <param name="reading">Marks or literal numbers.</param>
internal sealed class WrittenOptions(ParseResult call, NumberReading reading) : WrittenValues(reading)
{
    /// <summary>True when the option was given.</summary>
    public bool Has(Option option) => call.GetResult(option) is { Implicit: false };

    /// <summary>The value; null when the option was not given.</summary>
    /// <exception cref="Refusal">Not readable, or out of range.</exception>
    public T? Class<T>(Option<string?> option, TryRead<T?> tryRead, Func<T, bool>? isPlausible = null, string range = "") where T : class => Class(Bare(option), tryRead, isPlausible, range);

    /// <summary>The same for values.</summary>
    public T? Struct<T>(Option<string?> option, TryRead<T> tryRead, Func<T, bool>? isPlausible = null, string range = "") where T : struct => Struct(Bare(option), tryRead, isPlausible, range);

    /// <summary>The same for quantities that have marks.</summary>
    public T? Marked<T>(Option<string?> option, TryReadNumber<T?> tryRead, Func<T, bool> isPlausible, string range) where T : class => Marked(Bare(option), tryRead, isPlausible, range);

    /// <inheritdoc/>
    public override string? Text(string name) => Of(name) is Option<string?> option && Has(option) ? call.GetValue(option) ?? "" : null;

    /// <inheritdoc/>
    public override IReadOnlyList<string> Texts(string name) => Of(name) is Option<string[]> option && Has(option) ? call.GetValue(option) ?? [] : [];

    /// <inheritdoc/>
    public override string Called(string name) => "--" + name;

    /// <inheritdoc/>
    public override string Example(string name, string value) => $"--{name} {value}";

    /// <inheritdoc/>
    public override Exception Wrong(string sentence) => Refusal.WrongCall(sentence);

    /// <inheritdoc/>
    public override Exception NoAnswer(string sentence) => Refusal.NoAnswer(sentence);

    private static string Bare(Option option) => option.Name[2..];

    private Option? Of(string name) => call.CommandResult.Command.Options.FirstOrDefault(o => o.Name.AsSpan(2).SequenceEqual(name));
}
