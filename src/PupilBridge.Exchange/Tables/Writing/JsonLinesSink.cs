using System.Buffers;
using System.Text.Encodings.Web;
using System.Text.Json;

namespace PupilBridge.Exchange.Tables.Writing;

/// <summary>
/// A table as JSON Lines: one object on each line, UTF-8, line feed. Every column is there in every row; an empty cell is null, numbers
/// are numbers, yes and no are true and false.
/// </summary>
internal sealed class JsonLinesSink<T>(Stream to, IReadOnlyList<Column<T>> columns) : IRowSink<T>
{
    private const int WriteFrom = 1 << 15;
    private static readonly JsonWriterOptions Options = new()
    {
        // A file that a program reads, never part of a page.
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    private readonly ArrayBufferWriter<byte> waiting = new(WriteFrom * 2);
    private readonly JsonEncodedText[] names =
    [
        .. columns.Select(column => JsonEncodedText.Encode(column.Name, JavaScriptEncoder.UnsafeRelaxedJsonEscaping)),
    ];

    /// <inheritdoc/>
    public Task BeginAsync(CancellationToken cancellation) => Task.CompletedTask;

    /// <inheritdoc/>
    public async Task WriteAsync(T row, CancellationToken cancellation)
    {
        Put(row);
        if (waiting.WrittenCount >= WriteFrom)
        {
            await FlushAsync(cancellation).ConfigureAwait(false);
        }
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync() => await FlushAsync(CancellationToken.None).ConfigureAwait(false);

    private void Put(T row)
    {
        using (var json = new Utf8JsonWriter(waiting, Options))
        {
            json.WriteStartObject();
            for (var i = 0; i < names.Length; i++)
            {
                Put(json, names[i], columns[i].Value(row));
            }

            json.WriteEndObject();
        }

        waiting.GetSpan(1)[0] = (byte)'\n';
        waiting.Advance(1);
    }

    private static void Put(Utf8JsonWriter json, JsonEncodedText name, Cell cell)
    {
        if (cell.IsEmpty)
        {
            json.WriteNull(name);
        }
        else if (cell.IsNumber)
        {
            json.WriteNumber(name, cell.Number);
        }
        else if (cell.IsYesNo)
        {
            json.WriteBoolean(name, cell.IsYes);
        }
        else
        {
            json.WriteString(name, cell.ToString());
        }
    }

    private async Task FlushAsync(CancellationToken cancellation)
    {
        await to.WriteAsync(waiting.WrittenMemory, cancellation).ConfigureAwait(false);
        waiting.ResetWrittenCount();
    }
}
