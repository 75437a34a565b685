using System.Runtime.CompilerServices;
using PupilBridge.Clinic;
using PupilBridge.Clinic.Outgoing;

namespace PupilBridge.Exchange.Tables;

/// <summary>Exams page after page; no page is kept once it was given.</summary>
internal static class OutgoingStream
{
    private const int PageSize = 50;

    /// <summary>Reads until the list ends. The next page is read while the one before it is used: two are held at most.</summary>
    public static async IAsyncEnumerable<OutgoingPage> ReadAsync(
        IOutgoingPages pages,
        TableSpan span,
        [EnumeratorCancellation] CancellationToken cancellation
    )
    {
        Task<OutgoingPage>? next = AskAsync(pages, span, null, cancellation);
        try
        {
            while (next is not null)
            {
                var page = await next.ConfigureAwait(false);
                next = page.Next is { } after ? AskAsync(pages, span, after, cancellation) : null;
                yield return page;
            }
        }
        finally
        {
            // Whoever gives up in the middle leaves no reading behind that nobody waits for.
            if (next is not null)
            {
                await ((Task)next).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
            }
        }
    }

    private static Task<OutgoingPage> AskAsync(
        IOutgoingPages pages,
        TableSpan span,
        string? after,
        CancellationToken cancellation
    ) =>
        pages.ListOutgoingAsync(
            new OutgoingSearch
            {
                OpenedFrom = span.From,
                OpenedBefore = span.Before,
                After = after,
                Limit = PageSize,
            },
            cancellation
        );
}
