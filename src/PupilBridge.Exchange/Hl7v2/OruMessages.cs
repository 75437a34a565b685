using System.Globalization;
using Hl7.Fhir.Model;
using PupilBridge.Clinic.Outgoing;
using PupilBridge.Exchange.Fhir;

namespace PupilBridge.Exchange.Hl7v2;

/// <summary>
/// A record as an HL7 v2.5.1 ORU^R01 message, for systems that take nothing else. It is written from the FHIR document, which has
/// passed its checks, so that both say the same.
/// </summary>
/// <remarks>
/// Segments and fields follow HL7 v2.5.1, chapters 2, 3 and 7, from memory; OBX-20 (observation site) is taken from v2.7, where that
/// field was added, as profiles of v2.6 do.
/// </remarks>
public static class OruMessages
{
    /// <summary>What the media type of such a message is.</summary>
    public const string MediaType = "x-application/hl7-v2+er7";

    /// <summary>Writes a record.</summary>
    /// <param name="outgoing">The record.</param>
    /// <param name="settings">The clinic's settings.</param>
    /// <returns>The message in Unicode; segments end with a carriage return.</returns>
    /// <exception cref="RecordNotSentException">It was set aside, or contradicts itself; the message says what to do.</exception>
    public static string Of(OutgoingRecord outgoing, FhirSettings settings)
    {
        ArgumentNullException.ThrowIfNull(settings);
        var document = FhirBundles.Document(outgoing, settings);
        var segments = new Hl7Segments();
        Header(segments, outgoing);
        Patient(segments, outgoing);
        // O: the patient comes to the clinic and goes home again (table 0004).
        segments.Add("PV1", (1, "1"), (2, "O"));
        Order(segments, outgoing, document);
        new ObservationSegments(segments, document).Add();
        return segments.ToString();
    }

    private static void Header(Hl7Segments segments, OutgoingRecord outgoing) =>
        segments.Add(
            "MSH",
            (2, @"^~\&"),
            (3, "PUPILBRIDGE"),
            (7, Hl7Text.Time(FhirTimes.Of(outgoing))),
            (9, "ORU^R01^ORU_R01"),
            // The same record always has the same control id: a receiver can tell a repeat.
            (10, string.Create(CultureInfo.InvariantCulture, $"E{outgoing.Record.Exam}V{outgoing.Record.Version}")),
            (11, "P"),
            (12, "2.5.1"),
            (18, "UNICODE UTF-8")
        );

    private static void Patient(Hl7Segments segments, OutgoingRecord outgoing)
    {
        var known = outgoing.Patient;
        segments.Add(
            "PID",
            (1, "1"),
            (3, Numbers(outgoing)),
            // The clinic keeps a name as one text; it stands where the family name does. U: no name is given.
            (5, known?.Name is { } name ? Hl7Text.Components(name) : "^^^^^^U"),
            (7, known?.BirthDate?.ToString("yyyyMMdd", CultureInfo.InvariantCulture))
        );
    }

    /// <summary>The number of the exam's patient; and, as a repetition, the one that goes on where it is merged into it.</summary>
    private static string? Numbers(OutgoingRecord outgoing) =>
        outgoing.Record.Patient is { } number
            ? string.Join(
                '~',
                new[] { number, outgoing.Patient?.MergedInto }
                    .OfType<string>()
                    .Select(one => Hl7Text.Components(one, null, null, null, "PI"))
            )
            : null;

    private static void Order(Hl7Segments segments, OutgoingRecord outgoing, Bundle document)
    {
        var record = outgoing.Record;
        var report = document.Entry.Select(e => e.Resource).OfType<DiagnosticReport>().Single();
        segments.Add(
            "OBR",
            (1, "1"),
            // The same order in every version: a corrected result (OBR-25) takes the place of the one before.
            (3, record.Exam.ToString(CultureInfo.InvariantCulture)),
            (4, Hl7Codes.Of(report.Code)),
            (7, Hl7Text.Time(FhirTimes.Read(record.Opened.At))),
            (8, record.Closed is { } end ? Hl7Text.Time(FhirTimes.Read(end.At)) : null),
            (22, Hl7Text.Time(FhirTimes.Of(outgoing))),
            (25, Hl7Codes.Status(report.Status)),
            (32, Hl7Text.Escape(outgoing.Signature?.Who))
        );
        var line = 0;
        foreach (var text in record.Chart.Block)
        {
            segments.Add("NTE", (1, Hl7Segments.Number(++line)), (2, "L"), (3, Hl7Text.Escape(text)));
        }
    }
}
