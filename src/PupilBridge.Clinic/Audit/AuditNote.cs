using System.Text.Json;
using System.Text.Json.Serialization;

namespace PupilBridge.Clinic.Audit;

/// <summary>
/// One line of the audit stream: who saw what of whom, when, by which way and from where; or what concerns people and their rights. It holds
/// numbers of patients and never a name, a search that was typed, or anything that was shown.
/// </summary>
public sealed record AuditNote
{
    /// <summary>When, in UTC.</summary>
    public required DateTimeOffset At { get; init; }

    /// <summary>Who: a sign-in name, <c>NAME (key)</c> of a program, <c>ACCOUNT (command)</c> of a command; empty for nobody.</summary>
    public required string Who { get; init; }

    /// <summary>What: one of <see cref="AuditWhat"/>.</summary>
    public required string What { get; init; }

    /// <summary>By which way: one of <see cref="AuditWay"/>.</summary>
    public required string Way { get; init; }

    /// <summary>The path of the page or route, without its query; null for a command.</summary>
    public string? Path { get; init; }

    /// <summary>The address that asked; null for this machine's own commands.</summary>
    public string? From { get; init; }

    /// <summary>The exam; null if it was about no single one.</summary>
    public long? Exam { get; init; }

    /// <summary>The version of the exam's record; null for none in particular.</summary>
    public int? Version { get; init; }

    /// <summary>The numbers of the patients who were shown; at most <see cref="MostPatients"/> of them.</summary>
    public IReadOnlyList<string> Patients { get; init; } = [];

    /// <summary>How many lines of a list were shown; null where it was no list.</summary>
    public int? Lines { get; init; }

    /// <summary>Whom or what else it concerns: a person whose rights were changed, an instrument, a policy that refused.</summary>
    public string? Subject { get; init; }

    /// <summary>How many notes before this one could not be recorded, since the disk did not take them.</summary>
    public int Missed { get; init; }

    /// <summary>The most patients' numbers in one note: the longest page of a list.</summary>
    public const int MostPatients = 500;

    /// <summary>The note as it stands in a record of the stream: JSON in UTF-8, absent members left out.</summary>
    public byte[] ToBytes() => JsonSerializer.SerializeToUtf8Bytes(this, AuditJson.Default.AuditNote);

    /// <summary>Reads a note.</summary>
    /// <returns>Null where something else stands.</returns>
    public static AuditNote? Read(ReadOnlySpan<byte> bytes)
    {
        try
        {
            return JsonSerializer.Deserialize(bytes, AuditJson.Default.AuditNote);
        }
        catch (JsonException)
        {
            return null;
        }
    }
}

/// <summary>What a note is about. Words of the stream's format: they are never changed.</summary>
public static class AuditWhat
{
    /// <summary>One exam.</summary>
    public const string Exam = "exam";

    /// <summary>One exam's record, in the console or as it leaves the house.</summary>
    public const string Record = "record";

    /// <summary>A single entry of the journal.</summary>
    public const string Raw = "raw";

    /// <summary>One patient.</summary>
    public const string Patient = "patient";

    /// <summary>One patient's visits.</summary>
    public const string History = "history";

    /// <summary>A list of patients.</summary>
    public const string Patients = "patients";

    /// <summary>A list of exams.</summary>
    public const string Exams = "exams";

    /// <summary>A day's list.</summary>
    public const string Day = "day";

    /// <summary>Records one after the other, for a table.</summary>
    public const string Table = "table";

    /// <summary>A lane, or all of them, with whoever is before the instrument.</summary>
    public const string Lane = "lane";

    /// <summary>What is on its way to other systems.</summary>
    public const string Outbox = "outbox";

    /// <summary>The audit stream itself.</summary>
    public const string Audit = "audit";

    /// <summary>Something that the caller's roles or scopes do not allow; it was not shown.</summary>
    public const string NotAllowed = "not-allowed";

    /// <summary>Somebody signed in.</summary>
    public const string SignedIn = "signed-in";

    /// <summary>Somebody signed off, or was signed off.</summary>
    public const string SignedOff = "signed-off";

    /// <summary>A sign-in was refused.</summary>
    public const string Refused = "refused";

    /// <summary>A person's roles, password or right to sign in, or a program's key, was changed.</summary>
    public const string Person = "person";

    /// <summary>All of them.</summary>
    public static IReadOnlyList<string> All { get; } =
    [
        Exam,
        Record,
        Raw,
        Patient,
        History,
        Patients,
        Exams,
        Day,
        Table,
        Lane,
        Outbox,
        Audit,
        NotAllowed,
        SignedIn,
        SignedOff,
        Refused,
        Person,
    ];
}

/// <summary>By which way something was seen.</summary>
public static class AuditWay
{
    /// <summary>A page in a browser.</summary>
    public const string Page = "page";

    /// <summary>The web API.</summary>
    public const string Api = "api";

    /// <summary>A command on this machine.</summary>
    public const string Command = "command";

    /// <summary>The service itself.</summary>
    public const string Service = "service";

    /// <summary>All of them.</summary>
    public static IReadOnlyList<string> All { get; } = [Page, Api, Command, Service];
}

/// <summary>How notes are written.</summary>
[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingDefault
)]
[JsonSerializable(typeof(AuditNote))]
internal sealed partial class AuditJson : JsonSerializerContext;
