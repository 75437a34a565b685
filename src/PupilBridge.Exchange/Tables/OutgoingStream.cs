using System.Runtime.CompilerServices;
using PupilBridge.Clinic;
using PupilBridge.Clinic.Outgoing;

namespace PupilBridge.Exchange.Tables;

/// <summary>Exams page after page; no page is kept once it was given.</summary>
internal static class OutgoingStream
{
    private const int PageSize = 50;

    /// <summary>Reads until the list ends.</summary>
    public static async IAsyncEnumerable<OutgoingPage> ReadAsync(
        IOutgoingPages pages,
        TableSpan span,
        [EnumeratorCancellation] CancellationToken cancellation
    )
    {
        string? after = null;
        do
        {
            var page = await pages
                .ListOutgoingAsync(
                    new OutgoingSearch
                    {
                        OpenedFrom = span.From,
                        OpenedBefore = span.Before,
                        After = after,
                        Limit = PageSize,
                    },
                    cancellation
                )
                .ConfigureAwait(false);
            yield return page;
            after = page.Next;
        } while (after is not null);
    }
}
