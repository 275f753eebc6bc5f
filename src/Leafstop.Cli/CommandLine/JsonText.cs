using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Unicode;

namespace Leafstop.Cli.CommandLine;

/// <summary>JSON as the verbs write it: indented, accents readable, one line break at the end.</summary>
internal static class JsonText
{
    /// <summary>Writes one document.</summary>
    public static string Of(Action<Utf8JsonWriter> write)
    {
        using MemoryStream stream = new();
        using (Utf8JsonWriter json = new(stream, new JsonWriterOptions { Indented = true, Encoder = JavaScriptEncoder.Create(UnicodeRanges.All) }))
            write(json);
        return Encoding.UTF8.GetString(stream.ToArray()) + "\n";
    }
}
