using System.Globalization;
using Hl7.Fhir.Model;
using PupilBridge.Exams.Records;
using PupilBridge.Instrument;

namespace PupilBridge.Exchange.Fhir.Making;

/// <summary>One observation for each eye and what a person judges of it: shape, direct, consensual and near response.</summary>
/// <param name="bundle">The record's bundle.</param>
/// <param name="maker">Makes observations.</param>
internal sealed class JudgementObservations(RecordBundle bundle, ObservationMaker maker)
{
    private static readonly Eye[] Eyes = [Eye.Right, Eye.Left];

    public IEnumerable<ResourceReference> Add()
    {
        foreach (var eye in Eyes)
        {
            var (judged, word) = (bundle.Record.Judgements.Where(j => j.Counts), Concepts.Word(eye));
            RecordJudgement? Of(string what) => judged.FirstOrDefault(j => j.Judged == what && j.Eye == word);
            yield return Add("shape", "pupil-shape", eye, eye, Of("shape"));
            yield return Add("direct", "direct-response", eye, eye, Of("direct"));
            // The record names the pupil that was watched; the step asks for the eye that was lit.
            yield return Add("consensual", "consensual-response", eye, eye.Fellow(), Of("consensual"));
            yield return Add("near", "near-response", eye, eye, Of("near"));
            if (Of("slow-to-dilate") is { } slow)
            {
                yield return Add("slow-to-dilate", "slow-to-dilate", eye, eye, slow);
            }
        }
    }

    private ResourceReference Add(string step, string code, Eye eye, Eye asked, RecordJudgement? judgement)
    {
        var text = FhirWords.Of($"Judged.{step}", FhirWords.Of($"Eye.{eye}"));
        var observation = maker.Make(
            step == "shape" ? "pupil-shape" : "pupil-response",
            $"{step}/{Concepts.Word(eye)}",
            bundle.Concepts.Of(code, text: text),
            judgement?.At
        );
        observation.BodySite = bundle.Concepts.Pupil(eye);
        if (judgement is null)
        {
            observation.DataAbsentReason = maker.Absent(step, asked);
            return maker.Add(observation);
        }

        observation.Performer = bundle.People(judgement.Who);
        Answer(observation, judgement);
        maker.Surroundings(observation, judgement.Light, judgement.Fixation);
        if (step is "direct" or "consensual")
        {
            maker.Component(observation, "eye-lit", bundle.Concepts.Side(asked));
        }

        return maker.Add(observation);
    }

    private void Answer(Observation observation, RecordJudgement judgement)
    {
        switch (judgement.Answer)
        {
            case "?" or "could-not-see":
                observation.DataAbsentReason = maker.CouldNotSee;
                break;
            case "round" or "not-round" or "seen":
                observation.Value = bundle.Concepts.Of(judgement.Answer);
                break;
            default:
                var grade = decimal.Parse(judgement.Answer, CultureInfo.InvariantCulture);
                observation.Value = Concepts.Quantity(grade, "{score}");
                if (grade == decimal.Truncate(grade) && (int)grade < bundle.Record.Legend.Grades.Count)
                {
                    maker.Component(
                        observation,
                        "grade-meaning",
                        new FhirString(bundle.Record.Legend.Grades[(int)grade])
                    );
                }

                break;
        }
    }
}
