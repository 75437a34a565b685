using System.Text.Json;
using System.Text.Json.Serialization;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Worker.Projection;

/// <summary>A whole exam as the bytes that the exam log keeps, and back. Equal exams give equal bytes.</summary>
public static class ExamJson
{
    private static readonly JsonSerializerOptions Options = new()
    {
        RespectRequiredConstructorParameters = true,
        // Degrees of freedom may be infinite.
        NumberHandling = JsonNumberHandling.AllowNamedFloatingPointLiterals,
        Converters =
        {
            new TextConverter<SerialNumber>(serial => serial.Value, text => new SerialNumber(text)),
            new TextConverter<PersonId>(person => person.Value, text => new PersonId(text)),
            new TextConverter<PatientId>(patient => patient.Value, text => new PatientId(text)),
            new TextConverter<EntryId>(id => id.ToString(), ReadId),
            new JsonStringEnumConverter(),
        },
    };

    /// <summary>Writes an exam.</summary>
    /// <param name="exam">The exam.</param>
    /// <returns>Its bytes: JSON in UTF-8.</returns>
    public static byte[] Write(Exam exam) => JsonSerializer.SerializeToUtf8Bytes(exam, Options);

    /// <summary>Reads an exam.</summary>
    /// <param name="bytes">What <see cref="Write"/> gave.</param>
    /// <returns>The exam.</returns>
    /// <exception cref="JsonException">The bytes are something else.</exception>
    public static Exam Read(ReadOnlySpan<byte> bytes) =>
        JsonSerializer.Deserialize<Exam>(bytes, Options) ?? throw new JsonException("There is no exam in it.");

    internal static byte[] WriteOther<T>(T value) => JsonSerializer.SerializeToUtf8Bytes(value, Options);

    internal static void WriteOther<T>(Stream into, T value) => JsonSerializer.Serialize(into, value, Options);

    internal static T ReadOther<T>(Stream from) =>
        JsonSerializer.Deserialize<T>(from, Options) ?? throw new JsonException($"There is no {typeof(T).Name} in it.");

    internal static T ReadOther<T>(ReadOnlySpan<byte> bytes) =>
        JsonSerializer.Deserialize<T>(bytes, Options)
        ?? throw new JsonException($"There is no {typeof(T).Name} in it.");

    private static EntryId ReadId(string text) =>
        EntryId.TryParse(text, out var id) ? id : throw new JsonException($"'{text}' is no entry's id.");

    private sealed class TextConverter<T>(Func<T, string> write, Func<string, T> read) : JsonConverter<T>
    {
        public override T Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options)
        {
            try
            {
                return read(reader.GetString() ?? "");
            }
            catch (ArgumentException e)
            {
                throw new JsonException(e.Message, e);
            }
        }

        public override void Write(Utf8JsonWriter writer, T value, JsonSerializerOptions options) =>
            writer.WriteStringValue(write(value));
    }
}
