using PupilBridge.Clinic.Outgoing;

namespace PupilBridge.Exchange.WebApi;

/// <summary>
/// A form in which one exam leaves the house by the web API: a report, a FHIR document, a message. Whoever registers one as a service has it
/// answered at <c>/api/v1/exams/N/exports/NAME</c>, with the same guard as everything about exams.
/// </summary>
public interface IExamExport
{
    /// <summary>Its name in the address: lower case with hyphens.</summary>
    string Name { get; }

    /// <summary>What it is, in a few words for the list of exports.</summary>
    string What { get; }

    /// <summary>The media type of what it writes.</summary>
    string MediaType { get; }

    /// <summary>Writes an exam.</summary>
    /// <param name="exam">The exam.</param>
    /// <param name="cancellation">Gives up.</param>
    /// <exception cref="Clinic.EntryProblemException">This exam cannot leave so; the message says why.</exception>
    Task<byte[]> WriteAsync(OutgoingRecord exam, CancellationToken cancellation);
}
