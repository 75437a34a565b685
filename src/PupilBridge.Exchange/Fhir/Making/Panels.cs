using Hl7.Fhir.Model;

namespace PupilBridge.Exchange.Fhir.Making;

/// <summary>Observations that hold others together.</summary>
/// <param name="bundle">The record's bundle.</param>
/// <param name="maker">Makes observations.</param>
internal sealed class Panels(RecordBundle bundle, ObservationMaker maker)
{
    /// <summary>The panel of all that was measured and judged, with remarks and what went wrong.</summary>
    public ResourceReference Exam(IEnumerable<ResourceReference> members, Devices devices)
    {
        var record = bundle.Record;
        var panel = Panel("exam-panel", members);
        panel.Device = devices.Instrument.Again();
        panel.Performer = bundle.People(record.Opened.Who);
        panel.Note = [.. Remarks(), .. Incidents()];
        maker.Component(panel, "program-version", new FhirString(record.ProgramVersion));
        maker.Component(
            panel,
            "profile-in-force",
            new FhirString(FhirWords.Of("Profile", record.Profile.Name, record.Profile.Version))
        );
        if (record.Instrument.Firmware is { } firmware)
        {
            maker.Component(panel, "instrument-firmware", new FhirString(firmware));
        }

        return maker.Add(panel);
    }

    /// <summary>The panel of all findings; none for a record from before findings were part of it.</summary>
    public IEnumerable<ResourceReference> Findings(IReadOnlyCollection<ResourceReference> members) =>
        members.Count == 0 ? [] : [maker.Add(Panel("findings-panel", members))];

    private Observation Panel(string code, IEnumerable<ResourceReference> members)
    {
        var panel = maker.Make(code, code, bundle.Concepts.Of(code, text: FhirWords.Of($"Panel.{code}")), null);
        panel.BodySite = bundle.Concepts.Of("pupils-both");
        panel.HasMember = [.. members.Select(m => m.Again())];
        return panel;
    }

    private IEnumerable<Annotation> Remarks() =>
        bundle
            .Record.Notes.Where(n => !string.IsNullOrWhiteSpace(n.Text))
            .Select(n => new Annotation
            {
                Author = new FhirString(n.Who),
                Time = n.At,
                Text = n.Text,
            });

    private IEnumerable<Annotation> Incidents() =>
        bundle.Record.Incidents.Select(i => new Annotation
        {
            Time = i.FirstAt,
            Text = FhirWords.Of("Incident", i.Kind, i.Detail, i.Count).TrimEnd(),
        });
}
