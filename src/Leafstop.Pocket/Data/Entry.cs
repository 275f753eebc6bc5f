using System.Text.Json;

namespace Leafstop.Pocket.Data;

/// <summary>One JSON object, read mildly: what is missing or of another kind is as if it were not there.</summary>
internal readonly struct Entry(JsonElement element)
{
    public string Text(string name) => Property(name) is { ValueKind: JsonValueKind.String } value ? value.GetString()! : "";

    public bool Truth(string name) => Property(name)?.ValueKind == JsonValueKind.True;

    /// <summary>A number within a range, "inf" allowed for infinity; else null.</summary>
    public double? Within(string name, double least, double most) => Property(name) switch
    {
        { ValueKind: JsonValueKind.Number } value when value.GetDouble() is var number && number >= least && number <= most => number,
        { ValueKind: JsonValueKind.String } value when value.GetString() == "inf" => double.PositiveInfinity,
        _ => null,
    };

    public Entry? Inner(string name) => Property(name) is { ValueKind: JsonValueKind.Object } value ? new Entry(value) : null;

    public IEnumerable<Entry> Each(string name) => Items(name, JsonValueKind.Object).Select(e => new Entry(e));

    public IEnumerable<double> Numbers(string name) => Items(name, JsonValueKind.Number).Select(e => e.GetDouble());

    public IEnumerable<string> Texts(string name) => Items(name, JsonValueKind.String).Select(e => e.GetString()!);

    private IEnumerable<JsonElement> Items(string name, JsonValueKind kind) =>
        Property(name) is { ValueKind: JsonValueKind.Array } array ? array.EnumerateArray().Where(e => e.ValueKind == kind) : [];

    private JsonElement? Property(string name) => element.TryGetProperty(name, out JsonElement value) ? value : null;
}
