using PupilBridge.Exams.Values;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Entries.Codec;

/// <summary>The fields that many kinds of entries share.</summary>
internal static class CommonFields
{
    public static void Time(this EntryWriter writer, UtcTime time) => writer.Signed(time.UnixMilliseconds);

    public static UtcTime Time(ref this EntryReader reader) => new(reader.Signed());

    public static void Serial(this EntryWriter writer, SerialNumber serial) => writer.Text(serial.Value);

    public static SerialNumber Serial(ref this EntryReader reader) => new(reader.Text());

    public static void Boot(this EntryWriter writer, BootNumber boot) => writer.Fixed64(boot.Value);

    public static BootNumber Boot(ref this EntryReader reader) => new(reader.Fixed64());

    public static void List<T>(this EntryWriter writer, ValueList<T> items, Action<EntryWriter, T> write)
    {
        writer.Count(items.Count);
        foreach (var item in items)
            write(writer, item);
    }

    public delegate T ReadItem<out T>(ref EntryReader reader);

    public static ValueList<T> List<T>(ref this EntryReader reader, ReadItem<T> read)
    {
        // Every item takes at least one byte, so that a damaged count cannot ask for endless memory.
        var items = new T[reader.Count(reader.Rest.Length)];
        for (var i = 0; i < items.Length; i++)
            items[i] = read(ref reader);
        return [.. items];
    }

    public static T? Optional<T>(ref this EntryReader reader, ReadItem<T> read)
        where T : struct => reader.Flag() ? read(ref reader) : null;

    public static void Person(this EntryWriter writer, PersonEntry entry)
    {
        writer.Fixed128(entry.Id.Value);
        writer.Text(entry.Who.Value);
        writer.Time(entry.At);
        writer.Text(entry.ProgramVersion);
    }

    public static PersonHead Person(ref this EntryReader reader) =>
        new(new(reader.Fixed128()), new(reader.Text()), reader.Time(), reader.Text());

    public static void Exam(this EntryWriter writer, ExamEntry entry)
    {
        writer.Person(entry);
        writer.Signed(entry.Exam.Value);
    }

    public static ExamHead Exam(ref this EntryReader reader) => new(reader.Person(), new(reader.Signed()));
}

/// <summary>What every person's entry begins with.</summary>
internal readonly record struct PersonHead(EntryId Id, PersonId Who, UtcTime At, string ProgramVersion);

/// <summary>What every entry about an exam begins with.</summary>
internal readonly record struct ExamHead(PersonHead Person, ExamId Exam);
