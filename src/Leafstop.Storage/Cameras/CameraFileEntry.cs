using System.Text.Json;
using Leafstop.Core.Sensor;
using IsoSpeed = Leafstop.Core.Quantities.Iso;

namespace Leafstop.Storage.Cameras;

/// <summary>One object of a camera file, read with checks whose refusals name the entry.</summary>
internal sealed class CameraFileEntry
{
    private readonly JsonElement _element;
    private readonly string _path;

    public CameraFileEntry(JsonElement element, string path)
    {
        (_element, _path) = (element, path);
        if (element.ValueKind != JsonValueKind.Object)
            throw new FormatException(path.Length == 0 ? "This is no camera file: it is not a JSON object." : $"\"{path}\" is not an object.");
    }

    public FormatException Wrong(string name, string rule) => new($"\"{Path(name)}\" {rule}; this file says otherwise.");

    public string Text(string name) => TextOrNull(name) ?? throw Wrong(name, "is a text");

    public string? TextOrNull(string name) => Property(name) is not { } value ? null
        : value.ValueKind == JsonValueKind.String && value.GetString() is { Length: <= 1000 } text && !text.Any(c => char.IsControl(c) && c != '\n')
            ? text
            : throw Wrong(name, "is a text of at most 1000 visible characters");

    public bool Truth(string name) => Property(name)?.ValueKind switch
    {
        JsonValueKind.True => true,
        JsonValueKind.False => false,
        _ => throw Wrong(name, "is true or false"),
    };

    public int Whole(string name, int least, int most) =>
        Property(name) is { ValueKind: JsonValueKind.Number } value && value.TryGetInt32(out int number) && number >= least && number <= most
            ? number
            : throw Wrong(name, $"is a whole number from {least} to {most}");

    public double Positive(string name) => PositiveOrNull(name) ?? throw Wrong(name, "is a number above zero");

    public double? PositiveOrNull(string name) => Property(name) is { } value ? Number(name, value) : null;

    /// <summary>An ISO in the range that every surface takes.</summary>
    public IsoSpeed Iso(string name) => Positive(name) is >= 1 and <= 1e7 and var speed ? IsoSpeed.FromSpeed(speed) : throw Wrong(name, "is an ISO between 1 and 10000000");

    public Estimate? Interval(string name, string intervalName)
    {
        // The lower end of an uncertain read noise may be zero, so ends are only asked to be finite and in order.
        return PositiveOrNull(name) is { } value ? Around(value, intervalName, name) : null;
    }

    /// <summary>A value of any sign with the interval around it.</summary>
    public Estimate Around(double value, string intervalName, string name)
    {
        double[] ends = Property(intervalName) is { ValueKind: JsonValueKind.Array } array && array.GetArrayLength() == 2
            && array.EnumerateArray().All(e => e.ValueKind == JsonValueKind.Number)
            ? [.. array.EnumerateArray().Select(e => e.TryGetDouble(out double end) ? end : double.NaN)]
            : [];
        return ends is [double low, double high] && double.IsFinite(low) && double.IsFinite(high) && low <= value && value <= high
            ? new Estimate(value, low, high)
            : throw Wrong(intervalName, $"is [low, high] around \"{name}\"");
    }

    /// <summary>A finite number of any sign.</summary>
    public double? NumberOrNull(string name) => Property(name) is not { } value ? null
        : value.ValueKind == JsonValueKind.Number && value.TryGetDouble(out double number) && double.IsFinite(number) ? number : throw Wrong(name, "is a number");

    public CameraFileEntry? ObjectOrNull(string name) => Property(name) is { } value ? new CameraFileEntry(value, Path(name)) : null;

    /// <summary>A list that older files do not have.</summary>
    public IEnumerable<CameraFileEntry> ListOrNone(string name) => Property(name) is null ? [] : List(name);

    public CameraFileEntry Object(string name) => new(Property(name) ?? throw Wrong(name, "is an object"), Path(name));

    public IEnumerable<CameraFileEntry> List(string name) => Array(name).Select((item, i) => new CameraFileEntry(item, $"{Path(name)}[{i}]"));

    public T Choice<T>(string name) where T : struct, Enum => ChoiceOrNull<T>(name) ?? throw Wrong(name, OneOf<T>());

    public T? ChoiceOrNull<T>(string name) where T : struct, Enum => Property(name) is { } value ? Chosen<T>(name, value) : null;

    public IEnumerable<T> Choices<T>(string name) where T : struct, Enum => Array(name).Select(v => Chosen<T>(name, v));

    private T Chosen<T>(string name, JsonElement value) where T : struct, Enum
    {
        string? text = value.ValueKind == JsonValueKind.String ? value.GetString() : null;
        foreach (T choice in Enum.GetValues<T>())
        {
            if (JsonNamingPolicy.CamelCase.ConvertName(choice.ToString()) == text)
                return choice;
        }
        throw Wrong(name, OneOf<T>());
    }

    private double Number(string name, JsonElement value) =>
        value.ValueKind == JsonValueKind.Number && value.TryGetDouble(out double number) && double.IsFinite(number) && number > 0
            ? number
            : throw Wrong(name, "is a number above zero");

    private JsonElement.ArrayEnumerator Array(string name) => Property(name) is { ValueKind: JsonValueKind.Array } array && array.GetArrayLength() <= 10_000
        ? array.EnumerateArray()
        : throw Wrong(name, "is a list");

    private JsonElement? Property(string name) =>
        _element.TryGetProperty(name, out JsonElement value) && value.ValueKind != JsonValueKind.Null ? value : null;

    private string Path(string name) => _path.Length == 0 ? name : $"{_path}.{name}";

    private static string OneOf<T>() where T : struct, Enum =>
        $"is one of {string.Join(", ", Enum.GetNames<T>().Select(JsonNamingPolicy.CamelCase.ConvertName))}";
}
