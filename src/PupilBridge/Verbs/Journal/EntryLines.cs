using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Json.Serialization;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Entries.Codec;
using PupilBridge.Exams.Entries.Sealing;
using PupilBridge.Journal;
using PupilBridge.Json;

namespace PupilBridge.Verbs.Journal;

/// <summary>
/// Journal records as JSON Lines: sequence, kind, and what the entry says. Without times of day, two runs of one
/// simulation print the same lines: everything is left out that says when, by the clock on the wall, something happened.
/// </summary>
/// <param name="withTimes">Whether times of day are printed.</param>
/// <param name="keys">The keys of what is sealed; null where there are none.</param>
internal sealed class EntryLines(bool withTimes, ISubjectKeys? keys = null)
{
    /// <summary>Fields that say when, or how well it is known when.</summary>
    private static readonly string[] TimeFields = ["at", "happenedAt", "arrivedAt", "uncertaintyMilliseconds"];

    private static readonly JsonSerializerOptions Options = Make();

    /// <summary>One record as a line.</summary>
    /// <param name="record">The record.</param>
    /// <returns>A JSON object on one line.</returns>
    public string Line(JournalRecord record)
    {
        var line = new JsonObject { ["sequence"] = record.Sequence };
        if (record.AfterDamage)
        {
            line["afterDamage"] = true;
        }

        switch (record.Class)
        {
            case RecordClass.Entry:
                AddEntry(line, record.Payload.Span);
                break;
            case RecordClass.Notice:
                line["kind"] = "journal-notice";
                line["text"] = JournalNotice.TryDecode(record.Payload.Span)?.Text;
                break;
            default:
                line["kind"] = record.Class == RecordClass.CleanStop ? "clean-stop" : "unknown";
                break;
        }

        return line.ToJsonString(Options);
    }

    private void AddEntry(JsonObject line, ReadOnlySpan<byte> payload)
    {
        if (!EntryCodec.TryDecode(payload, keys ?? NoSubjectKeys.Instance, out var read, out var refusal))
        {
            line["kind"] = "unreadable";
            line["refusal"] = refusal!.Message;
            return;
        }

        var entry = read!.Entry;
        line["kind"] = JsonNamingPolicy.KebabCaseLower.ConvertName(entry.GetType().Name);
        if (read.Unreadable.Count > 0)
        {
            line["damagedKeys"] = string.Join(", ", read.Unreadable);
        }

        // Below a name of its own: an instrument's event has a sequence too.
        line["entry"] = Fields(entry);
    }

    private JsonObject Fields(JournalEntry entry)
    {
        var fields = JsonSerializer.SerializeToNode(entry, entry.GetType(), Options)!.AsObject();
        foreach (var name in withTimes ? [] : TimeFields)
        {
            fields.Remove(name);
        }

        return fields;
    }

    private static JsonSerializerOptions Make()
    {
        var options = new JsonSerializerOptions(JsonSerializerDefaults.Web)
        {
            Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
            // A certificate's degrees of freedom may be infinite.
            NumberHandling = JsonNumberHandling.AllowNamedFloatingPointLiterals,
        };
        foreach (var converter in ValueConverters.All)
        {
            options.Converters.Add(converter);
        }

        options.Converters.Add(new JsonStringEnumConverter(JsonNamingPolicy.KebabCaseLower));
        return options;
    }
}
