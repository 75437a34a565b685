namespace PupilBridge.Exchange.Tables.Writing;

/// <summary>Writes a table row by row and keeps none. Disposing of it writes out what is still waiting and leaves the stream open.</summary>
/// <typeparam name="T">What a row is made of.</typeparam>
internal interface IRowSink<in T> : IAsyncDisposable
{
    /// <summary>Writes what stands before the first row.</summary>
    Task BeginAsync(CancellationToken cancellation);

    /// <summary>Writes a row.</summary>
    Task WriteAsync(T row, CancellationToken cancellation);
}
