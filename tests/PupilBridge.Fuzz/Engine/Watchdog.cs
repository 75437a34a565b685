using System.Diagnostics;

namespace PupilBridge.Fuzz.Engine;

/// <summary>Sees that no input takes for ever: it looks from outside whether a worker is still at the input at which it was.</summary>
internal sealed class Watchdog : IDisposable
{
    private readonly List<Watched> watched = [];
    private readonly Timer timer;

    /// <param name="patience">How long one input may take. Far longer than any needs, since the machine may be busy.</param>
    /// <param name="onHang">Told of an input that takes longer, once.</param>
    public Watchdog(TimeSpan patience, Action<string, byte[]> onHang) =>
        timer = new Timer(_ => Look(patience, onHang), null, patience / 4, patience / 4);

    /// <summary>A worker that is looked after.</summary>
    public Watched Watch(string target)
    {
        var one = new Watched(target);
        lock (watched)
            watched.Add(one);
        return one;
    }

    public void Dispose() => timer.Dispose();

    private void Look(TimeSpan patience, Action<string, byte[]> onHang)
    {
        lock (watched)
        {
            foreach (var one in watched)
            {
                if (one.HangsFor(patience) is { } input)
                    onHang(one.Target, input);
            }
        }
    }

    /// <summary>One worker, and the input at which it is. The worker writes, the watchdog reads; a torn reading is told apart by the number.</summary>
    internal sealed class Watched(string target)
    {
        private long number;
        private long lookedAt = -1;
        private long since;
        private bool told;
        private byte[] input = [];
        private int length;

        public string Target => target;

        /// <summary>The worker begins with an input, which stands in a buffer of its own.</summary>
        public void Begin(byte[] buffer, int count)
        {
            input = buffer;
            length = count;
            Volatile.Write(ref number, number + 1);
        }

        /// <summary>The worker is at rest.</summary>
        public void Rest() => Volatile.Write(ref length, -1);

        public byte[]? HangsFor(TimeSpan patience)
        {
            var now = Volatile.Read(ref number);
            if (now != lookedAt || Volatile.Read(ref length) < 0)
            {
                (lookedAt, since, told) = (now, Stopwatch.GetTimestamp(), false);
                return null;
            }

            if (told || Stopwatch.GetElapsedTime(since) < patience)
                return null;
            told = true;
            return input.AsSpan(0, length).ToArray();
        }
    }
}
