using System.CommandLine;
using Leafstop.Core.Quantities;

namespace Leafstop.Cli.CommandLine;

/// <summary>Options whose values are written as people write them, read and kept within what can be meant.</summary>
/// <param name="call">The call.</param>
/// <param name="reading">Marks or literal numbers.</param>
internal sealed class WrittenOptions(ParseResult call, NumberReading reading)
{
    public delegate bool TryRead<T>(string? text, out T value, out string why);

    public delegate bool TryReadNumber<T>(string? text, out T value, out string why, NumberReading reading);

    /// <summary>True when the option was given.</summary>
    public bool Has(Option option) => call.GetResult(option) is { Implicit: false };

    /// <summary>The value; null when the option was not given.</summary>
    /// <param name="option">The option.</param>
    /// <param name="tryRead">Reads it.</param>
    /// <param name="isPlausible">What can be meant.</param>
    /// <param name="range">The range in words, for the refusal.</param>
    /// <exception cref="Refusal">Not readable, or out of range.</exception>
    public T? Class<T>(Option<string?> option, TryRead<T?> tryRead, Func<T, bool>? isPlausible = null, string range = "") where T : class
    {
        if (!Has(option))
            return null;
        string? text = call.GetValue(option);
        if (!tryRead(text, out T? value, out string why))
            throw Refusal.WrongCall($"{option.Name}: {why}");
        return isPlausible is null || isPlausible(value!) ? value : throw OutOfRange(option, text, range);
    }

    /// <summary>The same for values.</summary>
    public T? Struct<T>(Option<string?> option, TryRead<T> tryRead, Func<T, bool>? isPlausible = null, string range = "") where T : struct
    {
        if (!Has(option))
            return null;
        string? text = call.GetValue(option);
        if (!tryRead(text, out T value, out string why))
            throw Refusal.WrongCall($"{option.Name}: {why}");
        return isPlausible is null || isPlausible(value) ? value : throw OutOfRange(option, text, range);
    }

    /// <summary>The same for quantities that have marks.</summary>
    public T? Marked<T>(Option<string?> option, TryReadNumber<T?> tryRead, Func<T, bool> isPlausible, string range) where T : class =>
        Class<T>(option, (string? text, out T? value, out string why) => tryRead(text, out value, out why, reading), isPlausible, range);

    /// <summary>Reads an angle; a bare number is minutes of arc.</summary>
    public static bool TryArcminutes(string? text, out Angle angle, out string why) =>
        Angle.TryParse((text ?? "").Trim() is [.., var last] bare && (char.IsAsciiDigit(last) || last == '.') ? bare + "'" : text, out angle, out why);

    private static Refusal OutOfRange(Option option, string? text, string range) =>
        Refusal.WrongCall($"{option.Name}: '{text?.Trim()}' is out of range: {range}.");
}
