using PupilBridge.Clinic;
using PupilBridge.Exchange.Tables.Writing;

namespace PupilBridge.Exchange.Tables;

/// <summary>How a table is written.</summary>
public enum TableFormat
{
    /// <summary>RFC 4180.</summary>
    Csv = 1,

    /// <summary>One JSON object on each line.</summary>
    JsonLines = 2,
}

/// <summary>Which exams go into a table.</summary>
/// <param name="From">Only exams opened at this time or later; null for no limit.</param>
/// <param name="Before">Only exams opened before this time; null for no limit.</param>
public sealed record TableSpan(DateTimeOffset? From, DateTimeOffset? Before);

/// <summary>What was written.</summary>
/// <param name="Exams">How many exams were read.</param>
/// <param name="Rows">How many rows were written, headings not counted.</param>
/// <param name="Withheld">How many exams were left out because the text of their signed record has been erased.</param>
public sealed record TableCount(long Exams, long Rows, long Withheld);

/// <summary>
/// Writes tables from the exam log, page by page: what is held in memory does not grow with the number of exams. The latest opened exam
/// stands first; an exam that opens meanwhile is not in it.
/// </summary>
public static class TableExport
{
    /// <summary>Writes a table.</summary>
    /// <typeparam name="T">What a row is made of.</typeparam>
    /// <param name="table">The table.</param>
    /// <param name="pages">Where exams come from.</param>
    /// <param name="span">Which exams.</param>
    /// <param name="format">How it is written.</param>
    /// <param name="to">Where to; it stays open.</param>
    /// <param name="cancellation">Gives up; what was written stays written.</param>
    /// <returns>How much was written.</returns>
    /// <exception cref="EntryProblemException">Exams cannot be read now; the message says why.</exception>
    public static async Task<TableCount> WriteAsync<T>(
        Table<T> table,
        IOutgoingPages pages,
        TableSpan span,
        TableFormat format,
        Stream to,
        CancellationToken cancellation
    )
    {
        ArgumentNullException.ThrowIfNull(table);
        ArgumentNullException.ThrowIfNull(pages);
        ArgumentNullException.ThrowIfNull(span);
        ArgumentNullException.ThrowIfNull(to);
        var (exams, rows, withheld) = (0L, 0L, 0L);
        IRowSink<T> sink =
            format == TableFormat.Csv ? new CsvSink<T>(to, table.Columns) : new JsonLinesSink<T>(to, table.Columns);
        await using (sink.ConfigureAwait(false))
        {
            await sink.BeginAsync(cancellation).ConfigureAwait(false);
            await foreach (var page in OutgoingStream.ReadAsync(pages, span, cancellation).ConfigureAwait(false))
            {
                withheld += page.Withheld;
                exams += page.Records.Count + page.Withheld;
                foreach (var row in page.Records.SelectMany(table.Rows))
                {
                    await sink.WriteAsync(row, cancellation).ConfigureAwait(false);
                    rows++;
                }
            }
        }

        return new TableCount(exams, rows, withheld);
    }
}
