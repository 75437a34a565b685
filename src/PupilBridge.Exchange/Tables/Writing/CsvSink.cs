using CsvHelper;

namespace PupilBridge.Exchange.Tables.Writing;

/// <summary>A table as CSV: RFC 4180, UTF-8 without a byte-order mark, a line of headings, CRLF.</summary>
internal sealed class CsvSink<T>(Stream to, IReadOnlyList<Column<T>> columns) : IRowSink<T>
{
    private readonly CsvWriter csv = CsvWriter.Create(
        to,
        new CsvWriterOptions
        {
            NewLine = "\r\n",
            WriteByteOrderMark = false,
            // A row is a few kilobytes, so that the buffer is written out between rows and never within one.
            BufferSize = 1 << 17,
            // Which cells are guarded is said by their column; the library would guard negative numbers as well.
            Injection = CsvInjection.None,
        },
        true
    );

    /// <inheritdoc/>
    public async Task BeginAsync(CancellationToken cancellation)
    {
        foreach (var column in columns)
        {
            csv.WriteField(column.Name);
        }

        await csv.EndRecordAsync(cancellation).ConfigureAwait(false);
    }

    /// <inheritdoc/>
    public async Task WriteAsync(T row, CancellationToken cancellation)
    {
        foreach (var column in columns)
        {
            var value = column.Value(row).ToString();
            csv.WriteField(column.Kind == CellKind.Text ? FormulaGuard.Guarded(value) : value);
        }

        await csv.EndRecordAsync(cancellation).ConfigureAwait(false);
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync() => await csv.DisposeAsync().ConfigureAwait(false);
}
