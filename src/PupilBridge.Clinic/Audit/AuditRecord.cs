using System.Buffers.Binary;
using System.Text.Json;
using System.Text.Json.Serialization;
using PupilBridge.Exams.Entries.Sealing;

namespace PupilBridge.Clinic.Audit;

/// <summary>
/// A note as it stands in a record of the stream. Where the journal seals what identifies patients, so does this: one byte 2, the length of
/// what stands open (4 bytes, little-endian), that as JSON in UTF-8 without any patient's number, one byte 1 if the first number is the one
/// that was asked for and 0 if not, and the numbers (<see cref="NotedNumbers"/>). Where nothing is sealed, and in notes of older versions,
/// the whole note is JSON.
/// </summary>
/// <param name="Note">What stands open; all of it where nothing is sealed.</param>
/// <param name="Numbers">The sealed numbers; null where nothing is sealed.</param>
/// <param name="HasAsked">Whether the first of them is the one that was asked for.</param>
/// <param name="Before">The bytes to which they are bound.</param>
internal sealed record AuditRecord(
    AuditNote Note,
    IReadOnlyList<NotedNumber>? Numbers,
    bool HasAsked,
    ReadOnlyMemory<byte> Before
)
{
    private const byte SealedForm = 2;
    private const int JsonAt = 5;

    /// <summary>Writes a note that names patients without sealing, or any note that names none.</summary>
    public static byte[] Open(AuditNote note) => JsonSerializer.SerializeToUtf8Bytes(note, AuditJson.Default.AuditNote);

    /// <summary>Writes a note with its numbers sealed.</summary>
    /// <param name="note">The note.</param>
    /// <param name="asked">The number that was asked for, with its key; null for none.</param>
    /// <param name="shown">The numbers that were shown, with their keys.</param>
    public static byte[] Sealed(AuditNote note, NumberToNote? asked, IReadOnlyList<NumberToNote> shown)
    {
        var json = Open(note with { Patients = [], Asked = null });
        var length = new byte[sizeof(int)];
        BinaryPrimitives.WriteInt32LittleEndian(length, json.Length);
        byte[] before = [SealedForm, .. length, .. json, asked is null ? (byte)0 : (byte)1];
        return [.. before, .. NotedNumbers.Write(asked is null ? shown : [asked, .. shown], before)];
    }

    /// <summary>Reads a record without opening any number.</summary>
    /// <returns>Null where something else stands.</returns>
    public static AuditRecord? Read(ReadOnlyMemory<byte> bytes)
    {
        try
        {
            if (bytes.Length == 0 || bytes.Span[0] != SealedForm)
            {
                return JsonSerializer.Deserialize(bytes.Span, AuditJson.Default.AuditNote) is { } open
                    ? new AuditRecord(open, null, false, default)
                    : null;
            }

            var length = bytes.Length > JsonAt ? BinaryPrimitives.ReadInt32LittleEndian(bytes.Span[1..]) : -1;
            if (length < 0 || length > bytes.Length - JsonAt - 1)
            {
                return null;
            }

            var before = bytes[..(JsonAt + length + 1)];
            return
                JsonSerializer.Deserialize(before.Span[JsonAt..^1], AuditJson.Default.AuditNote) is { } note
                && NotedNumbers.Read(bytes.Span[before.Length..]) is { } numbers
                ? new AuditRecord(note, numbers, before.Span[^1] == 1 && numbers.Count > 0, before)
                : null;
        }
        catch (JsonException)
        {
            return null;
        }
    }

    /// <summary>The note with its numbers, as far as their keys are there.</summary>
    /// <param name="keys">The keys.</param>
    public AuditNote Opened(ISubjectKeys keys)
    {
        if (Numbers is null)
        {
            return Note with { Path = PatientInPath.PutBack(Note.Path, Note.Asked) };
        }

        List<string> opened = [.. Numbers.Select(number => NotedNumbers.Open(number, Before.Span, keys))];
        var asked = HasAsked ? opened[0] : null;
        return Note with
        {
            Asked = asked,
            Path = PatientInPath.PutBack(Note.Path, asked),
            Patients = HasAsked ? opened[1..] : opened,
        };
    }
}

/// <summary>How notes are written.</summary>
[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingDefault
)]
[JsonSerializable(typeof(AuditNote))]
internal sealed partial class AuditJson : JsonSerializerContext;
