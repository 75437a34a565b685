using Hl7.Fhir.Model;
using PupilBridge.Instrument;

namespace PupilBridge.Exchange.Fhir.Making;

/// <summary>The state of each eye before the test, which says what of the exam can be relied on.</summary>
/// <param name="bundle">The record's bundle.</param>
/// <param name="maker">Makes observations.</param>
internal sealed class EyeStatusObservations(RecordBundle bundle, ObservationMaker maker)
{
    private static readonly Eye[] Eyes = [Eye.Right, Eye.Left];

    public IEnumerable<ResourceReference> Add()
    {
        foreach (var eye in Eyes)
        {
            var status = bundle.Record.EyeStatuses.FirstOrDefault(s => s.Counts && s.Eye == Concepts.Word(eye));
            var observation = maker.Make(
                "pupil-exam-observation",
                $"eye-status/{Concepts.Word(eye)}",
                bundle.Concepts.Of("eye-status", text: FhirWords.Of("EyeStatus", FhirWords.Of($"Eye.{eye}"))),
                status?.At
            );
            observation.BodySite = bundle.Concepts.Pupil(eye);
            observation.Performer = bundle.People(status?.Who);
            if (status is null)
            {
                observation.DataAbsentReason = bundle.Concepts.Absent("not-performed", "not-examined");
            }
            else
            {
                observation.Value = new FhirString(status.Conditions);
            }

            yield return maker.Add(observation);
        }
    }
}
