using System.Text.Json;
using System.Text.Json.Serialization;

namespace PupilBridge.Json;

/// <summary>Writes a value of the trade as one JSON string or number instead of an object around it.</summary>
/// <typeparam name="T">The value's type.</typeparam>
/// <typeparam name="TPlain"><see cref="string"/> or <see cref="long"/>.</typeparam>
/// <param name="write">The value as text or number.</param>
/// <param name="read">The value of a text or number.</param>
internal sealed class ValueConverter<T, TPlain>(Func<T, TPlain> write, Func<TPlain, T> read) : JsonConverter<T>
    where T : struct
{
    /// <inheritdoc/>
    public override T Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options)
    {
        try
        {
            return read(JsonSerializer.Deserialize<TPlain>(ref reader, options)!);
        }
        catch (Exception fault) when (fault is ArgumentException or FormatException or OverflowException)
        {
            throw new JsonException(fault.Message, fault);
        }
    }

    /// <inheritdoc/>
    public override void Write(Utf8JsonWriter writer, T value, JsonSerializerOptions options) =>
        JsonSerializer.Serialize(writer, write(value), options);
}
