using System.Globalization;
using System.Text;
using System.Text.Json.Serialization;
using PupilBridge.Exams.Entries;
using PupilBridge.Exams.Entries.Sealing;
using PupilBridge.Worker.SubjectKeys;

namespace PupilBridge.Clinic.Erasing.Proposals;

/// <summary>
/// A proposal as it stands in its file. The patient's number is sealed under the patient's own key, as in the audit trail, and bound to all the
/// rest; the erasure takes it along. Who ordered it and why stay readable by the rule that they must not say who the patient is.
/// </summary>
internal sealed record StoredProposal
{
    /// <summary>Its name: the id that the order's entry will have.</summary>
    public required string Id { get; init; }

    /// <summary>Who proposed it.</summary>
    public required string By { get; init; }

    /// <summary>When, in UTC.</summary>
    public required DateTimeOffset At { get; init; }

    /// <summary>Who ordered it.</summary>
    public required string OrderedBy { get; init; }

    /// <summary>Why.</summary>
    public required string Reason { get; init; }

    /// <summary>The number, sealed.</summary>
    public byte[] Number { get; init; } = [];

    /// <summary>The proposal with a number sealed in it.</summary>
    /// <exception cref="IOException">The patient's key cannot be read.</exception>
    public StoredProposal Sealed(PatientId number, SubjectKeyStore keys) =>
        this with
        {
            Number = NotedNumbers.Write([keys.ToNote(number)], Rest()),
        };

    /// <summary>The number.</summary>
    /// <returns>Null where the patient was erased since, or where the number cannot be read.</returns>
    public string? Opened(ISubjectKeys keys) =>
        NotedNumbers.Read(Number) is [var noted]
        && NotedNumbers.Open(noted, Rest(), keys) is var number
        && !SealedNumbers.IsReserved(number)
            ? number
            : null;

    private byte[] Rest() =>
        Encoding.UTF8.GetBytes(
            string.Join('\n', Id, By, At.ToString("O", CultureInfo.InvariantCulture), OrderedBy, Reason)
        );
}

/// <summary>How proposals are written.</summary>
[JsonSourceGenerationOptions(PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase)]
[JsonSerializable(typeof(List<StoredProposal>))]
internal sealed partial class ProposalJson : JsonSerializerContext;
