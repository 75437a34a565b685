using System.IO.Ports;

namespace PupilBridge.Ports;

/// <summary>
/// A serial line by System.IO.Ports, held to what that library does reliably: a read without token or time limit is
/// always pending, nothing is asked of <c>IsOpen</c>, and nothing is called after the line was lost but the disposal.
/// </summary>
internal sealed class SerialPortAdapter : IPort
{
    // A disposal can hang for ever while the device behind is gone. Then it is left behind.
    private static readonly TimeSpan ReleaseLimit = TimeSpan.FromSeconds(3);

    private readonly SerialPort serial;
    private readonly Stream stream;
    private readonly HangUpWatch? watch;
    private readonly ReceivePipe received;
    private readonly WriteTurns turns = new();
    private readonly TaskCompletionSource<PortLostException> over = new(
        TaskCreationOptions.RunContinuationsAsynchronously
    );
    private readonly Lazy<Task> released;

    internal SerialPortAdapter(string name, SerialPort serial, HangUpWatch? watch)
    {
        Name = name;
        this.serial = serial;
        this.watch = watch;
        stream = serial.BaseStream;
        received = new ReceivePipe(name);
        released = new Lazy<Task>(ReleaseAsync);
        _ = TakeAsync();
    }

    public string Name { get; }

    public ValueTask<int> ReadAsync(Memory<byte> buffer) => received.ReadAsync(buffer);

    public async ValueTask WriteAsync(ReadOnlyMemory<byte> bytes, TimeSpan limit)
    {
        await turns.TakeAsync().ConfigureAwait(false);
        try
        {
            if (!bytes.IsEmpty && !over.Task.IsCompleted)
            {
                await SendAsync(bytes, limit).ConfigureAwait(false);
            }
        }
        finally
        {
            turns.Pass();
        }

        if (over.Task.IsCompleted)
        {
            var how = await over.Task.ConfigureAwait(false);
            throw new PortLostException(Name, how.How, how.InnerException);
        }
    }

    public void Close()
    {
        received.Close();
        Lose(new PortLostException(Name, "it was closed."));
    }

    public async ValueTask DisposeAsync()
    {
        Close();
        await Task.WhenAny(released.Value, Task.Delay(ReleaseLimit)).ConfigureAwait(false);
    }

    private async Task SendAsync(ReadOnlyMemory<byte> bytes, TimeSpan limit)
    {
        try
        {
            var writing = stream.WriteAsync(bytes).AsTask();
            _ = writing.ContinueWith(static task => _ = task.Exception, TaskScheduler.Default);
            var first = await Task.WhenAny(writing, over.Task).WaitAsync(limit).ConfigureAwait(false);
            await first.ConfigureAwait(false);
        }
        catch (TimeoutException error)
        {
            Lose(new PortLostException(Name, $"it took no more bytes for {limit.TotalSeconds:0.###} s.", error));
        }
        catch (Exception error) when (IsLoss(error))
        {
            Lose(new PortLostException(Name, $"a write failed ({error.Message})", error));
        }
    }

    private async Task TakeAsync()
    {
        var how = new PortLostException(Name, "it was unplugged, or the device behind it went away.");
        try
        {
            var buffer = new byte[4096];
            while (true)
            {
                var reading = stream.ReadAsync(buffer).AsTask();
                // A hang-up that came while no read was pending is never reported to the read that follows.
                if (!reading.IsCompleted && watch is { IsHungUp: true })
                {
                    _ = reading.ContinueWith(static task => _ = task.Exception, TaskScheduler.Default);
                    break;
                }

                var count = await reading.ConfigureAwait(false);
                buffer.AsMemory(0, count).CopyTo(received.Room(Math.Max(1, count)));
                if (count == 0 || !await received.FilledAsync(count).ConfigureAwait(false))
                {
                    break;
                }
            }
        }
        catch (Exception error)
        {
            how = new PortLostException(Name, how.How, error);
        }

        Lose(how);
        received.End(await over.Task.ConfigureAwait(false));
    }

    private static bool IsLoss(Exception error) =>
        error
            is IOException
                or ObjectDisposedException
                or InvalidOperationException
                or OperationCanceledException
                or UnauthorizedAccessException;

    private void Lose(PortLostException how)
    {
        if (over.TrySetResult(how))
        {
            _ = released.Value;
        }
    }

    // The stream first: SerialPort.Dispose alone hangs for ever while a write is pending.
    private async Task ReleaseAsync()
    {
        var disposing = Task.Run(() =>
        {
            try
            {
                stream.Dispose();
                serial.Dispose();
            }
            catch (Exception error) when (IsLoss(error))
            {
                // It is gone, which was the wish.
            }
        });
        await Task.WhenAny(disposing, Task.Delay(ReleaseLimit)).ConfigureAwait(false);
        watch?.Dispose();
    }
}
