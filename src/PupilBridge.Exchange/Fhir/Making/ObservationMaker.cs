using Hl7.Fhir.Model;
using PupilBridge.Exams.Records;
using PupilBridge.Instrument;

namespace PupilBridge.Exchange.Fhir.Making;

/// <summary>What every observation of a record has in common.</summary>
/// <param name="bundle">The record's bundle.</param>
internal sealed class ObservationMaker(RecordBundle bundle)
{
    private const string Category = "http://terminology.hl7.org/CodeSystem/observation-category";

    /// <summary>An observation without value, not added yet.</summary>
    /// <param name="profile">Our profile for it.</param>
    /// <param name="key">What tells it apart within the record.</param>
    /// <param name="code">What was observed.</param>
    /// <param name="at">When; null where the sitting as a whole is all that can be said.</param>
    public Observation Make(string profile, string key, CodeableConcept code, string? at) =>
        new()
        {
            Meta = new Meta { Profile = [bundle.Settings.Profile(profile)] },
            Identifier = [bundle.Identify("observation", $"{bundle.Exam}/{key}")],
            Status = bundle.Status,
            Category = [new CodeableConcept(Category, "exam")],
            Code = code,
            Subject = bundle.Subject.Again(),
            Effective = at is null ? bundle.Sitting : new FhirDateTime(at),
        };

    /// <summary>Adds a finished observation.</summary>
    public ResourceReference Add(Observation observation) =>
        bundle.Add(observation, observation.Identifier[0], observation.Code.Text);

    /// <summary>Adds a fact of the same reading.</summary>
    public void Component(Observation to, string code, DataType value) =>
        to.Component.Add(new() { Code = bundle.Concepts.Of(code), Value = value });

    /// <summary>Adds room light and fixation where they were said.</summary>
    public void Surroundings(Observation to, string? light, string? fixation)
    {
        if (light is not null)
        {
            Component(to, "illumination", bundle.Concepts.Of(light));
        }

        if (fixation is not null)
        {
            Component(to, "fixation", bundle.Concepts.Of(fixation));
        }
    }

    /// <summary>Why nothing was observed: not examined, accepted as such, not possible.</summary>
    /// <param name="step">The step that would have brought it.</param>
    /// <param name="eye">Of which eye; null for both.</param>
    public CodeableConcept Absent(string step, Eye? eye)
    {
        var state = bundle.Record.Steps.FirstOrDefault(s => s.Step == step);
        return state switch
        {
            { State: "not-possible" } => NotPossible,
            { State: "accepted-not-examined" } => bundle.Concepts.Absent("not-performed", "accepted-not-examined"),
            // A step asks nothing of an eye that a prosthesis or a patch hides.
            { Missing.Count: var missing }
                when eye is { } one && (missing > 0 || state.State == "done") && !Misses(state, one) => NotPossible,
            _ => bundle.Concepts.Absent("not-performed", "not-examined"),
        };
    }

    /// <summary>It was looked for and could not be seen.</summary>
    public CodeableConcept CouldNotSee => bundle.Concepts.Absent("unknown", "could-not-see");

    private CodeableConcept NotPossible => bundle.Concepts.Absent("not-applicable", "not-possible");

    private static bool Misses(RecordStep step, Eye eye) => step.Missing.Contains(Concepts.Word(eye));
}
