using PupilBridge.Clinic;
using PupilBridge.Exchange.Tables;

namespace PupilBridge.Exchange.Research;

/// <summary>What an export for research came to. It says nothing by which its secret, its salt or a person could be found.</summary>
/// <param name="K">The k of k-anonymity: the fewest subjects that share what others may know of them; 0 where nothing was exported.</param>
/// <param name="QuasiIdentifiers">What others may know, in the words of the columns.</param>
/// <param name="Subjects">How many subjects.</param>
/// <param name="Exams">How many exams.</param>
/// <param name="Rows">How many rows.</param>
/// <param name="LeftOut">Exams that were not exported: not signed, set aside, attached to nobody, or erased.</param>
/// <param name="Classes">The classes, the smallest first.</param>
public sealed record ResearchReport(
    int K,
    IReadOnlyList<string> QuasiIdentifiers,
    int Subjects,
    long Exams,
    long Rows,
    long LeftOut,
    IReadOnlyList<AnonymitySize> Classes
);

/// <summary>Writes a table for research from the exam log, page by page.</summary>
public static class ResearchExport
{
    /// <summary>What others may know of a subject.</summary>
    public static IReadOnlyList<string> QuasiIdentifiers { get; } =
    ["age_band", "year of shifted_day", "whether right_status or left_status says anything"];

    /// <summary>Writes the table.</summary>
    /// <param name="isReadings">Readings instead of exams.</param>
    /// <param name="names">The names of this export.</param>
    /// <param name="pages">Where exams come from.</param>
    /// <param name="span">Which exams.</param>
    /// <param name="format">How it is written.</param>
    /// <param name="to">Where to; it stays open.</param>
    /// <param name="cancellation">Gives up.</param>
    /// <exception cref="EntryProblemException">Exams cannot be read now; the message says why.</exception>
    public static async Task<ResearchReport> WriteAsync(
        bool isReadings,
        Pseudonyms names,
        IOutgoingPages pages,
        TableSpan span,
        TableFormat format,
        Stream to,
        CancellationToken cancellation
    )
    {
        var counted = new AnonymityCount();
        var written = isReadings
            ? await TableExport
                .WriteAsync(ResearchTables.Readings(names, counted.Add), pages, span, format, to, cancellation)
                .ConfigureAwait(false)
            : await TableExport
                .WriteAsync(ResearchTables.Exams(names, counted.Add), pages, span, format, to, cancellation)
                .ConfigureAwait(false);
        return new ResearchReport(
            counted.Smallest,
            QuasiIdentifiers,
            counted.Subjects,
            counted.Exams,
            written.Rows,
            written.Exams - counted.Exams,
            counted.Classes
        );
    }
}
