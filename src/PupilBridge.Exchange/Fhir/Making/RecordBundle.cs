using System.Globalization;
using Hl7.Fhir.Model;
using PupilBridge.Clinic.Outgoing;
using PupilBridge.Exams.Records;

namespace PupilBridge.Exchange.Fhir.Making;

/// <summary>What the makers of single resources share while one record becomes a bundle.</summary>
internal sealed class RecordBundle
{
    private readonly List<BundleMember> members = [];
    private readonly Dictionary<string, ResourceReference> people = new(StringComparer.Ordinal);

    public RecordBundle(OutgoingRecord outgoing, FhirSettings settings)
    {
        (Outgoing, Settings, Concepts) = (outgoing, settings, new Concepts(settings));
        Exam = Record.Exam.ToString(CultureInfo.InvariantCulture);
        Key = string.Create(CultureInfo.InvariantCulture, $"{Record.Exam}/{Record.Version}");
    }

    public OutgoingRecord Outgoing { get; }

    public FhirSettings Settings { get; }

    public Concepts Concepts { get; }

    public SignedRecord Record => Outgoing.Record;

    /// <summary>The exam, by which the report and its observations are known in all their versions.</summary>
    public string Exam { get; }

    /// <summary>The exam and version, by which this record and its signature are known.</summary>
    public string Key { get; }

    public bool IsDraft => Outgoing.Signature is null;

    public bool IsAmended => Record.Version > 1;

    public IReadOnlyList<BundleMember> Members => members;

    /// <summary>Whom the record is about.</summary>
    public ResourceReference Subject { get; set; } = new();

    public ObservationStatus Status =>
        IsDraft ? ObservationStatus.Preliminary
        : IsAmended ? ObservationStatus.Amended
        : ObservationStatus.Final;

    /// <summary>The time of the exam as a whole.</summary>
    public Period Sitting => new() { Start = Record.Opened.At, End = Record.Closed?.At };

    /// <summary>Adds a resource that is found again by an identifier.</summary>
    /// <param name="resource">The resource, which must bear the identifier.</param>
    /// <param name="identifier">The identifier.</param>
    /// <param name="display">What a reference to it says.</param>
    public ResourceReference Add(Resource resource, Identifier identifier, string? display = null) =>
        Add(resource, identifier.System ?? "", identifier.Value ?? "", "identifier", display);

    /// <summary>Adds a resource that is found again by some token.</summary>
    public ResourceReference Add(Resource resource, string system, string value, string parameter, string? display)
    {
        var id = NamedIds.Of(system, value);
        var token = Uri.EscapeDataString($"{system}|{value}");
        members.Add(new BundleMember(id, resource, $"{parameter}={token}"));
        return new ResourceReference($"urn:uuid:{id}") { Display = display };
    }

    /// <summary>An identifier of the house.</summary>
    public Identifier Identify(string kind, string value) => new(Settings.Of(kind), value);

    /// <summary>A reference to a person of the clinic, who is added when first named.</summary>
    public ResourceReference Person(string who)
    {
        if (!people.TryGetValue(who, out var known))
        {
            var identifier = Identify("person", who);
            known = Add(
                new Practitioner { Identifier = [identifier], Name = [new HumanName { Text = who }] },
                identifier,
                who
            );
            people.Add(who, known);
        }

        return new ResourceReference(known.Reference) { Display = known.Display };
    }

    /// <summary>The person as a list, empty for nobody.</summary>
    public List<ResourceReference> People(string? who) => who is null ? [] : [Person(who)];
}
