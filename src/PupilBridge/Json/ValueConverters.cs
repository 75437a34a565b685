using System.Globalization;
using System.Text.Json.Serialization;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Json;

/// <summary>How the values of the trade stand in JSON, on the local socket and in every command's output.</summary>
internal static class ValueConverters
{
    /// <summary>Moments in UTC as ISO 8601 text.</summary>
    public static JsonConverter Time { get; } =
        Text<UtcTime>(
            time => time.ToString(),
            text =>
                UtcTime.From(DateTimeOffset.Parse(text, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal))
        );

    /// <summary>All of them.</summary>
    public static IReadOnlyList<JsonConverter> All { get; } =
    [
        Text(serial => serial.Value, text => text == "?" ? default : new SerialNumber(text)),
        Text(
            boot => boot.ToString(),
            text => new BootNumber(ulong.Parse(text, NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture))
        ),
        Text(
            host => host.ToString(),
            text => new HostId(uint.Parse(text, NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture))
        ),
        Text(person => person.Value, text => text == "?" ? default : new PersonId(text)),
        Text(patient => patient.Value, text => text == "?" ? default : new PatientId(text)),
        Text(
            id => id.ToString(),
            text => EntryId.TryParse(text, out var id) ? id : throw new FormatException($"'{text}' names no entry.")
        ),
        Number(length => length.Value, number => new Micrometres(checked((int)number))),
        Number(tick => tick.Milliseconds, number => new Tick(number)),
        Number(sequence => sequence.Value, number => new JournalSequence(number)),
        Number(exam => exam.Value, number => new ExamId(number)),
        Time,
    ];

    private static ValueConverter<T, string> Text<T>(Func<T, string> write, Func<string, T> read)
        where T : struct => new(write, read);

    private static ValueConverter<T, long> Number<T>(Func<T, long> write, Func<long, T> read)
        where T : struct => new(write, read);
}
