using System.Runtime.ExceptionServices;

namespace PupilBridge.Voyage.World;

/// <summary>
/// Long work of the product that is done piece by piece while the world goes on. It has a thread of its own, which runs only while the
/// world waits for it: never two at once, so that the same seed does the same.
/// </summary>
internal sealed class Stretch : IDisposable
{
    private readonly Thread thread;
    private readonly SemaphoreSlim mayGoOn = new(0);
    private readonly SemaphoreSlim rests = new(0);
    private volatile bool isAbandoned;
    private ExceptionDispatchInfo? failure;

    public Stretch(Action work)
    {
        thread = new Thread(() => Do(work)) { IsBackground = true, Name = "stretch" };
        thread.Start();
    }

    /// <summary>Whether it came to its end.</summary>
    public bool IsDone { get; private set; }

    /// <summary>Does the next piece.</summary>
    /// <exception cref="Exception">What the work threw.</exception>
    public void GoOn()
    {
        if (IsDone)
            return;
        mayGoOn.Release();
        rests.Wait();
        failure?.Throw();
    }

    /// <summary>Ends the piece; called by the work itself. Nothing happens when somebody else calls it.</summary>
    /// <exception cref="OperationCanceledException">The work is abandoned.</exception>
    public void Rest()
    {
        if (Thread.CurrentThread != thread)
            return;
        rests.Release();
        mayGoOn.Wait();
        ThrowIfAbandoned();
    }

    /// <summary>Ends it where it stands, as a stop or a death of the process does.</summary>
    public void Dispose()
    {
        isAbandoned = true;
        if (!IsDone)
        {
            mayGoOn.Release();
            rests.Wait();
        }

        thread.Join();
        mayGoOn.Dispose();
        rests.Dispose();
    }

    private void Do(Action work)
    {
        mayGoOn.Wait();
        try
        {
            ThrowIfAbandoned();
            work();
        }
        catch (OperationCanceledException) when (isAbandoned)
        {
            // As it was told.
        }
        catch (Exception e)
        {
            failure = ExceptionDispatchInfo.Capture(e);
        }

        IsDone = true;
        rests.Release();
    }

    private void ThrowIfAbandoned()
    {
        if (isAbandoned)
            throw new OperationCanceledException();
    }
}
