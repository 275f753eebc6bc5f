using System.Text.Json;

namespace Leafstop.Web.Tests;

/// <summary>Holds JSON against the schemas of an OpenAPI 3.1 document, as far as ours uses them.</summary>
internal sealed class ApiForm(JsonElement document)
{
    /// <summary>Fails when this is not what a route says it takes.</summary>
    public void Takes(string path, string method, JsonElement body) =>
        Fits(body, Operation(path, method).GetProperty("requestBody").GetProperty("content").GetProperty("application/json").GetProperty("schema"), $"{method} {path}");

    /// <summary>Fails when this is not what a route says it gives.</summary>
    public void Gives(string path, string method, int status, string type, JsonElement body) => Fits(
        body, Operation(path, method).GetProperty("responses").GetProperty(status.ToString(System.Globalization.CultureInfo.InvariantCulture)).GetProperty("content").GetProperty(type).GetProperty("schema"),
        $"{method} {path} {status}");

    private JsonElement Operation(string path, string method) => document.GetProperty("paths").GetProperty(path).GetProperty(method);

    private void Fits(JsonElement value, JsonElement schema, string where)
    {
        if (schema.TryGetProperty("$ref", out JsonElement reference))
        {
            Fits(value, document.GetProperty("components").GetProperty("schemas").GetProperty(reference.GetString()!.Split('/')[^1]), where);
            return;
        }
        if (schema.TryGetProperty("oneOf", out JsonElement choices))
        {
            // Ours are "null or this".
            bool isNull = value.ValueKind == JsonValueKind.Null;
            Fits(value, choices.EnumerateArray().Single(c => (c.TryGetProperty("type", out JsonElement t) && t.ValueKind == JsonValueKind.String && t.GetString() == "null") == isNull), where);
            return;
        }
        JsonElement type = schema.GetProperty("type");
        string[] types = type.ValueKind == JsonValueKind.Array ? [.. type.EnumerateArray().Select(t => t.GetString()!)] : [type.GetString()!];
        Assert.True(types.Any(t => IsOf(value, t)), $"{where}: {value.GetRawText()} is none of {string.Join(", ", types)}.");
        if (value.ValueKind == JsonValueKind.Array)
        {
            foreach (JsonElement item in value.EnumerateArray())
                Fits(item, schema.GetProperty("items"), $"{where}[]");
        }
        if (value.ValueKind != JsonValueKind.Object)
            return;
        JsonElement members = schema.GetProperty("properties");
        foreach (JsonProperty member in value.EnumerateObject())
        {
            Assert.True(members.TryGetProperty(member.Name, out JsonElement inner), $"{where}: {member.Name} is not described.");
            Fits(member.Value, inner, $"{where}.{member.Name}");
        }
        if (schema.TryGetProperty("required", out JsonElement required))
            Assert.All(required.EnumerateArray(), name => Assert.True(value.TryGetProperty(name.GetString()!, out _), $"{where}: {name} is missing."));
    }

    private static bool IsOf(JsonElement value, string type) => type switch
    {
        "null" => value.ValueKind == JsonValueKind.Null,
        "string" => value.ValueKind == JsonValueKind.String,
        "boolean" => value.ValueKind is JsonValueKind.True or JsonValueKind.False,
        "integer" => value.ValueKind == JsonValueKind.Number && value.TryGetInt64(out _),
        "number" => value.ValueKind == JsonValueKind.Number,
        "array" => value.ValueKind == JsonValueKind.Array,
        "object" => value.ValueKind == JsonValueKind.Object,
        _ => false,
    };
}
