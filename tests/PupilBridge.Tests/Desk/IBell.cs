using System.Runtime.CompilerServices;

namespace PupilBridge.Tests.Desk;

/// <summary>A desk for tests of the socket alone.</summary>
public interface IBell
{
    Task<string> RingAsync(string text, CancellationToken cancellationToken);

    IAsyncEnumerable<int> CountAsync(int to, CancellationToken cancellationToken);

    Task FailAsync();
}

public sealed class Bell : IBell
{
    public Task<string> RingAsync(string text, CancellationToken cancellationToken) => Task.FromResult(text + "!");

    public async IAsyncEnumerable<int> CountAsync(int to, [EnumeratorCancellation] CancellationToken cancellationToken)
    {
        for (var n = 1; n <= to; n++)
        {
            await Task.Yield();
            cancellationToken.ThrowIfCancellationRequested();
            yield return n;
        }
    }

    public Task FailAsync() => throw new InvalidOperationException("The bell is cracked.");
}
