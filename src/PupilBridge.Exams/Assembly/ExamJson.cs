using System.Text.Json;
using System.Text.Json.Serialization;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Assembly;

/// <summary>
/// An exam as JSON, for a log that keeps exams so that they can take late entries, and for people who want to see all of
/// it. Everything reads back to an equal exam. The journal stays the truth: after a change of <see cref="Version"/> a log is
/// built anew from it.
/// </summary>
public static class ExamJson
{
    /// <summary>The version of this form; a log of another version is rebuilt.</summary>
    public const int Version = 1;

    /// <summary>How exams, and everything in them, are written.</summary>
    public static JsonSerializerOptions Options { get; } = MakeOptions();

    /// <summary>Writes an exam.</summary>
    /// <param name="exam">The exam.</param>
    /// <returns>UTF-8 JSON.</returns>
    public static byte[] Serialize(Exam exam) => JsonSerializer.SerializeToUtf8Bytes(exam, Options);

    /// <summary>Reads an exam.</summary>
    /// <param name="utf8">What <see cref="Serialize"/> wrote.</param>
    /// <returns>The exam.</returns>
    /// <exception cref="JsonException">The bytes are something else.</exception>
    public static Exam Deserialize(ReadOnlySpan<byte> utf8) =>
        JsonSerializer.Deserialize<Exam>(utf8, Options) ?? throw new JsonException("There is no exam in it.");

    private static JsonSerializerOptions MakeOptions()
    {
        var options = new JsonSerializerOptions
        {
            PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
            DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
            Converters =
            {
                new JsonStringEnumConverter(JsonNamingPolicy.KebabCaseLower),
                new TextConverter<SerialNumber>(s => s.Value, text => new(text)),
                new TextConverter<PersonId>(p => p.Value, text => new(text)),
                new TextConverter<PatientId>(p => p.Value, text => new(text)),
                new TextConverter<BootNumber>(b => b.ToString(), text => new(Convert.ToUInt64(text, 16))),
                new TextConverter<EntryId>(
                    e => e.ToString(),
                    text => EntryId.TryParse(text, out var id) ? id : throw new JsonException("no entry's name")
                ),
                new NumberConverter<JournalSequence>(s => s.Value, n => new(n)),
                new NumberConverter<ExamId>(e => e.Value, n => new(n)),
                new NumberConverter<UtcTime>(t => t.UnixMilliseconds, n => new(n)),
                new NumberConverter<Tick>(t => t.Milliseconds, n => new(n)),
                new NumberConverter<Micrometres>(m => m.Value, n => new(checked((int)n))),
            },
        };
        // What is required when an exam is made may be absent where it is null.
        options.TypeInfoResolver = new System.Text.Json.Serialization.Metadata.DefaultJsonTypeInfoResolver
        {
            Modifiers = { info => info.Properties.ToList().ForEach(property => property.IsRequired = false) },
        };
        options.MakeReadOnly();
        return options;
    }

    private sealed class TextConverter<T>(Func<T, string> write, Func<string, T> read) : JsonConverter<T>
        where T : struct
    {
        public override T Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) =>
            read(reader.GetString() ?? "");

        public override void Write(Utf8JsonWriter writer, T value, JsonSerializerOptions options) =>
            writer.WriteStringValue(write(value));
    }

    private sealed class NumberConverter<T>(Func<T, long> write, Func<long, T> read) : JsonConverter<T>
        where T : struct
    {
        public override T Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) =>
            read(reader.GetInt64());

        public override void Write(Utf8JsonWriter writer, T value, JsonSerializerOptions options) =>
            writer.WriteNumberValue(write(value));
    }
}
