using System.Globalization;
using Hl7.Fhir.Model;
using PupilBridge.Exams.Records;
using PupilBridge.Instrument;

namespace PupilBridge.Exchange.Fhir.Making;

/// <summary>One observation for what each criterion said: its verdict, the numbers compared, its sentence, cautions and sources.</summary>
/// <param name="bundle">The record's bundle.</param>
/// <param name="maker">Makes observations.</param>
internal sealed class FindingObservations(RecordBundle bundle, ObservationMaker maker)
{
    private static readonly string[] Units = ["mm", "s"];

    public IEnumerable<ResourceReference> Add() => bundle.Record.Findings.Select(Add);

    private ResourceReference Add(RecordFinding finding)
    {
        var observation = maker.Make(
            "pupil-finding",
            Key(finding),
            bundle.Concepts.Criterion(finding.Criterion, FhirWords.Of("Finding", finding.Criterion, finding.Verdict)),
            null
        );
        observation.BodySite = Eye(finding) is { } eye ? bundle.Concepts.Pupil(eye) : bundle.Concepts.Of("pupils-both");
        if (finding.Verdict == "not-examined")
        {
            observation.DataAbsentReason = bundle.Concepts.Absent("not-performed", "not-examined");
        }
        else
        {
            observation.Value = bundle.Concepts.Of(finding.Verdict);
        }

        Numbers(observation, finding);
        maker.Surroundings(observation, finding.Light, null);
        Word(observation, "block", finding.Block);
        Word(observation, "reason", finding.Reason);
        observation.Note = [.. Texts(finding).Select(text => new Annotation { Text = text })];
        return maker.Add(observation);
    }

    // What is found of one eye names it in its key; a finding about both may name the eye that was found, as part of the key as well.
    private static string Key(RecordFinding finding) =>
        string.Join(
            '/',
            new[] { "finding", finding.Criterion, finding.Eye, finding.Light, finding.Block }.Where(p => p is not null)
        );

    private void Numbers(Observation observation, RecordFinding finding)
    {
        Number(observation, "compared-value", finding.Value, finding.Unit);
        Number(observation, "expanded-uncertainty", finding.ExpandedUncertainty, finding.Unit);
        Number(observation, "limit", finding.Limit, finding.Unit);
    }

    // A unit that is not on the list of units stands as text, with the number as it is in the record.
    private void Number(Observation observation, string code, string? number, string? unit)
    {
        if (number is null)
        {
            return;
        }

        DataType value = Units.Contains(unit)
            ? Concepts.Quantity(decimal.Parse(number, CultureInfo.InvariantCulture), unit!)
            : new FhirString($"{number} {unit}".TrimEnd());
        maker.Component(observation, code, value);
    }

    private void Word(Observation observation, string code, string? word)
    {
        if (word is not null)
        {
            maker.Component(observation, code, new FhirString(word));
        }
    }

    private static IEnumerable<string> Texts(RecordFinding finding)
    {
        yield return finding.Sentence;
        foreach (var caution in finding.Cautions)
        {
            yield return caution;
        }

        if (finding.FurtherLook.Length > 0)
        {
            yield return finding.FurtherLook;
        }

        if (finding.Sources.Count > 0)
        {
            yield return FhirWords.Of("Sources", string.Join("; ", finding.Sources));
        }
    }

    private static Eye? Eye(RecordFinding finding) =>
        finding.Eye switch
        {
            "right" => Instrument.Eye.Right,
            "left" => Instrument.Eye.Left,
            _ => null,
        };
}
