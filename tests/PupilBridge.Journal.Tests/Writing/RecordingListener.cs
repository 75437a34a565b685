using System.Collections.Concurrent;

namespace PupilBridge.Journal.Tests.Writing;

/// <summary>Remembers what it was told, in order.</summary>
internal sealed class RecordingListener : IDurableListener
{
    public ConcurrentQueue<(long Tag, long Sequence)> Durable { get; } = [];

    public ConcurrentQueue<(long Tag, string Reason)> Refused { get; } = [];

    public void OnDurable(long tag, long sequence) => Durable.Enqueue((tag, sequence));

    public void OnNotRecorded(long tag, string reason) => Refused.Enqueue((tag, reason));
}
