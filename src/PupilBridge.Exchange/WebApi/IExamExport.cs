using PupilBridge.Clinic.Outgoing;
using PupilBridge.Exchange.Paper;

namespace PupilBridge.Exchange.WebApi;

/// <summary>
/// A form in which one exam leaves the house by the web API: a report, a FHIR document, a message. Whoever registers one as a service has it
/// answered at <c>/api/v1/exams/N/exports/NAME</c>, with the same guard as everything about exams, and described in the OpenAPI document.
/// </summary>
/// <remarks>It is made when routes are mapped; whatever takes long to load must wait for the first <see cref="Write"/>.</remarks>
public interface IExamExport
{
    /// <summary>Its name in the address: lower case with hyphens.</summary>
    string Name { get; }

    /// <summary>What it is, in a sentence for the list of exports and the OpenAPI document.</summary>
    string What { get; }

    /// <summary>The media type of what it writes, without parameters.</summary>
    string MediaType { get; }

    /// <summary>Whether it is text in UTF-8.</summary>
    bool IsText { get; }

    /// <summary>With what the name of a file of it ends, without the point.</summary>
    string Ending { get; }

    /// <summary>Whether it is made for a sheet, which can be chosen then.</summary>
    bool HasPaper { get; }

    /// <summary>Writes an exam. The same record, journal head and sheet always give the same bytes.</summary>
    /// <param name="exam">The exam.</param>
    /// <param name="paper">The sheet; of no weight where <see cref="HasPaper"/> is false.</param>
    /// <exception cref="RecordNotSentException">This exam cannot leave so; the message says why and what to do.</exception>
    byte[] Write(OutgoingRecord exam, ReportPaper paper);
}
