using Leafstop.Core.Quantities;

namespace Leafstop.Look.Plan;

/// <summary>What a person wrote for a plan, by name: the options of a call, or the blanks of a page. Each surface calls a value by its own name and refuses in its own way.</summary>
/// <param name="reading">Marks or literal numbers.</param>
public abstract class WrittenValues(NumberReading reading)
{
    /// <summary>Reads a value as people write it.</summary>
    public delegate bool TryRead<T>(string? text, out T value, out string why);

    /// <summary>Reads a value that has marks.</summary>
    public delegate bool TryReadNumber<T>(string? text, out T value, out string why, NumberReading reading);

    /// <summary>Marks or literal numbers.</summary>
    public NumberReading Reading => reading;

    /// <summary>What was written; null when nothing was.</summary>
    public abstract string? Text(string name);

    /// <summary>What was written where several may be; empty when nothing was.</summary>
    public abstract IReadOnlyList<string> Texts(string name);

    /// <summary>The value as this surface calls it: "--aperture", "The aperture".</summary>
    public abstract string Called(string name);

    /// <summary>How a value is written here: "--aperture 11", "the aperture, 11".</summary>
    public abstract string Example(string name, string value);

    /// <summary>What to do where nothing tells the light.</summary>
    public virtual string WaysToTellLight =>
        $"give what the meter says with {Example(PlanNames.Under, "\"2 1/3\"")}, {Example(PlanNames.Meter, "\"f/8 1/30 ISO 400\"")} or {Example(PlanNames.Ev, "6.7")}, or a time with {Called(PlanNames.Light)}";

    /// <summary>What was written is wrong.</summary>
    /// <param name="sentence">For the person: which, what is wrong, what to do.</param>
    public abstract Exception Wrong(string sentence);

    /// <summary>What was written is sound, and there is no answer to it.</summary>
    /// <param name="sentence">For the person.</param>
    public abstract Exception NoAnswer(string sentence);

    /// <summary>True when it was given.</summary>
    public bool Has(string name) => Text(name) is not null;

    /// <summary>The value; null when it was not given.</summary>
    /// <param name="name">Its name.</param>
    /// <param name="tryRead">Reads it.</param>
    /// <param name="isPlausible">What can be meant.</param>
    /// <param name="range">The range in words, for the refusal.</param>
    public T? Class<T>(string name, TryRead<T?> tryRead, Func<T, bool>? isPlausible = null, string range = "") where T : class
    {
        if (Text(name) is not { } text)
            return null;
        if (!tryRead(text, out T? value, out string why))
            throw Wrong($"{Called(name)}: {why}");
        return isPlausible is null || isPlausible(value!) ? value : throw OutOfRange(name, text, range);
    }

    /// <summary>The same for values.</summary>
    public T? Struct<T>(string name, TryRead<T> tryRead, Func<T, bool>? isPlausible = null, string range = "") where T : struct
    {
        if (Text(name) is not { } text)
            return null;
        if (!tryRead(text, out T value, out string why))
            throw Wrong($"{Called(name)}: {why}");
        return isPlausible is null || isPlausible(value) ? value : throw OutOfRange(name, text, range);
    }

    /// <summary>The same for quantities that have marks.</summary>
    public T? Marked<T>(string name, TryReadNumber<T?> tryRead, Func<T, bool> isPlausible, string range) where T : class =>
        Class<T>(name, (string? text, out T? value, out string why) => tryRead(text, out value, out why, reading), isPlausible, range);

    /// <summary>Reads an angle; a bare number is minutes of arc.</summary>
    public static bool TryArcminutes(string? text, out Angle angle, out string why) =>
        Angle.TryParse((text ?? "").Trim() is [.., var last] bare && (char.IsAsciiDigit(last) || last == '.') ? bare + "'" : text, out angle, out why);

    private Exception OutOfRange(string name, string text, string range) => Wrong($"{Called(name)}: '{text.Trim()}' is out of range: {range}.");
}
