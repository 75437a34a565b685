using System.Runtime.CompilerServices;
using System.Threading.Channels;

namespace PupilBridge.Worker.Live;

/// <summary>The changes that one listener gets. Dispose it to stop listening.</summary>
/// <typeparam name="T">What is told.</typeparam>
public sealed class LiveSubscription<T> : IDisposable
{
    private readonly ChannelReader<T> reader;
    private readonly Action forget;

    internal LiveSubscription(ChannelReader<T> reader, Action forget)
    {
        this.reader = reader;
        this.forget = forget;
    }

    /// <summary>The changes as they come, until disposed.</summary>
    /// <param name="cancellation">Ends the wait for a change.</param>
    /// <returns>The changes in order.</returns>
    /// <exception cref="ListenerTooSlowException">
    /// The listener fell behind and was dropped; changes told before that come first. Listen again to start over from a
    /// new snapshot.
    /// </exception>
    public async IAsyncEnumerable<T> ReadAllAsync([EnumeratorCancellation] CancellationToken cancellation = default)
    {
        while (await reader.WaitToReadAsync(cancellation).ConfigureAwait(false))
        {
            while (reader.TryRead(out var change))
                yield return change;
        }
    }

    /// <summary>The next change if there is one already.</summary>
    /// <param name="change">The change.</param>
    /// <returns>Whether there was one.</returns>
    public bool TryRead([System.Diagnostics.CodeAnalysis.MaybeNullWhen(false)] out T change) =>
        reader.TryRead(out change);

    /// <inheritdoc/>
    public void Dispose() => forget();
}
