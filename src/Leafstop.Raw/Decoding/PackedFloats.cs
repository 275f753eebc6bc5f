using System.Runtime.InteropServices;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace Leafstop.Raw.Decoding;

/// <summary>Many numbers as the bytes they are, in base 64: a map of brightness has thousands, and writing and reading them as digits takes longer than measuring them.</summary>
/// <remarks>Parent and worker are the same program on the same machine, so the order of bytes is the same.</remarks>
internal sealed class PackedFloats : JsonConverter<float[]>
{
    public override float[] Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) =>
        [.. MemoryMarshal.Cast<byte, float>(reader.GetBytesFromBase64())];

    public override void Write(Utf8JsonWriter writer, float[] value, JsonSerializerOptions options) =>
        writer.WriteBase64StringValue(MemoryMarshal.AsBytes<float>(value));
}
