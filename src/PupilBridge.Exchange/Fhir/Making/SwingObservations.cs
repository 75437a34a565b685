using Hl7.Fhir.Model;
using PupilBridge.Exams.Records;
using PupilBridge.Instrument;

namespace PupilBridge.Exchange.Fhir.Making;

/// <summary>The swinging-flashlight test: one observation for each dwell, and one for what they come to.</summary>
/// <param name="bundle">The record's bundle.</param>
/// <param name="maker">Makes observations.</param>
internal sealed class SwingObservations(RecordBundle bundle, ObservationMaker maker)
{
    public IEnumerable<ResourceReference> Add()
    {
        var swinging = bundle.Record.Swinging;
        ResourceReference[] dwells = [.. swinging.Dwells.Select(Add)];
        return [.. dwells, Whole(swinging, dwells)];
    }

    private ResourceReference Add(RecordDwell dwell)
    {
        var judgement = bundle.Record.Judgements.FirstOrDefault(j => j.Sequence == dwell.Sequence);
        var observation = maker.Make(
            "swinging-flashlight",
            $"swinging/{dwell.Dwell}",
            bundle.Concepts.Of("swinging-dwell", text: FhirWords.Of($"Dwell.{dwell.Dwell}")),
            judgement?.At
        );
        observation.BodySite = bundle.Concepts.Of("pupils-both");
        observation.Performer = bundle.People(judgement?.Who);
        switch (dwell.Finding)
        {
            case null:
                observation.DataAbsentReason = maker.Absent(dwell.Dwell, null);
                return maker.Add(observation);
            case "could-not-see":
                observation.DataAbsentReason = maker.CouldNotSee;
                break;
            default:
                observation.Value = bundle.Concepts.Of(dwell.Finding);
                break;
        }

        Circumstances(observation, dwell, judgement);
        return maker.Add(observation);
    }

    private void Circumstances(Observation observation, RecordDwell dwell, RecordJudgement? judgement)
    {
        if (bundle.Record.Runs.FirstOrDefault(r => r.Block == dwell.Dwell && r.Run == dwell.Run) is { } run)
        {
            maker.Component(observation, "dwell", Concepts.Quantity(run.WantedDwellMilliseconds / 1000m, "s"));
        }

        maker.Component(observation, "timely", new FhirBoolean(dwell.IsTimely));
        maker.Component(observation, "differs-from-before", new FhirBoolean(dwell.DiffersFromBefore));
        if (judgement is null)
        {
            return;
        }

        if (judgement.Watched is { } watched)
        {
            maker.Component(observation, "pupils-watched", SideOrBoth(watched));
        }

        maker.Surroundings(observation, judgement.Light, judgement.Fixation);
    }

    private ResourceReference Whole(RecordSwinging swinging, IEnumerable<ResourceReference> dwells)
    {
        var observation = maker.Make(
            "swinging-flashlight",
            "swinging",
            bundle.Concepts.Of("swinging-test", text: FhirWords.Of("Swinging")),
            null
        );
        observation.BodySite = bundle.Concepts.Of("pupils-both");
        observation.DerivedFrom = [.. dwells.Select(d => d.Again())];
        observation.Note = [.. BenchNotes.Lamps(bundle.Record)];
        switch (swinging.State)
        {
            case "not-examined":
                observation.DataAbsentReason = maker.Absent("swing-short", null);
                break;
            case "could-not-see":
                observation.DataAbsentReason = maker.CouldNotSee;
                break;
            default:
                observation.Value = bundle.Concepts.Of(swinging.State == "seen" ? "defect-seen" : swinging.State);
                break;
        }

        // Only where a defect is claimed: what looked worse is said at its dwell.
        if (swinging is { State: "seen", Eye: { } eye })
        {
            maker.Component(observation, "defect-eye", SideOrBoth(eye));
        }

        return maker.Add(observation);
    }

    private CodeableConcept SideOrBoth(string word) =>
        word switch
        {
            "right" => bundle.Concepts.Side(Eye.Right),
            "left" => bundle.Concepts.Side(Eye.Left),
            _ => bundle.Concepts.Of("both"),
        };
}
