using System.Text.Json;

namespace Leafstop.Cli.Telling;

/// <summary>Small values as every answer in JSON writes them.</summary>
internal static class JsonValues
{
    /// <summary>A number, or null where there is none.</summary>
    public static void Number(Utf8JsonWriter json, string name, double? value)
    {
        if (value is { } number)
            json.WriteNumber(name, number);
        else
            json.WriteNull(name);
    }

    /// <summary>The name of an enum member as the contract writes it.</summary>
    public static string Camel<T>(T value) where T : struct, Enum => JsonNamingPolicy.CamelCase.ConvertName(value.ToString());
}
